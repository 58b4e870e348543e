import { benchesOfPlan, lineBeside } from "../../benches/bench-of-plan.js";
import type { Finding } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import { visitsPerGoodUnit } from "../../line/visits.js";
import { cycleWithReserve } from "../../plan/figures/cycle.js";
import { peopleAtAll, peopleOf } from "../../plan/figures/people.js";
import { standingLimit, standingTime, stationLimit, stationTime } from "../../plan/figures/working-time.js";
import type { Plan, Station } from "../../plan/plan.js";
import { type Post, postOf } from "../../plan/post.js";
import { verifyAtPace, verifyRules } from "../../plan/verify-plan.js";
import type { Pace } from "../../time/pace.js";
import {
  add,
  compare,
  divide,
  floor,
  larger,
  multiply,
  ONE,
  type Ratio,
  ratio,
  subtract,
  ZERO,
} from "../../time/ratio.js";
import type { Micros } from "../../time/units.js";
import { asChecked, hasReserve } from "./as-checked.js";
import { type AtPace, lastThatHolds, type PacesAhead, pacesAhead } from "./paces-ahead.js";

/** What gives way first: the load, or a rule that `check` names; "pace" where handling takes all of the line cycle. */
export type GivesWay = "load" | "keep-pace" | "dwell" | "limit" | "model-overload" | "machine" | "pace";

/** The fastest pace that a station keeps. */
export interface PaceKept {
  /** Good units in the period of the demand; null where the line cycle was given, and with `lineCycle`. */
  readonly demand: Ratio | null;
  /** In microseconds; null where no pace is kept, and where every pace is: then nothing gives way. */
  readonly lineCycle: Ratio | null;
  /** Share by which the pace may grow, below 0 where it must fall. */
  readonly growth: Ratio | null;
  readonly givesWay: GivesWay | null;
}

/** How much longer a task may take, at this pace, until its station overflows. */
export interface TaskSlack {
  readonly task: number;
  /** Its longest task time of all models, pieces included. */
  readonly time: Micros;
  /**
   * Added to its task time of every model, below 0 where the station overflows already; null where the task's time decides nothing:
   * the station overflows without it as well, or with any.
   */
  readonly growth: Micros | null;
  /** The same until the station limit. */
  readonly growthWithinLimit: Micros | null;
}

export interface StationSlack {
  readonly id: string;
  readonly kind: "station" | "bench";
  /** What `check` passes. */
  readonly kept: PaceKept;
  /** What keeps to the station limit as well; the same where nothing is planned to a share. */
  readonly keptWithinLimit: PaceKept;
  /** There a task stands alone above the station limit, which it may; then the working time limits it. */
  readonly isAboveAlone: boolean;
  /** In order of work. */
  readonly tasks: readonly TaskSlack[];
  /** The task with which the least share of its time more, or less where the station overflows, decides; null where none does. */
  readonly tightest: TaskSlack | null;
}

/** By how much the demand, or the time of one task, may grow until stations of a plan overflow. */
export interface Slack {
  /** The line that task numbers are of, what its benches build included. */
  readonly line: Line;
  /** In order of flow, benches last; those without tasks are left out. */
  readonly stations: readonly StationSlack[];
  /** The same, the one that gives way first in front. */
  readonly tightest: readonly StationSlack[];
  /** The smallest step of demand that is looked at; null where the line cycle was given. */
  readonly step: Ratio | null;
  /** Whether the station limit is less than what `check` passes. */
  readonly hasReserve: boolean;
  /** How often the plan breaks a rule at every pace: `check` passes it at none. */
  readonly faultsAtAnyPace: number;
}

/**
 * Every figure is the last step at which the verifier finds no fault of this station: one step more, and it does.
 *
 * @param plan its benches included
 */
export function slackOf(line: Line, pace: Pace, plan: Plan, strictLimit: boolean): Slack {
  const limits: Judge[] = [asChecked, (at) => ({ ...at, strictLimit })];
  const reserved = hasReserve({ line, pace });
  const judges = reserved ? limits : limits.slice(0, 1);
  const ofStations = plan.stations.map((station) => new StationUnderLoad(line, plan, station, "station"));
  const ofBenches = (plan.benches ?? []).map((bench) => new StationUnderLoad(line, plan, bench, "bench"));
  const loaded = [...ofStations, ...ofBenches].filter(({ station }) => station.tasks.length > 0);
  const mayStandAbove = reserved && !strictLimit;
  const stations = loaded.map((each) => slackAt(each, pace, judges, mayStandAbove));
  return {
    line,
    stations,
    tightest: stations.toSorted(({ kept: one }, { kept: two }) => comparePaces(one, two)),
    step: pacesAhead(line, pace, asChecked).demandAt(1n),
    hasReserve: reserved,
    faultsAtAnyPace:
      verifyRules(lineBeside(line, plan), pace, plan).filter((each) => !isOfPace(each)).length +
      policyFaults(line, pace, plan),
  };
}

