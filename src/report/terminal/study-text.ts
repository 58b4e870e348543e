import { countOf, thousands } from "../../findings/count-of.js";
import { visibleText } from "../../findings/visible-text.js";
import type { StudiedElement, Study } from "../../study/study-elements.js";
import { type ShowTime, showTimesIn } from "../../time/show-in-unit.js";
import { percent } from "../../time/show-values.js";
import type { IntoJson } from "../json/study-json.js";
import {
  allowanceWords,
  moreNeededWords,
  neededWords,
  readWords,
  statisticWords,
} from "../words/study-words.js";
import { readingsPicture } from "./readings-picture.js";
import { headed, linesText, paragraph } from "./sections.js";
import { type Look, paintFor } from "./style.js";
import { formatTable } from "./table.js";

/** A time study for people: every element from its readings to its standard time, and what is needed to be sure of it. */
export function studyText(
  study: Study,
  pictured: StudiedElement | null,
  into: IntoJson | null,
  look: Look,
): string {
  const show = showTimesIn(study.read.unit);
  const parts = [
    `${paintFor(look).strong(visibleText(study.file))}\n${visibleText(`${countOf(study.elements.length, "element")}: ${readWords(study)}`)}\n`,
    headed("elements", elementRows(study, show, look), look),
    headed(
      "allowance and readings needed",
      [allowanceWords(study), neededWords(study, show), moreNeededWords(study)]
        .map((words) => paragraph(words, look))
        .join(""),
      look,
    ),
    headed("observers", observerRows(study, show, look), look),
    pictured === null ? "" : readingsPicture(pictured, show, look),
    into === null ? "" : intoText(into, show, look),
  ];
  return parts.filter((part) => part !== "").join("\n");
}

function elementRows(study: Study, show: ShowTime, look: Look): string {
  const { elements } = study;
  const rows = elements.map((element) => [
    visibleText(element.name) + (element.every > 1 ? `, every ${element.every} units` : ""),
    `${element.readings}${element.leftOut > 0 ? ` (${element.leftOut} left out)` : ""}`,
    show(element.observed),
    element.deviation === null ? "-" : show(element.deviation),
    `${percent(element.rating)}${element.isRatedAlike ? "" : " *"}`,
    show(element.normal),
    show(element.standard),
    element.needed === null ? "-" : thousands(element.needed.readings),
  ]);
  const total = ["per unit", "", "", "", "", show(study.normal), show(study.standard), ""];
  const table = formatTable(
    [
      { head: "element", givesWay: true },
      { head: "readings", align: "right" },
      { head: statisticWords(study), align: "right" },
      { head: "spread", align: "right" },
      { head: "rating", align: "right" },
      { head: "normal", align: "right" },
      { head: "standard", align: "right" },
      { head: "needed", align: "right" },
    ],
    [...rows, total],
    look.width,
  );
  const notes = [
    ...(elements.some(({ isRatedAlike }) => !isRatedAlike)
      ? ["* Readings have ratings of their own: normal / observed time."]
      : []),
    ...(elements.some(({ every }) => every > 1)
      ? ["Times are of one time that the element is done. Per unit, each counts / its units."]
      : []),
    "Spread is the standard deviation with n - 1. Times are rounded when shown; sums are of exact times.",
  ];
  return table + notes.map((note) => paragraph(note, look)).join("");
}

function observerRows({ elements }: Study, show: ShowTime, look: Look): string {
  const rows = elements.flatMap(({ name, observers }) =>
    observers.map((each) => [
      visibleText(name),
      each.name === "" ? "not named" : visibleText(each.name),
      String(each.readings),
      show(each.mean),
    ]),
  );
  if (rows.length === 0) return "";
  const heads = [
    { head: "element", givesWay: true },
    { head: "observer", givesWay: true },
    { head: "readings", align: "right" as const },
    { head: "mean, not rated", align: "right" as const },
  ];
  return formatTable(heads, rows, look.width);
}

function intoText({ file, isWritten, line }: IntoJson, show: ShowTime, look: Look): string {
  const rows = line.tasks.map(({ task, was, now, elements }) => [
    visibleText(task),
    show(was),
    show(now),
    elements.length === 1 && elements[0] === task ? "" : `from ${elements.map(visibleText).join(", ")}`,
  ]);
  const table = formatTable(
    [
      { head: "task", givesWay: true },
      { head: "was", align: "right" },
      { head: "now", align: "right" },
      { head: "", wraps: true },
    ],
    rows,
    look.width,
  );
  if (isWritten) return headed("written", `${paragraph(`Into ${file}:`, look)}${table}`, look);
  const said = paragraph(`Into ${file}, without --dry-run:`, look);
  return headed("not written", `${said}${table}\n${linesText(line.lines)}`, look);
}
