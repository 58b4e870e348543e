import type { ScheduleProblem, ScheduleRow } from "./schedule-problem.js";

/** A name of equipment at a station: which hold each of its tasks is part of, and how many tasks each hold has. */
export interface HeldName {
  /** The number of the name in the problem. */
  readonly name: number;
  /** By place of the task; -1 for one that does not take it. */
  readonly holdOf: Int32Array;
  readonly sizes: readonly number[];
  /** No hold is shorter, by row and hold: the longest chain of its tasks. */
  readonly least: readonly Float64Array[];
}

/**
 * The tasks of one station as a schedule, by their places in the list given: 0 to size - 1. Lists by row and task hold a row after the
 * other. Kinds of units that take the same of every task here are one row.
 */
export class StationTasks {
  readonly size: number;
  readonly rows: number;
  readonly hands: Float64Array;
  readonly machines: Float64Array;
  readonly before: readonly (readonly number[])[];
  readonly after: readonly (readonly number[])[];
  /** From the start of each task to the end of the longest chain behind it, by row and task. */
  readonly tails: Float64Array;
  readonly modelOf: readonly number[];
  /** Whether the row is a part of how long all units stand on average. */
  readonly isDwell: readonly boolean[];
  /** Names of equipment that tell tasks apart: taken by two tasks or more, or counted. */
  readonly names: readonly HeldName[];
  /** The places in `names` of what each task takes. */
  readonly uses: readonly (readonly number[])[];

  /**
   * @param tasks in an order of work
   * @param isOpen further tasks may join holds of one equipment to one, so that two of them say nothing yet
   */
  constructor(
    readonly problem: ScheduleProblem,
    readonly tasks: readonly number[],
    isOpen = false,
  ) {
    const size = tasks.length;
    this.size = size;
    const whereIs = new Map(tasks.map((task, at) => [task, at]));
    this.before = tasks.map((task) => problem.before[task]!.flatMap((each) => whereIs.get(each) ?? []));
    const after: number[][] = tasks.map(() => []);
    for (const [at, earlier] of this.before.entries()) for (const each of earlier) after[each]!.push(at);
    this.after = after;
    const rows = mergeAlike(problem, tasks);
    this.rows = rows.length;
    this.modelOf = rows.map(([{ model }]) => model);
    this.isDwell = this.modelOf.map((model) => problem.isBuilt[model]!);
    this.hands = new Float64Array(rows.length * size);
    this.machines = new Float64Array(rows.length * size);
    this.tails = new Float64Array(rows.length * size);
    for (const [row, alike] of rows.entries()) {
      for (let at = size - 1; at >= 0; at--) {
        const to = row * size + at;
        for (const { hands, machines } of alike) {
          this.hands[to]! += hands[tasks[at]!]!;
          this.machines[to]! += machines[tasks[at]!]!;
        }
        const machine = this.machines[to]!;
        const behind = after[at]!.reduce(
          (most, each) => Math.max(most, machine + this.tails[row * size + each]!),
          machine,
        );
        this.tails[to] = this.hands[to]! + behind;
      }
    }
    const held = this.namesHeld();
    this.names = isOpen ? held.filter((each) => !this.mayJoinHolds(each)) : held;
    this.uses = tasks.map((_, at) =>
      [...this.names.keys()].filter((each) => this.names[each]!.holdOf[at]! >= 0),
    );
  }

  /** Tasks by the longest chain behind them, over all rows; an order of search, not of work. */
  byTails(): number[] {
    const weights = this.tasks.map((_, task) => {
      let sum = 0;
      for (let row = 0; row < this.rows; row++) sum += this.tails[row * this.size + task]!;
      return sum;
    });
    return [...this.tasks.keys()].sort((one, two) => weights[two]! - weights[one]! || one - two);
  }

