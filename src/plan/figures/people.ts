import type { Line } from "../../line/line.js";
import { repairsPerGoodUnit } from "../../line/visits.js";
import type { Pace } from "../../time/pace.js";
import {
  add,
  ceiling,
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
import type { Plan } from "../plan.js";
import type { Post } from "../post.js";
import { cycleOfPeople, heldBy } from "./cycle.js";
import { workOfLine } from "./person-time.js";
import { repairPeople } from "./repairs.js";

type Manned = Pick<Post, "crew" | "places">;

/** Operators at a post = crew x places. */
export const peopleAt = ({ crew, places }: Manned): number => crew * places;

/** Operators at all of these posts, at a time. */
export const peopleAtAll = (posts: readonly Manned[]): number =>
  posts.reduce((sum, post) => sum + peopleAt(post), 0);

/** Operators on the line; who repairs beside it is not among them. */
export const peopleOf = ({ stations }: Plan): number => peopleAtAll(stations);

/** Operators of all shifts of a day, each shift with its own; those of one where a post works without a calendar. */
export const peopleOfDay = (posts: readonly Post[]): number =>
  posts.reduce((sum, post) => sum + peopleAt(post) * (post.shifts ?? 1), 0);

/**
 * Hands that posts lack at a line cycle, in parts of a person = sum of people x (what their work takes / line cycle - 1), of the posts
 * whose people take longest and longer than that. Whoever helps shares the work of a post: where the room in which units stand or an
 * equipment holds it up for longer, it lacks no hands.
 */
export const handsMissing = (posts: readonly Post[], lineCycle: Ratio): Ratio =>
  posts.map((post) => larger(ZERO, handsLacking(post, lineCycle))).reduce(add, ZERO);

/** The same of one post, below 0 where it has time to spare; 0 where more hands would not help. */
export const handsLacking = (post: Post, lineCycle: Ratio): Ratio =>
  heldBy(post, lineCycle) === null
    ? multiply(ratio(peopleAt(post)), subtract(divide(cycleOfPeople(post), lineCycle), ONE))
    : ZERO;

/** Everybody that a line takes. */
export interface PeopleInAll {
  readonly onLine: number;
  /** Beside the line, for repairs; 0 where nothing is repaired. */
  readonly repair: number;
  readonly atBenches: number;
  readonly atATime: number;
  /** Of all shifts of a day: each has its own people; null without a calendar. */
  readonly perDay: number | null;
}

/**
 * People on the line, at benches and at repairs beside it, at a time and per day.
 *
 * @param benches whose people are among the operators
 */
export function peopleInAll(
  line: Line,
  {
    operators,
    repairPeople: repairing,
  }: { readonly operators: number; readonly repairPeople: number | null },
  benches: readonly Post[] = [],
): PeopleInAll {
  const repair = repairing ?? 0;
  const atBenches = peopleAtAll(benches);
  const onLine = operators - atBenches;
  const byShift = peopleByShift(line, { onLine, repair }, benches);
  const perDay = byShift?.reduce((sum, { inAll }) => sum + inAll, 0) ?? null;
  return { onLine, repair, atBenches, atATime: operators + repair, perDay };
}

/** Who is there in one shift of a working day. */
export interface PeopleOfShift {
  /** The name of the shift; null for one that only benches work, after those of the line. */
  readonly shift: string | null;
  readonly onLine: number;
  readonly repair: number;
  readonly atBenches: number;
  readonly inAll: number;
}

/**
 * The people of each shift of a working day: line and repairs in every shift of the calendar, benches in the first of so many as they
 * work. Null without a calendar.
 */
export function peopleByShift(
  { calendar }: Line,
  { onLine, repair }: Pick<PeopleInAll, "onLine" | "repair">,
  benches: readonly Post[],
): PeopleOfShift[] | null {
  if (calendar === null) return null;
  const { shifts } = calendar;
  const worked = benches.map((bench) => bench.shifts ?? shifts.length);
  return Array.from({ length: Math.max(shifts.length, ...worked) }, (_, at) => {
    const line = at < shifts.length ? { onLine, repair } : { onLine: 0, repair: 0 };
    const atBenches = peopleAtAll(benches.filter((_, bench) => worked[bench]! > at));
    const inAll = line.onLine + line.repair + atBenches;
    return { shift: shifts[at]?.name ?? null, ...line, atBenches, inAll };
  });
}

/** People who repair beside a line at a time, whatever its plan; 0 where nothing is repaired. */
export function peopleAtRepairs(line: Line, pace: Pace): number {
  if (!line.tasks.some(({ test }) => test?.failures === "repaired")) return 0;
  return Math.max(0, repairPeople(line, pace, repairsPerGoodUnit(line)) ?? 0);
}

/** People on the line and at repairs for a plan of stations whose other figures nobody asks for. */
export const peopleOfPlan = (line: Line, pace: Pace, plan: Plan): PeopleInAll =>
  peopleInAll(line, { operators: peopleOf(plan), repairPeople: peopleAtRepairs(line, pace) });

/** People for some work, in parts of a person and rounded up. */
export interface PeopleNeeded {
  readonly exact: Ratio;
  readonly whole: number;
}

/**
 * People for a work content when a unit leaves every takt: work / (takt x availability x efficiency). The efficiency stands for
 * what balancing and repositioning lose; where the takt is a line cycle already, the availability is in it.
 * Source: M. P. Groover, Automation, Production Systems, and CIM, workers of a mixed model line.
 *
 * @param availability share of the time in which the line runs, above 0
 * @param efficiency share of the paid time in which people work, above 0
 * @throws RangeError for a takt of 0
 */
export function peopleNeeded(
  work: Ratio,
  takt: Ratio,
  { availability = ONE, efficiency = ONE }: { availability?: Ratio; efficiency?: Ratio } = {},
): PeopleNeeded {
  const exact = divide(work, multiply(takt, multiply(availability, efficiency)));
  return { exact, whole: Number(ceiling(exact)) };
}

export interface PeopleByWork extends PeopleNeeded {
  /** So much less work content, in microseconds, is the work of one person fewer; null for a line without work. */
  readonly lessWork: Ratio | null;
}

/**
 * People by work alone = work content / station limit, rounded up: as if work could be shared out without loss. Nobody where there is
 * no limit, as on a line without work that sets its own pace.
 */
export function peopleByWork(line: Line, { stationLimit }: Pace): PeopleByWork {
  if (compare(stationLimit, ZERO) === 0) return { exact: ZERO, whole: 0, lessWork: null };
  const work = workOfLine(line);
  const { exact, whole } = peopleNeeded(work, stationLimit);
  const lessWork = whole < 1 ? null : subtract(work, multiply(ratio(whole - 1), stationLimit));
  return { exact, whole, lessWork };
}

/** People to hire = people of the day x (1 + relief) / attendance, rounded up; null where the day is not known. */
export function peopleHired(
  { attendance, relief }: Pick<Line, "attendance" | "relief">,
  perDay: number | null,
): number | null {
  if (perDay === null) return null;
  return Number(ceiling(divide(multiply(ratio(perDay), add(ONE, relief)), attendance)));
}
