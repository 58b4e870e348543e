import { benchesOfPlan } from "../../benches/bench-of-plan.js";
import { countOf } from "../../findings/count-of.js";
import type { Finding } from "../../findings/finding.js";
import { finding } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import { findUnnamed } from "../../plan/check/check-named.js";
import { findSlowingWaits } from "../../plan/check/check-waits.js";
import { cycleOfPlan } from "../../plan/figures/cycle.js";
import { outputOfDay } from "../../plan/figures/output.js";
import {
  type PeopleInAll,
  peopleAtRepairs,
  peopleByShift,
  peopleByWork,
  peopleHired,
  peopleInAll,
  peopleOf,
} from "../../plan/figures/people.js";
import { measurePlan } from "../../plan/measure.js";
import type { Plan } from "../../plan/plan.js";
import { postsOf } from "../../plan/post.js";
import { availableTime } from "../../time/calendar.js";
import type { Demand } from "../../time/demand.js";
import type { DemandRange } from "../../time/demand-range.js";
import type { Pace } from "../../time/pace.js";
import { compare, ONE, ZERO } from "../../time/ratio.js";
import { decimal } from "../../time/show-values.js";
import { findTooFar } from "../balance/find-shop-notes.js";
import { lineFacts } from "../balance/shown-balance.js";
import { asItIs } from "../rebalance/as-it-is.js";
import { moveCost, movesBetween } from "../rebalance/match-stations.js";
import { rebalanceLine } from "../rebalance/rebalance-line.js";
import type {
  Roster,
  StaffAnswer,
  StaffCrew,
  StaffMoves,
  StaffOutcome,
  StaffQuestion,
  StaffRow,
  StaffWay,
} from "./staff-answer.js";
import { NOBODY, type Staffing, staffDemand, whyNoPlan } from "./staff-balance.js";
import { Curve, LEAST_NODES, type StaffCurve } from "./staff-curve.js";
import { machinesNeeded } from "./staff-machines.js";
import { type StaffStep, stepsOf } from "./staff-steps.js";
import { demandOfDay, hoursWays, shiftWays } from "./staff-ways.js";

/**
 * People, stations and figures as demand moves over a range, the exact demands at which people change, and other ways to make the
 * demand of the file, or else the last one of the range. The calendar must know the period of the range.
 */
export async function staffLine(
  line: Line,
  range: DemandRange,
  question: StaffQuestion,
): Promise<StaffAnswer> {
  const curve = new Curve(line, range, question);
  const rows = await curve.rows(question.nodes);
  const changes = await curve.changes(rows, question.nodes);
  const steps = stepsOf(changes.points, range.grain, changes.isCut);
  const base = line.demand ?? { units: range.to, period: range.period };
  const balanced = (demand: Demand) =>
    curve.rowOf(demand) ?? staffDemand(line, demand, question.nodes, question, true);
  const crew = changes.isCut ? null : await crewOfHours(line, base, balanced, question);
  const day = changes.isCut ? null : demandOfDay(line, base);
  const crews = [crew, ...(await crewsOfEnds(line, range, balanced, changes.isCut))];
  const ways =
    day === null
      ? []
      : [...(await shiftWays(line, day, question)), ...hoursWays(line, day, distinct(crews), question)];
  const shown = await measureRows(rows, crew, question);
  return {
    line,
    range,
    outcome: overall(steps),
    rows: shown,
    steps,
    crew,
    waysDemand: day === null ? null : base,
    ways,
    shown: lineFacts(line),
    hiresMore: compare(line.attendance, ONE) !== 0 || compare(line.relief, ZERO) !== 0,
    assumedShift: assumedShift(line, ways),
    nodes: question.nodes,
    doublings: question.doublings ?? 0,
    isCut: changes.isCut,
    findings: [
      ...findFewer(line, rows, changes),
      ...(await findGaps(line, changes, question)),
      ...findFirstUnnamed(line, changes),
      ...findFailing(rows),
      ...findSlowed(line, shown),
    ],
  };
}

/** The first shift, where others are shorter or longer and ways count several like it. */
function assumedShift({ calendar }: Line, ways: readonly StaffWay[]): StaffAnswer["assumedShift"] {
  const [first, ...others] = calendar?.shifts ?? [];
  if (first === undefined || !ways.some(({ kind }) => kind === "shifts")) return null;
  const available = availableTime(first);
  return others.some((shift) => availableTime(shift) !== available) ? { name: first.name, available } : null;
}
/** The balance of a demand. */
type Balanced = (demand: Demand) => Staffing | Promise<Staffing>;

