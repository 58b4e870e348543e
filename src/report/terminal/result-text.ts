import type { BalanceAnswer } from "../../answer/balance/balance-answer.js";
import type { ShownBalance } from "../../answer/balance/shown-balance.js";
import { countOf, thousands } from "../../findings/count-of.js";
import { tells } from "../../findings/finding.js";
import { eitherOf } from "../../findings/list-of.js";
import { visibleText } from "../../findings/visible-text.js";
import type { Line } from "../../line/line.js";
import type { ShiftOutput } from "../../plan/figures/output.js";
import type { PlanMeasures } from "../../plan/measure.js";
import type { UnfinishedBalance } from "../../solve/balance.js";
import type { StuckTask } from "../../solve/explain/find-stuck-tasks.js";
import { showTimesApart, showTimesIn } from "../../time/show-in-unit.js";
import { difference, isOne, signOf } from "../../time/show-numbers.js";
import { percent, toMinutes } from "../../time/show-values.js";
import { obstacleClauses } from "../words/obstacle-words.js";
import { splitOfPeople } from "../words/people-words.js";
import { labelled, paragraph } from "./sections.js";
import type { Look } from "./style.js";
import { formatTable } from "./table.js";

/** Stations, people and every figure of the plan, each with what it is measured against. */
export function resultText(answer: ShownBalance, look: Look): string {
  const { measures } = answer;
  if (measures === null && answer.plan !== null)
    return paragraph("The plan leaves out tasks of the line: it has no figures as a whole.", look);
  if (measures === null) return noPlanText(answer, look);
  return labelled(figures(answer, measures), look);
}

/** Why there is nothing to show. */
function noPlanText(answer: BalanceAnswer, look: Look): string {
  const { line, obstacles, findings, unfinished } = answer;
  if (obstacles.length > 0) {
    const reasons = obstacleClauses(line.unit, obstacles).map((words) => ["-", words]);
    const list = formatTable(
      [{ head: "" }, { head: "", wraps: true }],
      reasons.map((row) => row.map(visibleText)),
      look.width,
    );
    return `${paragraph("No balance keeps the rules of the line:", look)}${list}`;
  }
  const why = findings.find((each) => tells(each, "no-plan"));
  const told = paragraph(
    why === undefined
      ? "No balance: no station can hold the tasks named below."
      : `No balance: ${why.message}.`,
    look,
  );
  return unfinished === null ? told : `${told}${unfinishedText(answer, unfinished, look)}`;
}

/** The same as rows of a label, a value and what it is measured against; a row without a label goes with the one above. */
export function figures(answer: ShownBalance, measures: PlanMeasures): [string, string, string][] {
  const { line, pace } = answer;
  const people = answer.shown.people!;
  const show = showTimesIn(line.unit);
  const { efficiencyAtPace, efficiencyAtSlowest, balanceDelayAtPace, balanceDelayAtSlowest } = measures;
  const smoothness = show(Math.round(measures.smoothness));
  const shares: [string, string, string][] = [
    [
      "efficiency",
      share(efficiencyAtPace),
      `at the pace: work content / ${paidTime(answer, show(pace.workingTime))}`,
    ],
    ["", share(efficiencyAtSlowest), `at the slowest station, ${measures.slowestStation}`],
    ["balance delay", share(balanceDelayAtPace), "at the pace"],
    ["", share(balanceDelayAtSlowest), "at the slowest station"],
  ];
  return [
    ["stations", String(measures.stations), ""],
    ["people", String(people.atATime), splitOfPeople(line, people)],
    ["work content", show(measures.workContent), "person-time of one unit"],
    ...kindsOfWork(measures),
    [
      "cycle of the plan",
      show(measures.cycleOfPlan),
      `${measures.slowestStation}${setByWords(measures.cycleSetBy, pace.handling > 0)}; line cycle ${show(pace.lineCycle)}`,
    ],
    ...heldRows(answer),
    ...leadTime(answer, measures),
    ...shares,
    ["smoothness index", smoothness, "root of the summed squared gaps to the cycle of the plan"],
    ["idle", show(measures.idlePerUnit), "per unit, all stations, against the working time"],
    ...perShift(answer, measures),
  ];
}

/** That a good unit comes less often than the slowest station could send one on. */
function heldRows({ line, shown: { heldTo } }: ShownBalance): [string, string, string][] {
  const words = "to which waits hold the line, as units stay in it while they wait";
  return heldTo === null ? [] : [["", showTimesIn(line.unit)(heldTo), words]];
}

/** Which of its people, its room and its equipment the cycle of the slowest station is, as its time in the table is that of people. */
function setByWords(by: PlanMeasures["cycleSetBy"], isHandled: boolean): string {
  const handling = isHandled ? " with handling" : "";
  if (by.kind === "dwell") return `, set by how long a unit stands there${handling && `,${handling}`}`;
  if (by.kind === "equipment") return `, set by how long a unit keeps ${visibleText(by.name)}`;
  return handling;
}

