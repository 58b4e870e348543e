import type { Before } from "../line/precedence.js";

/** Places of a walk, from the first of them up to the one behind the last. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/**
 * Walks through a diagram depth first, along arrows in both directions, and tells into what it falls where one task is taken out: what
 * hangs below a task in the walk falls off where no way from there leads past it (Tarjan 1972, by the lowest place that each leads to).
 */
export class CutWalk {
  /** Tasks in the order of the walk; what hangs below a task follows it without a gap. */
  readonly order: number[] = [];
  private readonly turnOf: Int32Array;
  /** By task, the lowest place that an arrow leads to from what hangs below it. */
  private readonly lowest: Int32Array;
  /** By task, the place behind all that hangs below it. */
  private readonly end: Int32Array;
  /** By task, the tasks that the walk went on to from it. */
  private readonly below: readonly number[][];
  /** By task, all that hangs together with it. */
  private readonly whole: Stretch[];

  constructor(
    private readonly before: Before,
    private readonly after: Before,
  ) {
    const size = before.length;
    this.turnOf = new Int32Array(size).fill(-1);
    this.lowest = new Int32Array(size);
    this.end = new Int32Array(size);
    this.below = before.map(() => []);
    this.whole = new Array(size);
    for (let task = 0; task < size; task++) if (this.turnOf[task]! < 0) this.walkFrom(task);
  }

  private walkFrom(start: number): void {
    const first = this.order.length;
    const open = [{ task: start, next: 0 }];
    this.meet(start);
    while (open.length > 0) {
      const top = open.at(-1)!;
      const { task } = top;
      const other = this.neighbour(task, top.next++);
      if (other === undefined) {
        open.pop();
        this.end[task] = this.order.length;
        const from = open.at(-1)?.task;
        if (from !== undefined) this.lowest[from] = Math.min(this.lowest[from]!, this.lowest[task]!);
      } else if (this.turnOf[other]! < 0) {
        this.below[task]!.push(other);
        this.meet(other);
        open.push({ task: other, next: 0 });
      } else this.lowest[task] = Math.min(this.lowest[task]!, this.turnOf[other]!);
    }
    const whole = { from: first, to: this.order.length };
    for (let place = first; place < whole.to; place++) this.whole[this.order[place]!] = whole;
  }

  private meet(task: number): void {
    this.turnOf[task] = this.order.length;
    this.lowest[task] = this.order.length;
    this.order.push(task);
  }

  private neighbour(task: number, at: number): number | undefined {
    const earlier = this.before[task]!;
    return at < earlier.length ? earlier[at] : this.after[task]![at - earlier.length];
  }

  /** The sum of something of all tasks before each place. */
  sumsBefore<Value>(
    of: (task: number) => Value,
    zero: Value,
    add: (one: Value, two: Value) => Value,
  ): Value[] {
    const sums = [zero];
    for (const task of this.order) sums.push(add(sums.at(-1)!, of(task)));
    return sums;
  }

  /** The parts into which what hangs together with this task falls without it, each as stretches of the walk. */
  without(task: number): Stretch[][] {
    const { from, to } = this.whole[task]!;
    const place = this.turnOf[task]!;
    const off = this.below[task]!.filter((each) => this.lowest[each]! >= place).map((each) => ({
      from: this.turnOf[each]!,
      to: this.end[each]!,
    }));
    const rest: Stretch[] = [];
    let at = from;
    for (const gap of [{ from: place, to: place + 1 }, ...off]) {
      if (gap.from > at) rest.push({ from: at, to: gap.from });
      at = gap.to;
    }
    if (to > at) rest.push({ from: at, to });
    return [...off.map((each) => [each]), ...(rest.length > 0 ? [rest] : [])];
  }
}
