import type { ShownTakt } from "../../answer/balance/shown-takt.js";
import { thousands } from "../../findings/count-of.js";
import { visibleText } from "../../findings/visible-text.js";
import type { Line } from "../../line/line.js";
import { differenceShown, isShownExactly, showTimesIn } from "../../time/show-in-unit.js";
import { beforeRounding, decimal, longTime, percent, seconds } from "../../time/show-values.js";
import type { CalendarSum, PaceStep, ShiftSum, TakenOff, TaktSum } from "../../time/takt.js";
import { keepPaceTerms } from "./pace-text.js";
import { headed, labelled, paragraph, titleText } from "./sections.js";
import type { Look } from "./style.js";

type Row = [string, string, string];

/** The whole sum from the calendar to the station limit, one term a row. */
export function taktText(answer: ShownTakt, look: Look): string {
  const { line, takt } = answer;
  const parts = [
    titleText(line, look),
    headed(
      "available time",
      takt.calendar === null ? "" : labelled(calendarRows(takt.calendar, takt), look),
      look,
    ),
    headed("demand", labelled(demandRows(answer), look), look),
    headed("pace", `${labelled(paceRows(line, takt), look)}${roundedText(line, takt, look)}`, look),
    headed("carriers", labelled(carrierRows(answer), look), look),
    headed("pace at the tests that scrap", labelled(scrapRows(answer), look), look),
  ];
  return parts.filter((part) => part !== "").join("\n");
}

function calendarRows(calendar: CalendarSum, takt: TaktSum): Row[] {
  const shifts = calendar.shifts.length;
  const counts = calendar.counts.map(({ key, count }) => ` x ${decimal(count, 3)} ${key}`).join("");
  const period = takt.terms.demand.period;
  const perDay = `available per day, ${shifts} ${shifts === 1 ? "shift" : "shifts, one after another"}`;
  const rows: Row[] = [
    ...calendar.shifts.flatMap(shiftRows),
    ["per day", longTime(calendar.availablePerDay), perDay],
  ];
  if (counts !== "") rows.push([`per ${period}`, longTime(takt.availablePerPeriod), `per day${counts}`]);
  return rows;
}

function shiftRows({ shift, takenOff, available }: ShiftSum): Row[] {
  const clock = shift.from === null || shift.to === null ? "" : `, ${shift.from} to ${shift.to}`;
  const overtime: Row[] = shift.overtime === 0 ? [] : [["  + overtime", longTime(shift.overtime), ""]];
  return [
    [`shift ${visibleText(shift.name)}`, longTime(shift.gross), `gross${clock}`],
    ...takenOff.map(takenOffRow),
    ...overtime,
    ["  = available", longTime(available), `${seconds(available)} in shift ${visibleText(shift.name)}`],
  ];
}

function takenOffRow({ kind, name, count, each, total }: TakenOff): Row {
  const times = count === 1 ? "" : `, ${count} x ${longTime(each)}`;
  return [`  - ${kind}`, longTime(total), `${visibleText(name)}${times}`];
}

function demandRows({ takt, toStart, wholeToStart, goodShare: passing }: ShownTakt): Row[] {
  const { demand } = takt.terms;
  const wanted: Row = ["wanted", decimal(demand.units, 6), `good units per ${demand.period}`];
  const perDay: Row[] =
    takt.calendar === null || demand.period === "day"
      ? []
      : [["", decimal(takt.calendar.demandPerDay, 2), "good units per day"]];
  const yields = `${percent(takt.terms.yield, 6)} yield`;
  const losses = passing === null ? yields : `(${yields} x ${percent(passing, 6)} passing)`;
  const rounded = toStart.den === 1n ? "" : ", rounded up";
  const start: Row = [
    "to start",
    thousands(wholeToStart),
    `units per ${demand.period}: ${decimal(demand.units, 6)} / ${losses} = ${beforeRounding(toStart)}${rounded}`,
  ];
  return [
    wanted,
    ...perDay,
    ["", decimal(takt.demandPerHour, 4), "good units per hour of available time"],
    start,
  ];
}

function paceRows(line: Line, takt: TaktSum): Row[] {
  const show = showTimesIn(line.unit);
  const { units, period } = takt.terms.demand;
  const sum = `${longTime(takt.availablePerPeriod)} available per ${period} / ${decimal(units, 6)} good units`;
  return [["takt", show(takt.takt), sum], ...takt.steps.map((step) => stepRow(step, takt, line, show))];
}

/** That a row is no product of the row above as it is shown, where times have more digits than are shown. */
function roundedText(line: Line, { takt, steps }: TaktSum, look: Look): string {
  const show = showTimesIn(line.unit);
  const isExact = [takt, ...steps.map(({ after }) => after)].every((time) => isShownExactly(time, show));
  return isExact
    ? ""
    : paragraph("Every row is worked out exactly from the one above, and rounded only as it is shown.", look);
}

/** What failures and scrap take of a line that moves together; none where each good unit takes one carrier. */
function carrierRows({ line, takt, carriers }: ShownTakt): Row[] {
  if (carriers === null) return [];
  const show = showTimesIn(line.unit);
  const { perGoodUnit, every } = carriers;
  const least = decimal(perGoodUnit, 6);
  return [
    ["per good unit", least, "carriers at least, as units that fail or are scrapped take some as well"],
    ["one comes every", show(every), `at the longest: ${show(takt.pace.lineCycle)} line cycle / ${least}`],
  ];
}

/** A test that scraps its failures loads the tasks up to it only: they see more units than those behind it. */
function scrapRows({ line, scrapPaces }: ShownTakt): Row[] {
  const show = showTimesIn(line.unit);
  return scrapPaces.map(({ test, scrap, before, after }) => [
    visibleText(line.tasks[test]!.id),
    percent(scrap, 2),
    `scrapped: before it the pace is ${show(before)}, after it ${show(after)}`,
  ]);
}

function stepRow(
  { kind, amount, before, after, less: taken }: PaceStep,
  takt: TaktSum,
  { keepPace }: Pick<ShownTakt["line"], "keepPace">,
  show: ReturnType<typeof showTimesIn>,
): Row {
  const share = typeof amount === "number" ? "" : percent(amount, 4);
  const less = differenceShown(before, after, show);
  const change = (words: string) => (taken.num === 0n ? ": no change" : words);
  switch (kind) {
    case "uptime":
      return [
        "",
        show(after),
        `x ${share} uptime${change(`: ${less} shorter than takt, to make up for stops`)}`,
      ];
    case "yield":
      return [
        "line cycle",
        show(after),
        `x ${share} yield${change(`: a further ${less} shorter, to make up for scrap`)}`,
      ];
    case "handling": {
      const of = `${percent(takt.workingShare)} of the line cycle`;
      return [
        "working time",
        show(after),
        `- ${show(amount)} handling per unit and station${change(`; ${of}`)}`,
      ];
    }
    case "plan-to":
      return [
        "station limit",
        show(after),
        keepPace !== null
          ? keepPaceTerms(keepPace)
          : `x ${share} plan-to${change(`: ${less} of the working time is kept in reserve`)}`,
      ];
  }
}
