import type { StationProblem } from "../problem.js";
import { hasTask } from "../search/bit-sets.js";
import { commonDivisor } from "../search/exact-sums.js";
import { type Instance, layOut, turnRound } from "../search/instance.js";
import { binPackingBound } from "./bin-packing.js";
import type { BinPackingBound, ChainBound, ChainStep } from "./certificate.js";
import { tailsAfterEach, wholeStations } from "./tails.js";

/** For the most tightly placed task: stations before its own, its own, and stations after it (Johnson 1988). */
export function chainBound(problem: StationProblem): ChainBound {
  const after = new Side(problem);
  const before = new Side(turnRound(problem));
  let [tightest, most] = [-1, 0];
  for (let task = 0; task < problem.times.length; task++) {
    const stations = before.stationsBehind(task) + 1 + after.stationsBehind(task);
    if (stations > most) [tightest, most] = [task, stations];
  }
  const limit = after.instance.limit * commonDivisor(problem.times);
  const common = { kind: "chain", stations: most, limit } as const;
  if (tightest < 0)
    return { ...common, tasks: [], stationsBefore: 0, stationsAfter: 0, before: [], after: [] };
  return {
    ...common,
    tasks: [tightest],
    stationsBefore: before.stationsBehind(tightest),
    stationsAfter: after.stationsBehind(tightest),
    before: before.stepsFor(tightest),
    after: after.stepsFor(tightest),
  };
}

/** One way along the line, with tasks by their numbers in the problem. */
class Side {
  readonly instance: Instance;
  private readonly behind: ReturnType<typeof tailsAfterEach>;
  private readonly places: Int32Array;

  constructor(private readonly problem: StationProblem) {
    this.instance = layOut(problem);
    this.behind = tailsAfterEach(this.instance);
    this.places = new Int32Array(this.instance.size);
    for (const [at, task] of this.instance.original.entries()) this.places[task] = at;
  }

  stationsBehind(task: number): number {
    return this.behind.stations[this.places[task]!]!;
  }

  stepsFor(task: number) {
    return chainSteps(this.problem, this.instance, this.behind.tails, this.places[task]!);
  }
}

/**
 * How the tail of a task is counted, with every tail that it rests on: each step after those that it needs.
 *
 * @param tails the tail of every task of the instance, in its units
 * @param task a task of the instance
 */
function chainSteps(
  problem: StationProblem,
  instance: Instance,
  tails: Float64Array,
  task: number,
): ChainStep[] {
  const steps: ChainStep[] = [];
  const counted = new Set<number>();
  const divisor = commonDivisor(problem.times);
  const originals = (tasks: readonly number[]) =>
    tasks.map((each) => instance.original[each]!).sort((one, two) => one - two);
  const count = (own: number): void => {
    if (counted.has(own) || tails[own] === 0) return;
    counted.add(own);
    const followers = followersByTail(instance, tails, own);
    const { tasks, beyond, tail } = mostWork(instance, tails, own, followers);
    const common = { task: instance.original[own]!, lies: tails[own]! * divisor };
    // A task of no time may stand in the first station behind it; packing alone counts its own station.
    if (tail === tails[own] && instance.times[own]! > 0) {
      if (beyond > 0) tasks.forEach(count);
      steps.push({ by: "work", ...common, tasks: originals(tasks), beyond: beyond * divisor });
      return;
    }
    const members = originals([own, ...followers]);
    const packing = packingOf(problem, members, instance.limit * divisor);
    if ((packing.stations - 1) * instance.limit === tails[own]) {
      steps.push({ by: "packing", ...common, packing });
    } else {
      if (beyond > 0) tasks.forEach(count);
      steps.push({ by: "work", ...common, tasks: originals(tasks), beyond: beyond * divisor });
    }
  };
  count(task);
  return steps;
}

/** Longest tail first. */
function followersByTail(instance: Instance, tails: Float64Array, task: number): number[] {
  return Array.from(tails.keys())
    .filter((other) => hasTask(instance.followers, task * instance.words, other))
    .sort((one, two) => tails[two]! - tails[one]! || one - two);
}

/** The followers with the longest tails whose work and shortest tail come to the most. */
function mostWork(instance: Instance, tails: Float64Array, task: number, followers: readonly number[]) {
  let [work, most, end, beyond] = [0, 0, 0, 0];
  for (const [at, other] of followers.entries()) {
    work += instance.times[other]!;
    if (work + tails[other]! > most) [most, end, beyond] = [work + tails[other]!, at + 1, tails[other]!];
  }
  const tail = wholeStations(most, instance.times[task]!, instance.limit);
  return { tasks: followers.slice(0, end), beyond, tail };
}

/** The packing of some tasks of the problem, by their numbers there. */
function packingOf({ times }: StationProblem, members: readonly number[], limit: number): BinPackingBound {
  const part = { times: members.map((task) => times[task]!), limit, before: members.map(() => []) };
  const bound = binPackingBound(part);
  const named = (tasks: readonly number[]) => tasks.map((at) => members[at]!);
  const { tasks, alone, overHalf, filling } = bound;
  return {
    ...bound,
    tasks: named(tasks),
    alone: named(alone),
    overHalf: named(overHalf),
    filling: named(filling),
  };
}