/** What the policy counts and no pace changes: stations, and people on the line and at benches. */
function policyFaults(line: Line, pace: Pace, plan: Plan): number {
  const { maxStations, maxPeople } = line.policy;
  const atBenches = peopleAtAll(benchesOfPlan(line, pace, plan).flatMap(({ posts }) => posts));
  const counts = [
    [plan.stations.length, maxStations],
    [peopleOf(plan) + atBenches, maxPeople],
  ] as const;
  return counts.filter(([count, most]) => most !== null && count > most).length;
}

/** Of what gives way at a faster pace, which the figures tell. */
const isOfPace = ({ fact }: Finding): boolean =>
  fact?.kind === "overfull" || (fact?.kind === "short-of" && fact.what === "machines");

/** No pace at all comes before the slowest, and any pace after the fastest. */
function comparePaces(one: PaceKept, two: PaceKept): number {
  const rank = ({ growth, givesWay }: PaceKept) => (growth !== null ? 1 : givesWay === null ? 2 : 0);
  if (one.growth === null || two.growth === null) return rank(one) - rank(two);
  return compare(one.growth, two.growth);
}

type Judge = (at: Omit<AtPace, "strictLimit">) => AtPace;

function slackAt(
  at: StationUnderLoad,
  pace: Pace,
  judges: readonly Judge[],
  mayStandAbove: boolean,
): StationSlack {
  const { line } = at;
  const { id, tasks: numbers } = at.station;
  const paces = judges.map((judge) => paceKept(at, pace, judge));
  const kept = paces[0]!;
  // What a policy allows may be less than the station limit.
  const [keptWithinLimit] = paces.sort(comparePaces) as [PaceKept];
  const isAboveAlone =
    mayStandAbove &&
    comparePaces(
      paceKept(at, pace, (there) => ({ ...there, strictLimit: true })),
      keptWithinLimit,
    ) < 0;
  const tasks = numbers.map((task): TaskSlack => {
    const grown = judges.map((judge) => growthOf(at, judge({ line, pace }), task));
    const times = line.tasks[task]!.times.flatMap((own) => own ?? []);
    return { task, time: Math.max(0, ...times), growth: grown[0]!, growthWithinLimit: leastOf(grown) };
  });
  return { id, kind: at.kind, kept, keptWithinLimit, isAboveAlone, tasks, tightest: tightestOf(tasks) };
}

/** Null where one of them is not known. */
const leastOf = (growths: readonly (Micros | null)[]): Micros | null =>
  growths.reduce((one, two) => (one === null || two === null ? null : Math.min(one, two)), growths[0]!);

function tightestOf(tasks: readonly TaskSlack[]): TaskSlack | null {
  const share = ({ growth, time }: TaskSlack) => ratio(Math.abs(growth!), time);
  return tasks
    .filter(({ growth, time }) => growth !== null && time > 0)
    .reduce<TaskSlack | null>(
      (least, each) => (least === null || compare(share(each), share(least)) < 0 ? each : least),
      null,
    );
}

function paceKept(at: StationUnderLoad, pace: Pace, judge: Judge): PaceKept {
  const { line } = at;
  const ahead: PacesAhead = pacesAhead(line, pace, judge);
  const givesWayAt = (step: bigint) => {
    const there = ahead.at(step);
    return there === null ? "pace" : at.givesWay(there);
  };
  const guess = ahead.stepOf(at.cycleAtLimit(judge({ line, pace })));
  const step = lastThatHolds(ahead, guess, (each) => givesWayAt(each) === null);
  if (step === null) return { ...NO_PACE, givesWay: givesWayAt(ahead.first) };
  if (step === ahead.last) return NO_PACE;
  const { lineCycle } = ahead.at(step)!.pace;
  return {
    demand: ahead.demandAt(step),
    lineCycle,
    growth: subtract(divide(pace.lineCycle, lineCycle), ONE),
    givesWay: givesWayAt(step + 1n),
  };
}

const NO_PACE: PaceKept = { demand: null, lineCycle: null, growth: null, givesWay: null };

