/** A wide product worked from both sides; by task number of the line. */
export interface SideProblem {
  readonly sides: readonly WorkSide[];
  readonly loads: readonly number[];
  readonly before: readonly (readonly number[])[];
}

/** "both": two people, one at each side, busy at the same time. */
export type WorkSide = "left" | "right" | "either" | "both";

/** Tasks in order of their starts, with the side and the start of each. */
export interface SideSchedule {
  readonly tasks: readonly number[];
  readonly sides: readonly ("left" | "right" | "both")[];
  readonly starts: readonly number[];
  /** When the last task ends. */
  readonly finish: number;
  /** Sides in use. */
  readonly crew: number;
}

/**
 * Whether the tasks fit one station of a wide product within `limit`, and how: the tasks of a side follow each other, and a task
 * waits for the tasks before it at the same station. Loads by side alone prove nothing, so starts are searched: every schedule
 * without needless waiting comes up by putting the tasks one after another to the earliest time (active schedules, Giffler &
 * Thompson 1960). One person is preferred to two, then the earlier finish.
 *
 * @param tasks in an order of work
 */
export function fitSides(problem: SideProblem, tasks: readonly number[], limit: number): SideSchedule | null {
  return onOneSide(problem, tasks, limit) ?? new SideSearch(problem, tasks, limit).run();
}

/** All of it by one person, where no task needs the other side. */
function onOneSide(problem: SideProblem, tasks: readonly number[], limit: number): SideSchedule | null {
  const wanted = new Set(tasks.map((task) => problem.sides[task]!).filter((side) => side !== "either"));
  if (wanted.size > 1 || wanted.has("both")) return null;
  const side = wanted.has("right") ? "right" : "left";
  const starts: number[] = [];
  let finish = 0;
  for (const task of tasks) {
    starts.push(finish);
    finish += problem.loads[task]!;
  }
  return finish > limit ? null : { tasks, sides: tasks.map(() => side), starts, finish, crew: 1 };
}

class SideSearch {
  private readonly position = new Map<number, number>();
  private readonly missing: number[];
  private readonly ends: number[];
  private readonly taken: number[] = [];
  private readonly takenSides: ("left" | "right" | "both")[] = [];
  private readonly starts: number[] = [];
  private best: SideSchedule | null = null;
  private most: number;
  private readonly seen = new Map<string, (readonly [number, number])[]>();

  constructor(
    private readonly problem: SideProblem,
    private readonly tasks: readonly number[],
    limit: number,
  ) {
    for (const [at, task] of tasks.entries()) this.position.set(task, at);
    this.missing = tasks.map(
      (task) => problem.before[task]!.filter((each) => this.position.has(each)).length,
    );
    this.ends = tasks.map(() => 0);
    this.most = limit;
  }

  run(): SideSchedule | null {
    this.go(0, 0);
    return this.best;
  }

  private go(left: number, right: number): void {
    if (this.taken.length === this.tasks.length) {
      const finish = Math.max(left, right);
      this.best = {
        tasks: [...this.taken],
        sides: [...this.takenSides],
        starts: [...this.starts],
        finish,
        crew: 2,
      };
      this.most = finish - 1;
      return;
    }
    if (this.isHopeless(left, right) || this.isDominated(left, right)) return;
    for (const [at, task] of this.tasks.entries()) {
      if (this.missing[at] !== 0 || this.taken.includes(task)) continue;
      const side = this.problem.sides[task]!;
      for (const chosen of side === "either"
        ? (["left", "right"] as const)
        : [side as "left" | "right" | "both"]) {
        this.put(at, chosen, left, right);
      }
    }
  }

  private put(at: number, side: "left" | "right" | "both", left: number, right: number): void {
    const task = this.tasks[at]!;
    const free = side === "left" ? left : side === "right" ? right : Math.max(left, right);
    const start = this.problem.before[task]!.reduce((latest, each) => {
      const other = this.position.get(each);
      return other === undefined ? latest : Math.max(latest, this.ends[other]!);
    }, free);
    const end = start + this.problem.loads[task]!;
    if (end > this.most) return;
    this.taken.push(task);
    this.takenSides.push(side);
    this.starts.push(start);
    this.ends[at] = end;
    for (const [other, each] of this.tasks.entries())
      if (this.problem.before[each]!.includes(task)) this.missing[other]!--;
    this.go(side === "right" ? left : end, side === "left" ? right : end);
    for (const [other, each] of this.tasks.entries())
      if (this.problem.before[each]!.includes(task)) this.missing[other]!++;
    this.taken.pop();
    this.takenSides.pop();
    this.starts.pop();
  }

  /** The work left does not fit what both sides have left. */
  private isHopeless(left: number, right: number): boolean {
    const { loads, sides } = this.problem;
    let [onlyLeft, onlyRight, all] = [left, right, left + right];
    for (const task of this.tasks) {
      if (this.taken.includes(task)) continue;
      const side = sides[task]!;
      if (side === "left" || side === "both") onlyLeft += loads[task]!;
      if (side === "right" || side === "both") onlyRight += loads[task]!;
      all += side === "both" ? 2 * loads[task]! : loads[task]!;
    }
    return onlyLeft > this.most || onlyRight > this.most || all > 2 * this.most;
  }

  /** The same tasks are taken, both sides are free no later, and every task that others wait for has ended no later. */
  private isDominated(left: number, right: number): boolean {
    const key = this.tasks
      .map((task, at) => (this.taken.includes(task) ? (this.isWaitedFor(at) ? this.ends[at]! : "x") : "."))
      .join();
    const seen = this.seen.get(key) ?? [];
    if (seen.some(([otherLeft, otherRight]) => otherLeft <= left && otherRight <= right)) return true;
    this.seen.set(key, [...seen, [left, right]]);
    return false;
  }

  private isWaitedFor(at: number): boolean {
    const task = this.tasks[at]!;
    return this.tasks.some((each) => !this.taken.includes(each) && this.problem.before[each]!.includes(task));
  }
}