function perShift(
  { shown }: ShownBalance,
  { idlePerShift, outputPerShift, ofUnequalShifts }: PlanMeasures,
): [string, string, string][] {
  // A plan that sets its own pace may be worked more slowly than its stations could, for what models or machines need.
  const own = shown.isPacedByOthers ? "the line cycle" : "the cycle of the plan";
  const cycle = shown.heldTo === null ? own : "what waits hold the line to";
  if (ofUnequalShifts !== null) {
    const { idlePerDay, output: byShift } = ofUnequalShifts;
    return [
      ["", toMinutes(idlePerDay), "per day, as the shifts differ in length"],
      [
        "output",
        thousands(shown.outputPerDay!),
        `good units a day at ${cycle}, rounded down: ${shiftWords(byShift)}`,
      ],
    ];
  }
  const idle: [string, string, string][] =
    idlePerShift === null ? [] : [["", toMinutes(idlePerShift), "per shift"]];
  const output: [string, string, string][] =
    outputPerShift === null
      ? []
      : [["output", thousands(outputPerShift), `good units a shift at ${cycle}, rounded down`]];
  return [...idle, ...output];
}

/** The units of each shift by its name. */
export const shiftWords = (byShift: readonly ShiftOutput[]): string =>
  byShift.map(({ shift, units }) => `${visibleText(shift)} ${thousands(units)}`).join(", ");

/** What the people could work for one unit: with handling, a second place of a station adds more than the first, a second pass takes more. */
function paidTime({ stations, pace, measures, shown }: ShownBalance, workingTime: string): string {
  // People at benches have working times of their own.
  if (shown.people?.atBenches) return "the working time of all people on the line and at benches";
  const who = measures?.repairPeople ? "people on the line" : "people";
  const isAlike =
    pace.handling === 0 || stations.every(({ places, passes }) => places === 1 && isOne(passes));
  return isAlike ? `(${who} x ${workingTime})` : `the working time of all ${who}`;
}

/** How the work content divides by kind of work, where tasks say so. */
function kindsOfWork({ valueShares }: PlanMeasures): [string, string, string][] {
  const said = (valueShares ?? []).filter(({ kind, share: part }) => kind !== null || signOf(part) > 0);
  return said.map(({ kind, share: part }) => ["", percent(part), kind ?? "of a kind not said"]);
}

function leadTime({ line }: BalanceAnswer, measures: PlanMeasures): [string, string, string][] {
  if (measures.leadTimeOfWaits === null) return [];
  const show = showTimesIn(line.unit);
  const added = show(measures.leadTimeOfWaits);
  const isMoving = line.flow.pacing !== "unpaced";
  const waits = isMoving ? `${added} more than without its waits` : `${added} of it waiting`;
  return [["lead time", show(measures.leadTime), `of a unit through the line, ${waits}`]];
}

const share = (value: PlanMeasures["efficiencyAtPace"]): string => (value === null ? "-" : percent(value));

/** How far a search came that found no plan, where it got stuck, and what to try. */
function unfinishedText({ line, search }: BalanceAnswer, unfinished: UnfinishedBalance, look: Look): string {
  const { plan, left, stuck } = unfinished;
  const placed = line.tasks.length - left.length;
  const all = countOf(line.tasks.length, "task");
  const best = `The best partial plan places ${placed} of ${all} at ${countOf(plan.stations.length, "station")}. No station was found for:`;
  const shown = stuck.slice(0, MOST_SHOWN);
  const further = stuck.length - shown.length;
  const rows = [
    ...shown.map((each) => stuckWords(line, each)),
    ...(further > 0 ? [`and ${countOf(further, "further task")}: see --json`] : []),
  ].map((words) => ["-", visibleText(words)]);
  const list = formatTable([{ head: "" }, { head: "", wraps: true }], rows, look.width);
  const times = search.ended === "time" ? "more --seconds" : "more --nodes or --seconds";
  const held = stuck.some(({ stations }) => stations !== null) ? "; more stations for the tasks named" : "";
  return `${paragraph(best, look)}${list}${paragraph(`To try: ${times}; --from PLAN, a plan to start from${held}.`, look)}`;
}

const MOST_SHOWN = 10;

function stuckWords(line: Line, { task, stations, needs, room }: StuckTask): string {
  const { id } = line.tasks[task]!;
  if (stations === null || room === null) {
    const where = line.floor.length === 0 ? "at any station" : "behind the floor, too";
    return `${id} takes ${showTimesIn(line.unit)(needs)} and may stand ${where}`;
  }
  const ids = stations.map((station) => line.floor[station]!.id);
  const where = eitherOf(ids);
  const there = ids.length === 1 ? "" : " at one of them";
  const [takes, free] = showTimesApart(line.unit, needs, room);
  const left =
    difference(room, needs) < 0
      ? `the most time left there is ${free}`
      : `up to ${free} is left${there}, so another rule keeps it out`;
  return `${id} takes ${takes} and must stand at ${where}; ${left}`;
}