/** That of today's plan where it has every task of the line, else that of the demand. */
async function crewOfHours(
  line: Line,
  demand: Demand,
  balanced: Balanced,
  question: StaffQuestion,
): Promise<StaffCrew | null> {
  const { today } = question;
  const known = new Set(today?.stations.flatMap(({ tasks }) => tasks));
  if (today === null || known.size < line.tasks.length) return crewOf(demand, balanced);
  return { plan: today, people: peopleOf(today), demand: null };
}

async function crewOf(demand: Demand, balanced: Balanced): Promise<StaffCrew | null> {
  const { plan } = await balanced(demand);
  return plan === null ? null : { plan, people: peopleOf(plan), demand };
}

async function crewsOfEnds(
  line: Line,
  { from, to, period }: DemandRange,
  balanced: Balanced,
  isCut: boolean,
): Promise<(StaffCrew | null)[]> {
  if (isCut || line.calendar === null) return [];
  const crews: (StaffCrew | null)[] = [];
  for (const units of [from, to]) crews.push(await crewOf({ units, period }, balanced));
  return crews;
}

/** The first crew of each number of people, the smallest first. */
function distinct(crews: readonly (StaffCrew | null)[]): StaffCrew[] {
  const known = crews.filter((crew) => crew !== null);
  const first = known.filter((crew, at) => known.findIndex(({ people }) => people === crew.people) === at);
  return first.toSorted((one, two) => one.people - two.people);
}

async function measureRows(
  { points }: StaffCurve,
  crew: StaffCrew | null,
  question: StaffQuestion,
): Promise<StaffRow[]> {
  const shown: StaffRow[] = [];
  for (const row of points) {
    const { point, moves } = await withFewestMoves(row, question);
    shown.push({ ...measureRow(point, crew, question), moves });
  }
  return shown;
}

/** The search for the fewest moves to a demand may look at so much less than its balance. */
const MOVES_SHARE = 10;

/** A demand with the plan of as many people that has the fewest moves from today's, as far as was found. */
async function withFewestMoves(
  point: Staffing,
  { today, strictLimit, checkpoint, ...question }: StaffQuestion,
): Promise<{ readonly point: Staffing; readonly moves: StaffMoves | null }> {
  const { line, takt, plan } = point;
  if (today === null || takt === null || plan === null) return { point, moves: null };
  const nodes = Math.max(LEAST_NODES, Math.floor(question.nodes / MOVES_SHARE));
  const options = { nodes, strictLimit, limitsToday: true, maxMoves: null, keep: [], checkpoint };
  const { chosen } = await rebalanceLine(line, takt.pace, takt, today, options);
  const costs = line.tasks.map((task) => moveCost(line, task));
  const own = movesBetween(line, today, plan, costs);
  const cost = own.reduce((sum, { task }) => sum + costs[task]!, 0);
  if (chosen === null || chosen.people !== peopleOf(plan) || cost < chosen.cost) {
    const isLeast = chosen?.people === peopleOf(plan) && cost <= chosen.leastCost;
    return { point, moves: { count: own.length, outcome: isLeast ? "proved" : "found" } };
  }
  const moves = { count: chosen.moves.length, outcome: chosen.outcome };
  // Of two changes that cost the same the balance's own, unless the other plan is better.
  const isBetter = isLess(line, takt.pace, chosen.plan, plan);
  return cost === chosen.cost && !isBetter
    ? { point, moves: { ...moves, count: own.length } }
    : { point: { ...point, plan: chosen.plan }, moves };
}

/** Of plans with as many people: fewer stations, or as many and a shorter cycle. */
function isLess(line: Line, pace: Pace, one: Plan, two: Plan): boolean {
  const more = one.stations.length - two.stations.length;
  const cycle = (plan: Plan) => cycleOfPlan(postsOf(line, pace, plan));
  return more < 0 || (more === 0 && compare(cycle(one), cycle(two)) < 0);
}

function measureRow(
  point: Staffing,
  crew: StaffCrew | null,
  question: StaffQuestion,
): Omit<StaffRow, "moves"> {
  const { line, takt, plan, demand, least, outcome } = point;
  const measures = plan === null || takt === null ? null : measurePlan(line, takt.pace, plan);
  const { output } = measures?.ofUnequalShifts ?? { output: null };
  const people = measures === null ? null : peopleInAll(line, measures);
  return {
    demand,
    takt,
    outcome,
    leastPeople: least === NOBODY || people === null ? null : least,
    plan,
    measures,
    outputPerDay: output && outputOfDay(output),
    people,
    roster: people === null || takt === null ? null : rosterOf(line, takt.pace, people, question),
    hired: people === null ? null : peopleHired(line, people.perDay),
    byWork: takt === null ? null : peopleByWork(line, takt.pace),
    hours: crew === null || takt === null ? null : asItIs(line, takt.pace, crew.plan).timeNeeded,
    costPerUnit: plan === null || takt === null ? null : question.costOf(line, takt, plan),
    machines: takt === null ? [] : machinesNeeded(line, takt),
  };
}

