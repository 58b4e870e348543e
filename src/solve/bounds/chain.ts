import type { StationProblem } from "../problem.js";
import { hasTask } from "../search/bit-sets.js";
import { commonDivisor } from "../search/exact-sums.js";
import { type Instance, layOut, limitInUnits, turnRound } from "../search/instance.js";
import { binPackingBound } from "./bin-packing.js";
import type { BinPackingBound, ChainBound, ChainStep } from "./certificate.js";
import { onlyNext, tailsAfterEach, wholeStations } from "./tails.js";

/** A line laid out from both of its ends, for chains at any limit. */
export interface BothEnds {
  readonly after: Instance;
  readonly before: Instance;
}

export const layOutEnds = (problem: StationProblem): BothEnds => ({
  after: layOut(problem),
  before: layOut(turnRound(problem)),
});

/**
 * For the most tightly placed task: stations before its own, its own, and stations after it (Johnson 1988); null where these are no more
 * than so many.
 *
 * @param ends of the same tasks at any limit
 */
export function chainBound(problem: StationProblem, ends: BothEnds, beyond: number): ChainBound | null {
  const after = new Side(problem, ends.after);
  const before = new Side(problem, ends.before);
  let [tightest, most] = [-1, 0];
  for (let task = 0; task < problem.times.length; task++) {
    const stations = before.stationsBehind(task) + 1 + after.stationsBehind(task);
    if (stations > most) [tightest, most] = [task, stations];
  }
  if (most <= beyond) return null;
  return {
    kind: "chain",
    stations: most,
    limit: after.instance.limit * commonDivisor(problem.times),
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

  constructor(
    private readonly problem: StationProblem,
    laidOut: Instance,
  ) {
    this.instance = { ...laidOut, limit: limitInUnits(problem, laidOut.workContent) };
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
  const counted = new Uint8Array(instance.size);
  const divisor = commonDivisor(problem.times);
  const byTail = [...tails.keys()].sort((one, two) => tails[two]! - tails[one]! || one - two);
  const originals = (tasks: readonly number[]) =>
    tasks.map((each) => instance.original[each]!).sort((one, two) => one - two);
  // A line may be one long row of tasks, so what is under way stands in a list and not in calls.
  const underWay: { readonly step: ChainStep; readonly rests: readonly number[]; next: number }[] = [];
  const begin = (own: number): void => {
    if (counted[own] === 1 || tails[own] === 0) return;
    counted[own] = 1;
    const { tasks, beyond, tail } = mostWork(instance, tails, own, byTail);
    const common = { task: instance.original[own]!, lies: tails[own]! * divisor };
    const byWork = () => {
      const step = { by: "work", ...common, tasks: originals(tasks), beyond: beyond * divisor } as const;
      underWay.push({ step, rests: beyond > 0 ? tasks : [], next: 0 });
    };
    // A task of no time may stand in the first station behind it; packing alone counts its own station.
    if (tail === tails[own] && instance.times[own]! > 0) {
      byWork();
      return;
    }
    const members = originals([own, ...firstFollowers(instance, own, byTail, instance.size)]);
    const packing = packingOf(problem, members, instance.limit * divisor);
    if ((packing.stations - 1) * instance.limit !== tails[own]) byWork();
    else underWay.push({ step: { by: "packing", ...common, packing }, rests: [], next: 0 });
  };
  begin(task);
  for (let last = underWay.at(-1); last !== undefined; last = underWay.at(-1)) {
    if (last.next < last.rests.length) begin(last.rests[last.next++]!);
    else steps.push(underWay.pop()!.step);
  }
  return steps;
}

/**
 * The followers with the longest tails whose work and shortest tail come to the most.
 *
 * @param byTail all tasks, those with the longest tail first
 */
function mostWork(instance: Instance, tails: Float64Array, task: number, byTail: readonly number[]) {
  const next = onlyNext(instance, task);
  const order = next === null ? byTail : [next];
  const offset = task * instance.words;
  let [work, most, count, end, beyond] = [0, 0, 0, 0, 0];
  for (const other of order) {
    if (!hasTask(instance.followers, offset, other)) continue;
    count++;
    work += instance.times[other]!;
    if (work + tails[other]! > most) [most, end, beyond] = [work + tails[other]!, count, tails[other]!];
  }
  const tail = wholeStations(most, instance.times[task]!, instance.limit);
  return { tasks: firstFollowers(instance, task, order, end), beyond, tail };
}

/** So many followers, in that order. */
function firstFollowers(instance: Instance, task: number, order: readonly number[], count: number): number[] {
  const found: number[] = [];
  for (const other of order) {
    if (found.length === count) break;
    if (hasTask(instance.followers, task * instance.words, other)) found.push(other);
  }
  return found;
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
