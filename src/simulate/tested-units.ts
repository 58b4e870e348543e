import type { Line, Test } from "../line/line.js";
import { orderOfWork, redoSets, repairsPerGoodUnit } from "../line/visits.js";
import { repairLoads } from "../plan/figures/repairs.js";
import type { Plan } from "../plan/plan.js";
import { orderStation } from "../plan/station-order.js";
import type { Micros } from "../time/duration.js";
import { add, ceiling, divide, ONE, type Ratio, toNumber, ZERO } from "../time/ratio.js";
import type { Stream } from "./draw-times.js";

/** Tests of a line whose failures are drawn one by one, and who repairs what fails. */
export interface TestedLine {
  readonly line: Line;
  /** Tasks of each station as they follow each other there. */
  readonly order: readonly (readonly number[])[];
  readonly stationOf: ReadonlyMap<number, number>;
  /** What a unit does again that a test sends back, the test included. */
  readonly redo: ReadonlyMap<number, readonly number[]>;
  /** People who repair, each a unit at a time. */
  readonly repairers: number;
}

/** Whether failures are drawn one by one: where a plan has a test that they can be sent back from. */
export const drawsFailures = (line: Line, plan: Plan): boolean => testedLine(line, plan, ONE) !== null;

/**
 * Null where no station has a test, and where a test sends units back to a task that is at no station: they count on average then. People who
 * repair are as many as their work asks for at the cycle, rounded up.
 *
 * @param cycle in microseconds
 */
export function testedLine(line: Line, { stations }: Plan, cycle: Ratio): TestedLine | null {
  const stationOf = new Map(
    stations.flatMap(({ tasks }, at) => tasks.map((task) => [task, at] as const)).reverse(),
  );
  const tests = line.tasks.map(({ test }, task) => (stationOf.has(task) ? test : null));
  const isPlaced = tests.every((test) => test?.failures !== "repaired" || stationOf.has(test.returnTo));
  if (tests.every((test) => test === null) || !isPlaced) return null;
  const again = redoSets(line.before, tests, orderOfWork(line.before, tests));
  const work = repairLoads(line, repairsPerGoodUnit(line))
    .filter(({ test }) => tests[test] !== null)
    .map((each) => each.work)
    .reduce(add, ZERO);
  return {
    line,
    order: stations.map((station) => orderStation(line, station).turns.map(({ at }) => station.tasks[at]!)),
    stationOf,
    redo: new Map([...tests.keys()].map((task) => [task, [...(again.get(task) ?? []), task]])),
    repairers: cycle.num > 0n ? Math.max(1, Number(ceiling(divide(work, cycle)))) : 1,
  };
}

/** What tests find on a unit while it is at a station. */
export interface Found {
  /** By task of the line: 1 where it is done there; null where all are. */
  readonly due: Uint8Array | null;
  /** The test that it fails, after which nothing more is done there; null where it goes on. */
  readonly failed: { readonly test: number; readonly isScrapped: boolean } | null;
}

const ALL_GOOD: Found = { due: null, failed: null };

/** Units of one run that tests send back, with what is left to do on them. */
export class TestedUnits {
  private readonly left = new Map<number, Uint8Array>();
  /** Tests that a unit failed and has not passed since. */
  private readonly failed = new Map<number, Set<number>>();
  private readonly hasTest: readonly boolean[];

  constructor(
    private readonly tested: TestedLine,
    private readonly sequence: readonly number[],
  ) {
    this.hasTest = tested.order.map((tasks) => tasks.some((task) => tested.line.tasks[task]!.test !== null));
  }

  /** What will be found at a station that a unit comes to. */
  at(station: number, unit: number, stream: Stream): Found {
    const left = this.left.get(unit);
    if (left === undefined && !this.hasTest[station]!) return ALL_GOOD;
    const { line, order } = this.tested;
    const due = new Uint8Array(line.tasks.length);
    for (const task of order[station]!) {
      if (left !== undefined && left[task] === 0) continue;
      due[task] = 1;
      const { test, every, times } = line.tasks[task]!;
      const model = times.length === 1 ? 0 : this.modelOf(unit);
      if (test === null || unit % every !== every - 1 || times[model] === null) continue;
      const isScrapped = this.judge(test, task, unit, stream() < this.shareOf(test, unit));
      if (isScrapped !== null) return { due, failed: { test: task, isScrapped } };
    }
    return { due, failed: null };
  }

  /** The unit has been at the station and goes on along the line. */
  goesOn(station: number, unit: number, { due }: Found): void {
    const left = this.left.get(unit);
    if (left === undefined || due === null) return;
    for (const task of this.tested.order[station]!) if (due[task] === 1) left[task] = 0;
  }

  /** The unit has failed a test at the station; gives the station that it goes back to. */
  goesBack(station: number, unit: number, due: Uint8Array, test: number): number {
    const { redo, stationOf } = this.tested;
    const left = this.left.get(unit) ?? this.leftAfter(station);
    for (const task of this.tested.order[station]!) if (due[task] === 1) left[task] = 0;
    const again = redo.get(test)!;
    for (const task of again) left[task] = 1;
    this.left.set(unit, left);
    return stationOf.get(again[0]!)!;
  }

  /** All work from a station on, of a unit that has had what comes before. */
  private leftAfter(station: number): Uint8Array {
    const left = new Uint8Array(this.tested.line.tasks.length);
    for (const tasks of this.tested.order.slice(station)) for (const task of tasks) left[task] = 1;
    return left;
  }

  /** The unit has left the line, whole or scrapped. */
  forget(unit: number): void {
    this.left.delete(unit);
    this.failed.delete(unit);
  }

  private modelOf(unit: number): number {
    return this.sequence[unit % this.sequence.length]!;
  }

  private shareOf(test: Test, unit: number): number {
    if (test.failures === "scrapped") return toNumber(test.scrap, 12);
    return toNumber(test.failByModel?.[this.modelOf(unit)] ?? test.fail, 12);
  }

  /** Null where the unit goes on; else whether it is scrapped. */
  private judge(test: Test, task: number, unit: number, fails: boolean): boolean | null {
    if (test.failures === "scrapped") return fails ? true : null;
    const own = this.failed.get(unit) ?? new Set<number>();
    const isRetest = own.has(task);
    if (!fails || (isRetest && test.retest === "once")) {
      own.delete(task);
      return null;
    }
    own.add(task);
    this.failed.set(unit, own);
    return isRetest && test.retest === "scrap";
  }
}

/** How long a repair after a test takes. */
export function repairTime({ line }: TestedLine, task: number): Micros {
  const { test } = line.tasks[task]!;
  return test?.failures === "repaired" ? test.repair : 0;
}