  private namesHeld(): HeldName[] {
    const { problem, tasks } = this;
    const users = new Map<number, number[]>();
    for (const [at, task] of tasks.entries())
      for (const name of problem.equipment[task]!) users.set(name, [...(users.get(name) ?? []), at]);
    const isTold = ([name, own]: [number, number[]]) => own.length > 1 || problem.countedAs[name]! >= 0;
    const held = [...users].filter(isTold).sort(([one], [two]) => one - two);
    const reach = held.some(([, own]) => own.length > 1) ? this.reach() : [];
    return held.map(([name, own]) => this.holdsOf(name, own, reach));
  }

  /** Whether tasks that stand apart here are one hold once something else of the line stands with them. */
  private mayJoinHolds({ name, holdOf }: HeldName): boolean {
    const hold = new Map(this.tasks.map((task, at) => [task, holdOf[at]!]));
    return this.problem.joined[name]!.some(
      (tasks) => new Set(tasks.flatMap((task) => hold.get(task) ?? [])).size > 1,
    );
  }

  /** What follows each task at the station, directly or not. */
  private reach(): ReadonlySet<number>[] {
    const all: Set<number>[] = this.tasks.map(() => new Set());
    for (let at = this.size - 1; at >= 0; at--)
      for (const later of this.after[at]!) {
        all[at]!.add(later);
        for (const each of all[later]!) all[at]!.add(each);
      }
    return all;
  }

  private holdsOf(name: number, own: readonly number[], reach: readonly ReadonlySet<number>[]): HeldName {
    const holdOf = new Int32Array(this.size).fill(-1);
    const holds: number[][] = [];
    for (const at of own) {
      const together = holds.filter((hold) =>
        hold.some((each) => reach[each]!.has(at) || reach[at]!.has(each)),
      );
      const hold = [...together.flat(), at];
      for (const each of together) holds.splice(holds.indexOf(each), 1);
      holds.push(hold);
    }
    for (const [number, hold] of holds.entries()) for (const at of hold) holdOf[at] = number;
    const least = Array.from({ length: this.rows }, (_, row) =>
      Float64Array.from(holds, (hold) => this.longestChain(hold, reach, row)),
    );
    return { name, holdOf, sizes: holds.map((hold) => hold.length), least };
  }

  /** The longest chain from a task of the hold to another. */
  private longestChain(hold: readonly number[], reach: readonly ReadonlySet<number>[], row: number): number {
    const own = (at: number) => this.hands[row * this.size + at]! + this.machines[row * this.size + at]!;
    if (hold.length === 1) return own(hold[0]!);
    const inside = new Set(hold);
    const isOf = (at: number) => inside.has(at) || hold.some((each) => reach[at]!.has(each));
    const from = new Float64Array(this.size);
    let longest = 0;
    for (let at = this.size - 1; at >= 0; at--) {
      if (!isOf(at)) continue;
      const behind = this.after[at]!.reduce((most, each) => Math.max(most, from[each]!), 0);
      from[at] = own(at) + behind;
      if (inside.has(at)) longest = Math.max(longest, from[at]!);
    }
    return longest;
  }
}

type AlikeRows = readonly [ScheduleRow, ...ScheduleRow[]];

/** Rows that take as much of every task of the station for one unit, together: their starts differ only by their shares. */
function mergeAlike(problem: ScheduleProblem, tasks: readonly number[]): AlikeRows[] {
  const [only] = problem.rows;
  if (problem.rows.length === 1 && problem.isBuilt[only!.model]) return [[only!]];
  const merged = new Map<string, [ScheduleRow, ...ScheduleRow[]]>();
  const isEach = problem.sides !== null && problem.modelLoads.length > 0;
  for (const row of problem.rows) {
    if (!isEach && !problem.isBuilt[row.model]) continue;
    // With sides each model may have a limit of its own.
    const own = isEach ? row.model : "";
    const { hands, machines } = row.ofUnit;
    const key = `${own}:${tasks.map((task) => `${hands[task]} ${machines[task]}`).join()}`;
    const known = merged.get(key);
    if (known === undefined) merged.set(key, [row]);
    else known.push(row);
  }
  return [...merged.values()];
}
