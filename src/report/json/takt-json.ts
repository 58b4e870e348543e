import type { Finding } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import { type Ratio, toNumber } from "../../time/ratio.js";
import type { ShiftSum, TaktSum } from "../../time/takt.js";
import { paceJson, secondsJson } from "./balance-json.js";
import { findingJson } from "./finding-json.js";

/** The result document of `takt`: the terms of the sum, seconds with 6 decimals, shares as fractions. */
export function taktJson(line: Line, takt: TaktSum, findings: readonly Finding[]): string {
  const { terms, calendar, pace } = takt;
  const document = {
    format: "linepoise/1",
    command: "takt",
    line: line.name,
    outcome: "found",
    demand: { units: number(terms.demand.units), period: terms.demand.period },
    calendar: calendar && {
      shifts: calendar.shifts.map(shiftJson),
      availableSecondsPerDay: secondsJson(calendar.availablePerDay),
      unitsPerDay: number(calendar.demandPerDay),
    },
    availableSecondsPerPeriod: secondsJson(takt.availablePerPeriod),
    unitsPerHour: number(takt.demandPerHour),
    uptime: number(terms.uptime),
    yield: number(terms.yield),
    unitsToStart: number(takt.unitsToStart),
    wholeUnitsToStart: Number(takt.wholeUnitsToStart),
    pace: paceJson(pace),
    workingSeconds: secondsJson(pace.workingTime),
    workingShareOfLineCycle: number(takt.workingShare),
    findings: findings.map(findingJson),
  };
  return `${JSON.stringify(document, null, 2)}\n`;
}

const number = (value: Ratio): number => toNumber(value);

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
