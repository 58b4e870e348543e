import type { ShownTakt } from "../../answer/balance/shown-takt.js";
import type { Finding } from "../../findings/finding.js";
import type { ShiftSum } from "../../time/takt.js";
import { paceJson } from "./balance-json.js";
import { findingJson } from "./finding-json.js";
import { scrapTestsJson } from "./line-json.js";
import { numberJson, secondsJson } from "./number-json.js";
import { asText, resultDocument } from "./result-document.js";

/** The result document of `takt`: the terms of the sum, seconds with 6 decimals, shares as fractions. */
export function taktDocument(answer: ShownTakt, findings: readonly Finding[]) {
  const { line, takt, toStart, wholeToStart, goodShare, carriers } = answer;
  const { terms, calendar, pace } = takt;
  return resultDocument("takt", {
    line: line.name,
    outcome: "found" as const,
    demand: { units: numberJson(terms.demand.units), period: terms.demand.period },
    calendar: calendar && {
      shifts: calendar.shifts.map(shiftJson),
      availableSecondsPerDay: secondsJson(calendar.availablePerDay),
      unitsPerDay: numberJson(calendar.demandPerDay),
    },
    availableSecondsPerPeriod: secondsJson(takt.availablePerPeriod),
    unitsPerHour: numberJson(takt.demandPerHour),
    uptime: numberJson(terms.uptime),
    yield: numberJson(terms.yield),
    unitsToStart: numberJson(toStart),
    wholeUnitsToStart: Number(wholeToStart),
    pace: paceJson(pace),
    workingSeconds: secondsJson(pace.workingTime),
    workingShareOfLineCycle: numberJson(takt.workingShare),
    findings: findings.map(findingJson),
    goodShare: numberJson(goodShare),
    scrapTests: scrapTestsJson(line, answer),
    /** At least, on a line that moves together; null where a good unit takes one. */
    carriers: carriers && {
      leastPerGoodUnit: numberJson(carriers.perGoodUnit),
      seconds: secondsJson(carriers.every),
    },
  });
}

export const taktJson = asText(taktDocument);

function shiftJson({ shift, takenOff, available }: ShiftSum) {
  return {
    name: shift.name,
    from: shift.from,
    to: shift.to,
    grossSeconds: secondsJson(shift.gross),
    takenOff: takenOff.map(({ kind, name, count, total }) => ({
      kind,
      name,
      count,
      seconds: secondsJson(total),
    })),
    overtimeSeconds: secondsJson(shift.overtime),
    availableSeconds: secondsJson(available),
  };
}
