import type { Finding } from "../../findings/finding.js";
import type { LineInto } from "../../line/write/update-line.js";
import type { TaskChange } from "../../study/into-line.js";
import type { StudiedElement, Study } from "../../study/study-elements.js";
import { findingJson } from "./finding-json.js";
import { numberJson, secondsJson } from "./number-json.js";
import { asText, resultDocument } from "./result-document.js";

/** A line file that took the times of a study. */
export type IntoJson = LineInto<TaskChange>;

/** The result document of `study`: times of one time that an element is done, in seconds with 6 decimals; totals per unit. */
export function studyDocument(study: Study, into: IntoJson | null, findings: readonly Finding[]) {
  const { terms, read } = study;
  return resultDocument("study", {
    outcome: "found" as const,
    understood: {
      layout: read.layout,
      unit: read.unit,
      decimalMark: read.decimalMark,
      delimiter: read.table?.delimiter ?? null,
      encoding: read.table?.encoding ?? null,
      sheet: read.table?.sheet ?? null,
      otherSheets: read.table?.otherSheets ?? [],
    },
    clock: terms.clock ?? "restart",
    statistic: terms.statistic,
    confidence: numberJson(terms.confidence),
    precision: "share" in terms.within ? numberJson(terms.within.share) : null,
    errorSeconds: "time" in terms.within ? secondsJson(terms.within.time) : null,
    allowance: {
      of: terms.allowanceBase,
      share: numberJson(study.allowance),
      parts: terms.allowances.map(({ name, share }) => ({ name, share: numberJson(share) })),
    },
    elements: study.elements.map(elementJson),
    totals: { normalSeconds: secondsJson(study.normal), standardSeconds: secondsJson(study.standard) },
    into: into && {
      file: into.file,
      written: into.isWritten,
      tasks: into.line.tasks.map(({ task, was, now, elements }) => ({
        task,
        wasSeconds: secondsJson(was),
        nowSeconds: secondsJson(now),
        elements,
      })),
    },
    findings: findings.map(findingJson),
  });
}

export const studyJson = asText(studyDocument);

function elementJson(element: StudiedElement) {
  const { needed } = element;
  return {
    element: element.name,
    readings: element.readings,
    leftOut: element.leftOut,
    observedSeconds: secondsJson(element.observed),
    standardDeviationSeconds: secondsJson(element.deviation),
    rating: numberJson(element.rating),
    normalSeconds: secondsJson(element.normal),
    standardSeconds: secondsJson(element.standard),
    readingsNeeded: needed?.readings ?? null,
    neededBy: needed?.by ?? null,
    quantile: needed === null ? null : numberJson(needed.quantile),
    task: element.task,
    every: element.every,
    meanSeconds: secondsJson(element.mean),
    shown: element.shown.map(({ time, isLeftOut, isOdd }) => ({
      seconds: secondsJson(time),
      leftOut: isLeftOut,
      odd: isOdd,
    })),
    observers: element.observers.map(({ name, readings, mean }) => ({
      observer: name,
      readings,
      meanSeconds: secondsJson(mean),
    })),
  };
}
