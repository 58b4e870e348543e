import type { BinPackingBound, ChainBound, ChainStep } from "./bounds/bound.js";
import type { StationProblem } from "./problem.js";

/** Checks the arithmetic of a packing, in words what is wrong with it. */
export type CheckPacking = (problem: StationProblem, packing: BinPackingBound) => string[];

/**
 * Counts a chain again from its steps, in whole-number arithmetic of its own: every task that a step names lies on its side of
 * the step's task, every sum is right, and the last steps give the stations on either side. Returns what is wrong, in words.
 */
export function verifyChain(problem: StationProblem, bound: ChainBound, check: CheckPacking): string[] {
  const [task] = bound.tasks;
  if (task === undefined) return bound.stations === 0 ? [] : ["a chain names a task"];
  const after = problem.before.map((): number[] => []);
  for (const [each, earlier] of problem.before.entries()) for (const from of earlier) after[from]!.push(each);
  const sides = [
    new Side(problem, bound, problem.before, check).faults("before", bound.before, bound.stationsBefore),
    new Side(problem, bound, after, check).faults("after", bound.after, bound.stationsAfter),
  ];
  return [...limitFaults(problem, bound), ...sides.flat()];
}

/** The limit may be lowered to what sums of task times can reach, or to the whole work; not further. */
function limitFaults({ times, limit }: StationProblem, bound: ChainBound): string[] {
  const divisor = times.map(BigInt).reduce(commonDivisor, 0n);
  const reached = divisor === 0n ? 0n : (BigInt(limit) / divisor) * divisor;
  const work = times.reduce((sum, each) => sum + BigInt(each), 0n);
  const least = reached < work ? reached : work;
  return BigInt(bound.limit) >= least ? [] : [`a station of the chain can be filled to ${least}`];
}

class Side {
  private readonly lies = new Map<number, bigint>();
  /** Whether the second task lies on this side of the first. */
  private readonly beyond: ReturnType<typeof tasksBeyond>;

  constructor(
    private readonly problem: StationProblem,
    private readonly bound: ChainBound,
    next: readonly (readonly number[])[],
    private readonly check: CheckPacking,
  ) {
    this.beyond = tasksBeyond(next);
  }

  faults(side: string, steps: readonly ChainStep[], stations: number): string[] {
    const faults = steps.flatMap((step) =>
      this.stepFaults(step).map((fault) => `${side} ${step.task}: ${fault}`),
    );
    const task = this.bound.tasks[0]!;
    const own = steps.find((step) => step.task === task);
    const [lies, limit, time] = [this.lies.get(task) ?? 0n, BigInt(this.bound.limit), this.timeOf(task)];
    const full = (lies + time + limit - 1n) / limit - 1n;
    const packed = own?.by === "packing" ? BigInt(own.packing.stations - 1) : 0n;
    const most = full > packed ? full : packed;
    if (BigInt(stations) !== (most > 0n ? most : 0n)) faults.push(`${most} stations lie ${side} ${task}`);
    return faults;
  }

  private stepFaults(step: ChainStep): string[] {
    const named = step.by === "work" ? step.tasks : step.packing.tasks;
    const astray = named.filter(
      (task) => !this.beyond(step.task, task) && (step.by === "work" || task !== step.task),
    );
    const faults = astray.map((task) => `${task} does not lie on that side`);
    if (new Set(named).size < named.length) faults.push("a task is counted twice");
    const lies = step.by === "work" ? this.byWork(step, faults) : this.byPacking(step.packing, faults);
    if (BigInt(step.lies) !== lies) faults.push(`${lies} lies there`);
    this.lies.set(step.task, lies);
    return faults;
  }

  private byWork(step: ChainStep & { by: "work" }, faults: string[]): bigint {
    const short = step.tasks.filter((task) => (this.lies.get(task) ?? 0n) < BigInt(step.beyond));
    faults.push(...short.map((task) => `less than ${step.beyond} lies beyond ${task}`));
    const sum = step.tasks.reduce((all, task) => all + this.timeOf(task), BigInt(step.beyond));
    const limit = BigInt(this.bound.limit);
    const begun = sum % limit;
    return begun > 0n && begun + this.timeOf(step.task) > limit ? sum - begun + limit : sum;
  }

  private byPacking(packing: BinPackingBound, faults: string[]): bigint {
    faults.push(...this.check({ ...this.problem, limit: this.bound.limit }, packing));
    return BigInt(packing.stations - 1) * BigInt(this.bound.limit);
  }

  private timeOf(task: number): bigint {
    return BigInt(this.problem.times[task]!);
  }
}

/** Whether a task lies on one side of another: each has the sets of bits of those next to it, with what lies beyond these. */
function tasksBeyond(next: readonly (readonly number[])[]): (task: number, other: number) => boolean {
  const bytes = (next.length + 7) >> 3;
  const sets = new Uint8Array(next.length * bytes);
  const missing = next.map((tasks) => tasks.length);
  const before = next.map((): number[] => []);
  for (const [task, tasks] of next.entries()) for (const each of tasks) before[each]!.push(task);
  const waiting = [...next.keys()].filter((task) => missing[task] === 0);
  for (let each = waiting.pop(); each !== undefined; each = waiting.pop()) {
    for (const task of before[each]!) {
      const own = sets.subarray(task * bytes, (task + 1) * bytes);
      for (let at = 0; at < bytes; at++) own[at]! |= sets[each * bytes + at]!;
      own[each >> 3]! |= 1 << (each & 7);
      if (--missing[task]! === 0) waiting.push(task);
    }
  }
  return (task, other) => ((sets[task * bytes + (other >> 3)]! >> (other & 7)) & 1) === 1;
}

function commonDivisor(one: bigint, two: bigint): bigint {
  return two === 0n ? one : commonDivisor(two, one % two);
}
