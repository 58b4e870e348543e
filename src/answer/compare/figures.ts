import { stockOfBenches } from "../../benches/bench-stock.js";
import { tells } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import { cycleOfPlan, cycleOfPost } from "../../plan/figures/cycle.js";
import * as figures from "../../plan/figures/efficiency.js";
import { heldCycle } from "../../plan/figures/held-cycle.js";
import { idlePerDay, idlePerShift, idlePerUnit } from "../../plan/figures/idle.js";
import type { ShiftOutput } from "../../plan/figures/output.js";
import * as output from "../../plan/figures/output.js";
import { peopleAt, peopleAtAll, peopleAtRepairs, peopleOfDay } from "../../plan/figures/people.js";
import { isOverloaded } from "../../plan/figures/working-time.js";
import type { Plan } from "../../plan/plan.js";
import { type Post, postsOf } from "../../plan/post.js";
import type { Shift } from "../../time/calendar.js";
import {
  add,
  compare,
  divide,
  larger,
  multiply,
  ONE,
  type Ratio,
  ratio,
  subtract,
  ZERO,
} from "../../time/ratio.js";
import type { TaktSum } from "../../time/takt.js";
import { MICROS_IN } from "../../time/units.js";
import { answerOfPlan } from "../balance/answer-of-plan.js";
import type { OptionAnswer } from "./option-answer.js";

/*
 * Every figure of a comparison, each on equal terms: over all people, those at benches and tables among them. Null where an option
 * has nothing of the kind, or where it is not known.
 */

type Figure<Value> = (answer: OptionAnswer) => Value | null;

const sum = (values: readonly number[]): number => values.reduce((one, two) => one + two, 0);
const total = (values: readonly Ratio[]): Ratio => values.reduce(add, ZERO);
const shiftsOf = ({ asked }: OptionAnswer): readonly Shift[] => asked.line.calendar?.shifts ?? [];
const hasPlan = ({ posts }: OptionAnswer): boolean => posts.length > 0;

export const wantedPerShift: Figure<Ratio> = ({ asked: { line, takt } }) => output.wantedPerShift(line, takt);
export const wantedPerDay: Figure<Ratio> = ({ asked: { line, takt } }) => output.wantedPerDay(line, takt);

/** Good units wanted in an hour of available time. */
export const wantedPerHour: Figure<Ratio> = ({ asked: { takt } }) => takt?.demandPerHour ?? null;

/** People in the busiest shift: benches work their first shift beside the line. Who repairs beside the line is among them. */
export const peoplePerShift: Figure<number> = (answer) =>
  hasPlan(answer) ? peopleAtAll(answer.posts) + answer.repairPeople : null;

/** People of all shifts of a day, each with its own; null without a calendar. */
export const peoplePerDay: Figure<number> = (answer) => {
  const shifts = shiftsOf(answer).length;
  if (!hasPlan(answer) || shifts === 0) return null;
  return peopleOfDay(answer.posts) + answer.repairPeople * shifts;
};

/** Stations of the line; null at tables. */
export const stations: Figure<number> = ({ balance, posts }) =>
  balance === null || posts.length === 0 ? null : posts.filter(({ kind }) => kind === "station").length;

/** Places at the stations of the line, parallel ones each counted; null at tables. */
export const places: Figure<number> = ({ balance, posts }) =>
  balance === null || posts.length === 0
    ? null
    : sum(posts.filter(({ kind }) => kind === "station").map((post) => post.places));

/** Places at benches; 0 where everything is built on the line. */
export const benchPlaces: Figure<number> = ({ balance, posts }) =>
  balance === null || posts.length === 0
    ? null
    : sum(posts.filter(({ kind }) => kind === "bench").map(({ places }) => places));

/** Tables, with a kit laid out at each; null on a line. */
export const kits: Figure<number> = ({ balance, posts }) =>
  balance === null && posts.length > 0 ? sum(posts.map(({ places }) => places)) : null;

/** The pace that the demand asks for, in microseconds. */
export const lineCycle: Figure<Ratio> = ({ asked }) => asked.pace.lineCycle;

