import type { Bound } from "../bounds/bound.js";
import { ceilingDivision } from "../bounds/whole-numbers.js";
import { STATIONS_FIRST } from "../cost.js";
import { orderOfWork, positionalWeights } from "../order-of-work.js";
import type { Stations } from "../problem.js";
import { plainWork } from "../work.js";
import { CycleGrid, sumsOf } from "./cycle-grid.js";
import type { CycleBound, CycleProblem } from "./cycle-problem.js";
import { commonDivisor, requireExactSums } from "./exact-sums.js";
import { alone, type Checkpoint, type SearchLimits } from "./fewest-stations.js";
import { findLeastCycle } from "./least-cycle-search.js";
import { MOST_STATES } from "./run-search.js";
import { stationsInRow } from "./two-way-search.js";

/** What every bound says: with `count` stations at most, no plan has a shorter longest station than `limit`. */
interface Certificate<Kind extends string> {
  readonly kind: Kind;
  readonly limit: number;
  readonly count: number;
}

/** No station is shorter than the longest task at it. */
export interface LongestTaskBound extends Certificate<"longest-task"> {
  readonly task: number;
}

/** The work content over `count` stations; `limit` is the shortest sum of task times from that share on. */
export interface WorkShareBound extends Certificate<"work-content"> {
  readonly workContent: number;
}

/** At the limit `shorter` a bound asks for more than `count` stations; no sum of task times lies between it and `limit`. */
export interface StationsBound extends Certificate<"stations"> {
  readonly shorter: number;
  readonly bound: Bound;
}

/** At the limit `shorter` every plan with `count` stations was ruled out; no sum of task times lies between it and `limit`. */
export interface ProbeBound extends Certificate<"search"> {
  readonly shorter: number;
  readonly nodes: number;
}

/** A proved lower bound on the longest station, with the facts an engineer needs to check it. */
export type LeastLimitBound = LongestTaskBound | WorkShareBound | StationsBound | ProbeBound;

export interface LeastLimitAnswer {
  /** At most as many stations as asked for, none empty; tasks of a station in order of work. */
  readonly stations: Stations;
  /** The longest station time of the plan. */
  readonly limit: number;
  /** No plan with so many stations has a shorter longest station. */
  readonly bound: number;
  readonly certificate: LeastLimitBound;
  readonly nodes: number;
  readonly ended: "proved" | "nodes" | "time" | "interrupted" | "memory";
}

export interface LeastLimitLimits extends SearchLimits {
  /** A valid plan with at most so many stations, to improve on. */
  readonly first?: Stations;
}

/**
 * The shortest longest station of a plan with at most `count` stations (SALBP-2: Scholl, Balancing and Sequencing of
 * Assembly Lines, 1999; Klein & Scholl 1996), in the whole units of `times`. `before` holds each task's direct
 * predecessors. The checkpoint's `best` and `bound` are limits. The answer depends on the arguments alone, unless the
 * checkpoint stops the search. Throws RangeError when `count` is no whole number from 1, and TimesTooLargeError when sums
 * of the task times may not be exact.
 */
export async function leastLimit(
  times: readonly number[],
  before: readonly (readonly number[])[],
  count: number,
  limits: LeastLimitLimits,
  checkpoint: Checkpoint,
): Promise<LeastLimitAnswer> {
  if (!Number.isSafeInteger(count) || count < 1)
    throw new RangeError(`stations: ${count}, expected a whole number from 1`);
  const whole = { times, limit: 1, before };
  requireExactSums(whole);
  const { nodes, memory = MOST_STATES } = limits;
  const problem = plainCycles(times, before, count);
  const first = limits.first ?? (times.length > 0 ? [[...times.keys()]] : []);
  const found = await findLeastCycle(problem, stationsInRow(first), { nodes, memory }, (progress) =>
    checkpoint({ ...progress, best: Number(progress.best), bound: Number(progress.bound) }),
  );
  const weights = positionalWeights(whole);
  const certificate = certificateOf(found.bound, times, count);
  return {
    stations: found.plan.map(({ blocks }) => orderOfWork(whole, weights, blocks)),
    limit: Number(found.cycle),
    bound: certificate.limit,
    certificate,
    nodes: found.nodes,
    ended: found.ended,
  };
}

/** A plain line with so many stations at the most: its cycles are station times. */
export function plainCycles(
  times: readonly number[],
  before: readonly (readonly number[])[],
  count: number,
): CycleProblem {
  const work = times.reduce((sum, each) => sum + each, 0);
  const longest = times.reduce((most, each) => Math.max(most, each), 0);
  const sums = sumsOf(times, 0, work);
  const grid =
    sums === null
      ? CycleGrid.stepping(BigInt(commonDivisor(times)))
      : CycleGrid.listing(sums.map((each) => BigInt(each)));
  const loadOf = (tasks: readonly number[]) => tasks.reduce((sum, task) => sum + times[task]!, 0);
  return {
    grid,
    ceiling: alone(count + 1),
    aim: STATIONS_FIRST,
    least: grid.atLeast(BigInt(Math.max(longest, ceilingDivision(work, count)))),
    workAt: (cycle) => plainWork({ times, limit: Number(cycle), before }),
    cycleOfStation: ({ blocks }) => BigInt(loadOf(blocks)),
    cycleOf: (plan) => BigInt(plan.reduce((most, { blocks }) => Math.max(most, loadOf(blocks)), 0)),
    time: {
      times,
      before,
      isAll: true,
      limitAt: Number,
      planOf: stationsInRow,
      stationsOf: (plan) => plan.map(({ blocks }) => blocks),
      rulesAt: () => null,
    },
    atLeast: null,
  };
}

/** The facts of a bound on station times, with what the work alone says told by its reason. */
export function certificateOf(
  bound: CycleBound,
  times: readonly number[],
  count: number,
  limitAt: (cycle: bigint) => number = Number,
): LeastLimitBound {
  const limit = limitAt(bound.cycle);
  switch (bound.kind) {
    case "work": {
      const longest = times.reduce((most, each) => Math.max(most, each), 0);
      if (times.length > 0 && limit <= longest)
        return { kind: "longest-task", limit, count, task: times.indexOf(longest) };
      return { kind: "work-content", limit, count, workContent: times.reduce((sum, each) => sum + each, 0) };
    }
    case "stations":
      return { kind: "stations", limit, count, shorter: limitAt(bound.shorter), bound: bound.bound };
    case "search":
      return { kind: "search", limit, count, shorter: limitAt(bound.shorter), nodes: bound.nodes };
  }
}
