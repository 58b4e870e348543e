import type { Arrangement } from "./arrangement.js";

/**
 * Deals the tasks of two stations out anew where that brings their times closer together. Neither gets longer than the
 * longer of the two was, neither gets empty, and no task moves past a station between them that holds a task it depends on.
 */
export class Sharing {
  private early = 0;
  private late = 0;
  private total = 0;
  /** What the two times differ by, at best. */
  private gap = 0;
  private steps = 0;
  private found = false;
  /** The tasks of both stations in order of work, and whether each may change its station. */
  private readonly tasks: Int32Array;
  private readonly mayChange: Uint8Array;
  private count = 0;
  /** By task: 1 where it is dealt to the early station. */
  private readonly isEarly: Uint8Array;
  private readonly best: Uint8Array;

  /** `order` holds all tasks in a valid order of work; two stations are dealt out in at most `mostSteps` steps. */
  constructor(
    private readonly arrangement: Arrangement,
    private readonly order: readonly number[],
    private readonly mostSteps: number,
  ) {
    const size = arrangement.times.length;
    this.tasks = new Int32Array(size);
    this.mayChange = new Uint8Array(size);
    this.isEarly = new Uint8Array(size);
    this.best = new Uint8Array(size);
  }

  /** True when the two stations changed. */
  share(early: number, late: number): boolean {
    const { loads, stationOf } = this.arrangement;
    if (loads[early] === loads[late]) return false;
    this.early = early;
    this.late = late;
    this.total = loads[early]! + loads[late]!;
    this.gap = Math.abs(loads[early]! - loads[late]!);
    this.steps = 0;
    this.found = false;
    this.collectTasks();
    this.deal(0, 0, this.total, 0);
    const moved: number[] = [];
    for (let at = 0; at < this.count && this.found; at++) {
      const task = this.tasks[at]!;
      const station = this.best[at] === 1 ? early : late;
      if (stationOf[task] === station) continue;
      this.arrangement.place(task, station);
      moved.push(task);
    }
    if (!this.found || this.arrangement.keepsRules(early, late)) return this.found;
    for (const task of moved) this.arrangement.place(task, stationOf[task] === early ? late : early);
    return false;
  }

  private collectTasks(): void {
    const { stationOf, before, after } = this.arrangement;
    const isBetween = (task: number) => stationOf[task]! > this.early && stationOf[task]! < this.late;
    this.count = 0;
    for (const task of this.order) {
      if (stationOf[task] !== this.early && stationOf[task] !== this.late) continue;
      this.mayChange[this.count] = before[task]!.some(isBetween) || after[task]!.some(isBetween) ? 0 : 1;
      this.tasks[this.count++] = task;
    }
  }

  /** Deals out from place `at` on; `load` and `dealt` are of the early station so far, `inHand` the work still to deal. */
  private deal(at: number, load: number, inHand: number, dealt: number): void {
    if (this.gap === 0 || ++this.steps > this.mostSteps) return;
    if (load - (this.total - load) >= this.gap || this.total - 2 * (load + inHand) >= this.gap) return;
    if (at === this.count) {
      if (dealt > 0 && dealt < this.count) this.keep(load);
      return;
    }
    const task = this.tasks[at]!;
    const own = this.arrangement.times[task]!;
    const wasEarly = this.arrangement.stationOf[task] === this.early;
    if ((wasEarly || this.mayChange[at] === 1) && this.mayBeEarly(task)) {
      this.isEarly[task] = 1;
      this.deal(at + 1, load + own, inHand - own, dealt + 1);
      this.isEarly[task] = 0;
    }
    if (!wasEarly || this.mayChange[at] === 1) this.deal(at + 1, load, inHand - own, dealt);
  }

  /** Whether no task before it is dealt to the late station. */
  private mayBeEarly(task: number): boolean {
    const { stationOf, before } = this.arrangement;
    for (const earlier of before[task]!) {
      const station = stationOf[earlier];
      if ((station === this.early || station === this.late) && this.isEarly[earlier] === 0) return false;
    }
    return true;
  }

  private keep(load: number): void {
    this.gap = Math.abs(this.total - 2 * load);
    this.found = true;
    for (let at = 0; at < this.count; at++) this.best[at] = this.isEarly[this.tasks[at]!]!;
  }
}