/**
 * The line cycle that the slowest post can just keep, or the longer one that models or machines need of a number of stations, in
 * microseconds.
 */
export const slowestCycle: Figure<Ratio> = ({ posts, balance }) => {
  if (posts.length === 0) return null;
  const own = cycleOfPlan(posts);
  return balance?.rates ? larger(own, balance.pace.lineCycle) : own;
};

/** How often a good unit comes at the best: that, or more where waits hold up a line that moves together, in microseconds. */
export const outputCycle: Figure<Ratio> = (answer) => {
  const [slowest, { balance }] = [slowestCycle(answer), answer];
  const plan = balance?.plan ?? null;
  return slowest === null || plan === null ? slowest : heldCycle(balance!.line, plan, slowest);
};

/** The first post of that cycle, or where models or machines need it. */
export function slowestPost(answer: OptionAnswer): Post | null {
  const slowest = slowestCycle(answer);
  const { posts, balance } = answer;
  const needs = balance?.findings.find((each) => tells(each, "pace-need"))?.station;
  const isSlowest = (post: Post) => slowest !== null && compare(cycleOfPost(post), slowest) === 0;
  return posts.find(isSlowest) ?? posts.find(({ id }) => id === needs) ?? null;
}

/** Efficiency at the pace over all people; null where a post cannot keep the pace, and without a plan. */
export const efficiencyAtPace: Figure<Ratio> = ({ posts, asked }) =>
  figures.efficiencyAtPace(posts, asked.pace.lineCycle);

/** The same at the cycle of the slowest post. */
export const efficiencyAtSlowest: Figure<Ratio> = (answer) => {
  const slowest = slowestCycle(answer);
  return slowest === null ? null : figures.efficiencyAtSlowest(answer.posts, slowest);
};

/** Idle person-hours of a shift; null where shifts differ, and where a post cannot keep the pace. */
export const idleHours: Figure<Ratio> = (answer) => idleHoursIn(answer, idlePerShift);

/** Idle person-hours of all shifts of a day. */
export const idleHoursPerDay: Figure<Ratio> = (answer) => idleHoursIn(answer, idlePerDay);

function idleHoursIn(answer: OptionAnswer, idleOf: typeof idlePerShift): Ratio | null {
  const { posts } = answer;
  const { line, pace } = answer.asked;
  if (!hasPlan(answer) || isOverloaded(posts, pace.lineCycle)) return null;
  const idle = idleOf(line, pace.lineCycle, idlePerUnit(posts, pace.lineCycle));
  return idle && divide(idle, ratio(MICROS_IN.h));
}

/**
 * Units' parts that lie between benches and line at the most, all reasons together that the file states: 0 where there is no bench, and
 * where of no bench anything is stated, which reports say.
 */
export const stock: Figure<number> = (answer) =>
  answer.balance === null || !hasPlan(answer) ? null : (stockOfBenches(answer.benches) ?? 0);

/** Whether there are benches, of none of which the file tells how many parts lie there. */
export const hasUnstatedStock = (answer: OptionAnswer): boolean =>
  answer.balance !== null && hasPlan(answer) && stockOfBenches(answer.benches) === null;

/** Whole good units of a shift at the best; null where shifts differ. */
export const outputPerShift: Figure<number> = (answer) => {
  const cycle = outputCycle(answer);
  return cycle === null ? null : output.outputPerShift(answer.asked.line, cycle);
};

/** Whole good units of each shift of a day, by its name; null without a calendar. */
export const outputByShift: Figure<readonly ShiftOutput[]> = (answer) => {
  const cycle = outputCycle(answer);
  return cycle === null ? null : output.outputByShift(answer.asked.line, cycle);
};

/** Good units of a day: the whole ones of each shift. */
export const outputPerDay: Figure<number> = (answer) => {
  const byShift = outputByShift(answer);
  return byShift === null ? null : output.outputOfDay(byShift);
};

