import { overAll, type SideLimits, type SideProblem, type SideSchedule } from "./side-problem.js";

type Side = "left" | "right" | "both";

/** When either side is free again in one row of loads. */
interface Free {
  readonly left: number;
  readonly right: number;
}

/**
 * Tries every order of the tasks, each from every side that it may be worked from. The kinds of units are rows of loads that are
 * worked off side by side, under the same order and sides: a task starts when its side is free and the tasks before it have ended, which
 * is at a time of its own in each row.
 */
export class SideSearch {
  private readonly position = new Map<number, number>();
  private readonly missing: number[];
  private readonly rows: readonly (readonly number[])[];
  /** Ends of the tasks taken, by row. */
  private readonly ends: number[][];
  /** Of the ends of all rows together; one part below the best schedule once there is one. */
  private most: number;
  private readonly taken: number[] = [];
  private readonly takenSides: Side[] = [];
  private best: SideSchedule | null = null;
  private readonly seen = new Map<string, number[][]>();

  constructor(
    private readonly problem: SideProblem,
    private readonly tasks: readonly number[],
    private readonly limits: SideLimits,
  ) {
    for (const [at, task] of tasks.entries()) this.position.set(task, at);
    this.missing = tasks.map(
      (task) => problem.before[task]!.filter((each) => this.position.has(each)).length,
    );
    this.rows = problem.rows;
    this.ends = this.rows.map(() => tasks.map(() => 0));
    this.most = limits.mean;
  }

  /** The schedule of the earliest finish; null where none keeps the limits. */
  run(): SideSchedule | null {
    this.go(this.rows.map(() => ({ left: 0, right: 0 })));
    return this.best;
  }

  private go(free: readonly Free[]): void {
    if (this.taken.length === this.tasks.length) {
      this.remember(free);
      return;
    }
    if (this.isHopeless(free) || this.isDominated(free)) return;
    for (const [at, task] of this.tasks.entries()) {
      if (this.missing[at] !== 0 || this.taken.includes(task)) continue;
      const side = this.problem.sides[task]!;
      for (const chosen of side === "either" ? (["left", "right"] as const) : [side])
        this.put(at, chosen, free);
    }
  }

  private remember(free: readonly Free[]): void {
    const ends = this.byModel(free.map(({ left, right }) => Math.max(left, right)));
    const finish = overAll(this.problem, ends);
    if (finish > this.most || ends.some((end, model) => end > this.limits.models[model]!)) return;
    this.best = {
      tasks: [...this.taken],
      sides: [...this.takenSides],
      finish,
      ends,
      crew: 2,
    };
    this.most = finish - 1;
  }

  private put(at: number, side: Side, free: readonly Free[]): void {
    const task = this.tasks[at]!;
    const starts = this.rows.map((_, row) => this.startOf(task, side, free[row]!, row));
    const ends = starts.map((start, row) => start + this.rows[row]![task]!);
    if (this.byModel(ends).some((end, model) => end > this.limits.models[model]!)) return;
    this.taken.push(task);
    this.takenSides.push(side);
    for (const [row, end] of ends.entries()) this.ends[row]![at] = end;
    this.count(task, -1);
    this.go(
      ends.map((end, row) => ({
        left: side === "right" ? free[row]!.left : end,
        right: side === "left" ? free[row]!.right : end,
      })),
    );
    this.count(task, 1);
    this.taken.pop();
    this.takenSides.pop();
  }

  private startOf(task: number, side: Side, { left, right }: Free, row: number): number {
    const free = side === "left" ? left : side === "right" ? right : Math.max(left, right);
    return this.problem.before[task]!.reduce((latest, each) => {
      const other = this.position.get(each);
      return other === undefined ? latest : Math.max(latest, this.ends[row]![other]!);
    }, free);
  }

  private count(task: number, change: number): void {
    for (const [other, each] of this.tasks.entries())
      if (this.problem.before[each]!.includes(task)) this.missing[other]! += change;
  }

  /** The work left does not fit what both sides have left. */
  private isHopeless(free: readonly Free[]): boolean {
    const { sides } = this.problem;
    const left = this.tasks.filter((task) => !this.taken.includes(task));
    const ends = this.byModel(
      this.rows.map((loads, row) => {
        let [onlyLeft, onlyRight] = [free[row]!.left, free[row]!.right];
        let all = onlyLeft + onlyRight;
        for (const task of left) {
          const side = sides[task]!;
          if (side === "left" || side === "both") onlyLeft += loads[task]!;
          if (side === "right" || side === "both") onlyRight += loads[task]!;
          all += side === "both" ? 2 * loads[task]! : loads[task]!;
        }
        return Math.max(onlyLeft, onlyRight, Math.ceil(all / 2));
      }),
    );
    if (overAll(this.problem, ends) > this.most) return true;
    return ends.some((end, model) => end > this.limits.models[model]!);
  }

  /** The ends of all rows of each model together. */
  private byModel(ends: readonly number[]): number[] {
    const sums = this.limits.models.map(() => 0);
    for (const [row, end] of ends.entries()) sums[this.problem.modelOf[row]!]! += end;
    return sums;
  }

  /** The same tasks were taken before with both sides free no later, and every task that others wait for ended no later. */
  private isDominated(free: readonly Free[]): boolean {
    const waitedFor = [...this.tasks.keys()].filter((at) => this.isWaitedFor(at));
    const times = free.flatMap(({ left, right }, row) => [
      left,
      right,
      ...waitedFor.map((at) => this.ends[row]![at]!),
    ]);
    const key = this.tasks.map((task) => (this.taken.includes(task) ? "x" : ".")).join("");
    const seen = this.seen.get(key) ?? [];
    if (seen.some((other) => other.every((each, at) => each <= times[at]!))) return true;
    this.seen.set(key, [...seen, times]);
    return false;
  }

  /** A task taken, before one that is not. */
  private isWaitedFor(at: number): boolean {
    const task = this.tasks[at]!;
    if (!this.taken.includes(task)) return false;
    return this.tasks.some((each) => !this.taken.includes(each) && this.problem.before[each]!.includes(task));
  }
}
