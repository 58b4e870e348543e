import stringWidth from "string-width";
import type { StaffAnswer, StaffWay } from "../../answer/staff/staff-answer.js";
import { countOf } from "../../findings/count-of.js";
import { visibleText } from "../../findings/visible-text.js";
import { type ShowTime, showTimesRoughlyIn } from "../../time/show-in-unit.js";
import { difference, shareBelow, signOf, sizeOf } from "../../time/show-numbers.js";
import { decimal, downToMinutes, longTime, upToMinutes } from "../../time/show-values.js";
import { noWayWords } from "../words/no-way-words.js";
import { paragraph } from "./sections.js";
import { demandWords } from "./staff-words.js";
import type { Look } from "./style.js";
import { formatTable } from "./table.js";

/** Other shifts and other hours for one demand, each with its people, under the heading below. */
export function staffWaysText(answer: StaffAnswer, look: Look): string {
  const { line, ways, hiresMore } = answer;
  if (ways.length === 0) return "";
  const show = showTimesRoughlyIn(line.unit);
  const costs = ways.some(({ costPerUnit }) => costPerUnit !== null);
  const columns = [
    { head: "way", cell: (way: StaffWay) => wayWords(way, answer) },
    { head: "people", cell: peopleCell },
    { head: "per day", cell: ({ peoplePerDay }: StaffWay) => String(peoplePerDay ?? "-") },
    ...(hiresMore ? [{ head: "to hire", cell: ({ hired }: StaffWay) => String(hired ?? "-") }] : []),
    { head: "line cycle", cell: ({ pace }: StaffWay) => (pace === null ? "-" : show(pace.lineCycle)) },
    ...(costs
      ? [
          {
            head: "cost",
            cell: ({ costPerUnit }: StaffWay) => (costPerUnit === null ? "-" : decimal(costPerUnit, 2)),
          },
        ]
      : []),
  ];
  const widthOf = ({ head, cell }: (typeof columns)[number]) =>
    2 + Math.max(...[head, ...ways.map(cell)].map((each) => stringWidth(each)));
  const shown = [...columns];
  for (const head of FIRST_TO_GO) {
    if (shown.reduce((sum, column) => sum + widthOf(column), 2) + HOURS <= look.width) break;
    const at = shown.findIndex((column) => column.head === head);
    if (at >= 0) shown.splice(at, 1);
  }
  const doubt = ways.some((way) => peopleCell(way).endsWith(DOUBT))
    ? `  ${DOUBT} not proved the fewest\n`
    : "";
  const table = formatTable(
    [
      ...shown.map(({ head }, at) => ({ head, align: at === 0 ? ("left" as const) : ("right" as const) })),
      { head: "hours of a shift", wraps: true, narrowest: HOURS },
    ],
    ways.map((way) => [...shown.map(({ cell }) => cell(way)), `${hoursWords(way)}${slowWords(way, show)}`]),
    look.width,
  );
  const reserve =
    shareBelow(line.planTo, 100) && ways.some(({ kind }) => kind === "hours")
      ? "Crews work at the cycle of their plan, without the reserve of plan-to."
      : "";
  return `${table}${doubt}${paragraph(reserve, look)}${paragraph(sameShifts(answer), look)}`;
}

/** Where shifts differ, what other numbers of shifts assume of their length. */
function sameShifts({ assumedShift }: StaffAnswer): string {
  if (assumedShift === null) return "";
  const { name, available } = assumedShift;
  return `Today's shifts differ in length; 1, 2 and 3 shifts are each assumed to be like ${visibleText(name)}, ${longTime(available)} long.`;
}

/** Columns for the hours, at the least. */
const HOURS = 15;
/** What makes room for them where the width is small. */
const FIRST_TO_GO = ["line cycle", "cost", "per day", "to hire"];
const DOUBT = "*";

function wayWords({ kind, shifts, crewOf }: StaffWay, { waysDemand }: StaffAnswer): string {
  if (kind === "shifts") return countOf(shifts, "shift");
  if (crewOf === null) return "today's crew";
  return `crew for ${crewOf.period === waysDemand?.period ? decimal(crewOf.units, 6) : demandWords(crewOf)}`;
}

function peopleCell({ kind, people, outcome }: StaffWay): string {
  if (people === null) return "-";
  return kind === "shifts" && outcome === "found" ? `${people} ${DOUBT}` : String(people);
}

function hoursWords({ reason, timePerShift, overtime }: StaffWay): string {
  if (reason !== null) return noWayWords(reason);
  if (timePerShift === null) return "-";
  const whole = upToMinutes(timePerShift);
  if (overtime === null || signOf(overtime) === 0) return whole;
  if (signOf(overtime) > 0) return `${whole}, ${upToMinutes(overtime)} more than now`;
  const saved = downToMinutes(sizeOf(overtime));
  return saved === "0 min" ? whole : `${whole}, ${saved} less than now`;
}

/** That the shifts do not make the demand, as waits hold the line up. */
function slowWords({ kind, pace, outputCycle }: StaffWay, show: ShowTime): string {
  if (kind !== "shifts" || pace === null || outputCycle === null) return "";
  return difference(outputCycle, pace.lineCycle) > 0
    ? `, too slow: waits hold the line to ${show(outputCycle)}`
    : "";
}

export const waysHeading = ({ waysDemand }: StaffAnswer): string =>
  waysDemand === null ? "" : `other ways to make ${demandWords(waysDemand)}`;