/** Overtime of all shifts of a day, in hours. */
export const overtimeHours: Figure<Ratio> = (answer) =>
  hasPlan(answer) && shiftsOf(answer).length > 0
    ? ratio(sum(shiftsOf(answer).map(({ overtime }) => overtime)), MICROS_IN.h)
    : null;

/** Time of so many shifts of a day, in microseconds: those of the line first, further ones as long as their mean. */
function timeOfShifts(shifts: readonly Shift[], worked: number, time: (shift: Shift) => number): Ratio {
  const own = ratio(sum(shifts.slice(0, worked).map(time)));
  const further = Math.max(0, worked - shifts.length);
  return add(own, ratio(BigInt(sum(shifts.map(time))) * BigInt(further), shifts.length));
}

/** Person-time of a day in microseconds = people x time of the shifts that they work; `time` takes what counts of a shift. */
function personTimePerDay(answer: OptionAnswer, time: (shift: Shift) => number): Ratio {
  const shifts = shiftsOf(answer);
  const timeOf = (worked: number | null) => timeOfShifts(shifts, worked ?? shifts.length, time);
  const each = answer.posts.map((post) => multiply(ratio(peopleAt(post)), timeOf(post.shifts)));
  return add(total(each), multiply(ratio(answer.repairPeople), timeOf(null)));
}

const attended = ({ gross, overtime }: Shift): number => gross + overtime;

/**
 * Labour minutes of a unit wanted = people x (shift time, breaks and stops included, + overtime) / good units wanted in the day: people
 * who could make more than that give no unit away for less. Where no demand is given, by the good units that the day makes.
 */
export const labourMinutes: Figure<Ratio> = (answer) => {
  const units = unitsToShareBy(answer);
  return units && divide(personTimePerDay(answer, attended), multiply(units, ratio(MICROS_IN.min)));
};

/** Good units by which a day is divided: those wanted; without a demand all that it makes. */
function unitsToShareBy(answer: OptionAnswer): Ratio | null {
  const makes = outputPerDay(answer);
  return makes === null || makes === 0 ? null : (wantedPerDay(answer) ?? ratio(makes));
}

/**
 * Cost of a unit = (person-hours x person-hour + overtime hours x (overtime - 1) x person-hour + hours of bench places and tables x
 * bench-hour) / good units wanted in the day, as for labour: what nobody wants makes no unit cheaper. Null without rates.
 */
export const costPerUnit: Figure<Ratio> = (answer) => {
  const { rates } = answer.asked.line;
  const units = unitsToShareBy(answer);
  if (rates === null || units === null) return null;
  const extra = multiply(
    personTimePerDay(answer, ({ overtime }) => overtime),
    subtract(rates.overtime, ONE),
  );
  const people = multiply(add(personTimePerDay(answer, attended), extra), rates.personHour);
  const shifts = shiftsOf(answer);
  const places = answer.posts
    .filter(({ kind }) => kind !== "station")
    .map((post) =>
      multiply(ratio(post.places), timeOfShifts(shifts, post.shifts ?? shifts.length, attended)),
    );
  const cost = add(people, multiply(total(places), rates.benchHour));
  return divide(cost, multiply(units, ratio(MICROS_IN.h)));
};

/** Tasks whose station or bench changes from today's plan, the fewest that were found; null where that is not known. */
export const moves: Figure<number> = (answer) => answer.moves?.count ?? null;

/** The cost of a unit by a plan without benches, as in a comparison; null where the file has no rates. */
export function costOfPlan(line: Line, takt: TaktSum, plan: Plan): Ratio | null {
  const { pace } = takt;
  const balance = answerOfPlan(line, pace, takt, plan, { stations: [], measures: null });
  return costPerUnit({
    asked: { name: line.name, line, option: null, pace, takt, today: null, nodes: 0 },
    outcome: "found",
    balance,
    plan,
    posts: postsOf(line, pace, plan),
    benches: [],
    repairPeople: peopleAtRepairs(line, pace),
    pays: null,
    findings: [],
    moves: null,
    isCut: false,
  });
}