function growthOf(at: StationUnderLoad, judged: AtPace, task: number): Micros | null {
  const { times } = at.line.tasks[task]!;
  const own = times.flatMap((each) => each ?? []);
  const often = visitsPerGoodUnit(at.line, at.line.tasks[task]!);
  if (own.length === 0 || compare(often, ZERO) === 0) return null;
  const range = { first: -BigInt(Math.min(...own)), last: BigInt(Number.MAX_SAFE_INTEGER) };
  const guess = floor(divide(at.roomAtLimit(judged), often));
  const holds = (more: bigint) =>
    range.last > more && at.givesWay({ ...judged, line: lengthen(judged.line, task, Number(more)) }) === null;
  const found = lastThatHolds(range, guess, holds);
  return found === null ? null : Number(found);
}

/** The line with another task time, in microseconds, of every model that has the task. */
function lengthen(line: Line, task: number, more: Micros): Line {
  const tasks = [...line.tasks];
  const before = tasks[task]!;
  tasks[task] = {
    ...before,
    times: before.times.map((own) => (own === null ? null : own + more)),
    load: add(before.load, multiply(ratio(more), visitsPerGoodUnit(line, before))),
  };
  return { ...line, tasks };
}

/** A station or a bench of a plan, with the other stations that its machines stand at. */
class StationUnderLoad {
  /** For stations with what benches leave of it. */
  readonly line: Line;
  private readonly part: Plan;
  /** Counted equipment that units keep here. */
  private readonly equipment: readonly string[];

  constructor(
    line: Line,
    private readonly plan: Plan,
    readonly station: Station,
    readonly kind: "station" | "bench",
  ) {
    this.line = kind === "bench" ? line : lineBeside(line, plan);
    const names = new Set(station.tasks.flatMap((task) => line.tasks[task]!.equipment));
    this.equipment = [...names].filter((name) => line.equipment.has(name));
    const shares = (other: Station) =>
      other === station ||
      other.tasks.some((task) => line.tasks[task]!.equipment.some((name) => this.equipment.includes(name)));
    this.part = { ...plan, stations: plan.stations.filter(shares) };
  }

  /** What of this station gives way there; null where it holds. */
  givesWay({ line, pace, strictLimit }: AtPace): GivesWay | null {
    const { station, part, kind } = this;
    const full = kind === "bench" ? this.benchGivesWay(line, pace) : null;
    if (full !== null) return full;
    if (kind === "bench" && this.equipment.length === 0) return null;
    const equipment = new Map([...line.equipment].filter(([name]) => this.equipment.includes(name)));
    const own = { ...(kind === "bench" ? lineBeside(line, this.plan) : line), equipment };
    for (const { fact, station: at } of verifyAtPace(own, pace, part, strictLimit)) {
      if (fact?.kind === "short-of" && fact.what === "machines") return "machine";
      if (at !== station.id || kind === "bench") continue;
      if (fact?.kind === "overfull") return fact.what;
    }
    return null;
  }

  /** A bench works hours of its own, of which the verifier of the line knows nothing. */
  private benchGivesWay(line: Line, pace: Pace): "load" | "dwell" | null {
    const [posts, { lineCycle }] = [this.posts(line, pace), pace];
    if (posts.some((post) => compare(stationTime(post), stationLimit(post, lineCycle)) > 0)) return "load";
    return posts.some((post) => compare(standingTime(post), standingLimit(post, lineCycle)) > 0)
      ? "dwell"
      : null;
  }

  /** The line cycle that loads it to its limit, in microseconds; rules other than loads may ask for more. */
  cycleAtLimit({ line, pace }: AtPace): Ratio {
    return this.posts(line, pace).map(cycleWithReserve).reduce(larger, ZERO);
  }

  /** How much more work loads it to its limit, in microseconds, as far as loads alone tell. */
  roomAtLimit({ line, pace }: AtPace): Ratio {
    const rooms = this.posts(line, pace).flatMap((post) => [
      subtract(stationLimit(post, pace.lineCycle), stationTime(post)),
      subtract(standingLimit(post, pace.lineCycle), standingTime(post)),
    ]);
    return rooms.reduce((least, each) => (compare(each, least) < 0 ? each : least));
  }

  private posts(line: Line, pace: Pace): readonly Post[] {
    if (this.kind === "station") return [postOf(line, pace, this.station)];
    return benchesOfPlan(line, pace, this.plan).find(({ bench }) => bench === this.station)!.posts;
  }
}