/** The people of a demand by shift; benches of today's plan have as many people at every demand. */
function rosterOf(
  line: Line,
  pace: Pace,
  people: PeopleInAll,
  { beside }: Pick<StaffQuestion, "beside">,
): Roster | null {
  const posts =
    beside === null ? [] : benchesOfPlan(beside.line, pace, beside.plan).flatMap((bench) => bench.posts);
  // Tests at a bench send units to the same repairs.
  const repair = beside === null ? people.repair : peopleAtRepairs(beside.line, pace);
  const shifts = peopleByShift(line, { ...people, repair }, posts);
  return shifts && { shifts, perDay: shifts.reduce((sum, { inAll }) => sum + inAll, 0) };
}

/** Of the demands that have a plan; "infeasible" and "stopped" where none has. */
function overall(steps: readonly StaffStep[]): StaffOutcome {
  const planned = steps.filter(({ people }) => people !== null);
  if (planned.length > 0 && planned.every(({ outcome }) => outcome === "proved")) return "proved";
  if (planned.length > 0) return "found";
  const isRuledOut = steps.length > 0 && steps.every(({ outcome }) => outcome === "infeasible");
  return isRuledOut ? "infeasible" : "stopped";
}

/** Rows of which the balance alone has more people than a plan of a higher demand, which keeps this one as well. */
function findFewer({ file }: Line, rows: StaffCurve, { points }: StaffCurve): Finding[] {
  return rows.points.flatMap((row) => {
    const known = points.find(({ demand }) => compare(demand.units, row.demand.units) === 0);
    if (known === undefined || known.people >= row.people) return [];
    const demand = `${decimal(row.demand.units, 6)} per ${row.demand.period}`;
    const alone = row.plan === null ? "no plan" : `${row.people} people`;
    const message = `${demand}: the balance of this demand alone found ${alone}; a plan for more units does with ${known.people}`;
    return [finding({ rule: "fewer-people-known", severity: "note", message, file })];
  });
}

/** From which demand on more people are planned than the line file names. */
/** Rows whose plan keeps the pace and fails all the same. */
const findFailing = ({ points }: StaffCurve): Finding[] =>
  points.flatMap(({ line, demand, takt, plan }) => {
    if (plan === null || takt === null) return [];
    const at = `the plan for ${decimal(demand.units, 6)} per ${demand.period} fails`;
    return findTooFar(line, takt.pace, plan).map((each): Finding => {
      return { ...each, severity: "warning", message: `${at}: ${each.message}` };
    });
  });

/** Each wait that holds up a line that moves together, at the first demand where it does. */
function findSlowed(line: Line, rows: readonly StaffRow[]): Finding[] {
  const told = rows.flatMap(({ demand, takt, plan }) =>
    plan === null || takt === null
      ? []
      : findSlowingWaits(line, takt.pace, plan).map((each) => ({ ...each, demand })),
  );
  const isFirst = ({ task }: (typeof told)[number], at: number) =>
    told.findIndex((each) => each.task === task) === at;
  return told.filter(isFirst).map(({ demand, ...slowed }) => {
    const others = told.filter((each) => each.task === slowed.task && each.demand !== demand).length;
    const more = others === 0 ? "" : `, and at ${countOf(others, "further demand")}`;
    const at = `at ${decimal(demand.units, 6)} per ${demand.period}${more}`;
    return { ...slowed, message: `${at}: ${slowed.message}` };
  });
}

function findFirstUnnamed(line: Line, { points }: StaffCurve): Finding[] {
  const found = points.flatMap(({ demand, plan }) =>
    plan === null ? [] : findUnnamed(line, plan).map((each) => ({ ...each, demand })),
  );
  return found.slice(0, 1).map(({ demand, ...each }) => ({
    ...each,
    message: `from ${decimal(demand.units, 6)} per ${demand.period} on: ${each.message}`,
  }));
}

/** Why there is no plan from some demand on. */
async function findGaps(
  line: Line,
  { points, isCut }: StaffCurve,
  question: StaffQuestion,
): Promise<Finding[]> {
  const first = points.find(({ plan }) => plan === null);
  if (isCut) {
    const message = "stopped: demands that are not shown were not looked at, so that changes are not exact";
    return [finding({ rule: "demands-left-out", severity: "warning", message, file: line.file })];
  }
  if (first === undefined) return [];
  const from = `${decimal(first.demand.units, 6)} per ${first.demand.period}`;
  const reasons = await whyNoPlan(first, question);
  const isWhole = points.some(({ plan }) => plan !== null);
  return reasons.map((each) => ({
    ...each,
    severity: isWhole ? "warning" : each.severity,
    message: `from ${from} on: ${each.message}`,
  }));
}
