import { NumberSet } from "./number-set.js";
import type { OpenSchedule } from "./open-schedule.js";

/** An order of the tasks of a station, by their places in its list, with the people of each as bits, and when it ends. */
export interface FoundOrder {
  readonly tasks: readonly number[];
  readonly masks: readonly number[];
  readonly dwell: number;
}

/**
 * Tries every order of the tasks, each by everybody who may do it. Orders come up sorted by their moves: a move is a task with its people.
 * Left out are orders for which a smaller one ends no later: where the same tasks were put before and nothing that matters is later or
 * larger, where the last two moves come to the same the other way round, where a twin of the task, alike in everything, is smaller, and
 * where somebody who is alike so far has a smaller number. So the smallest of the best orders is never left out.
 */
export class ScheduleSearch {
  /** Tasks put, over all calls. */
  steps = 0;
  best: FoundOrder | null = null;
  /** By depth what may be put next, `counts` of it: tasks, and the people of each. */
  private readonly moves: { readonly tasks: number[]; readonly masks: number[] }[];
  private readonly counts: Int32Array;
  private readonly next: Int32Array;
  private readonly places: Int32Array;
  private readonly twins: Int32Array;
  private readonly taken: NumberSet;
  private readonly known: Map<number | string, Float64Array[]> | null;
  private isOver = false;

  /**
   * @param order tasks; those before others are tried first
   * @param most the dwell that is allowed, on average and without what is done again
   * @param enough with so short a dwell the search is over
   */
  constructor(
    private readonly open: OpenSchedule,
    private readonly order: readonly number[],
    private most: number,
    private readonly enough: number,
  ) {
    const { size } = open.station;
    this.moves = Array.from({ length: size + 1 }, () => ({ tasks: [], masks: [] }));
    this.counts = new Int32Array(size + 1);
    this.next = new Int32Array(size + 1);
    this.places = new Int32Array(size);
    for (const [place, task] of order.entries()) this.places[task] = place;
    this.twins = twinsOf(open, order);
    this.taken = new NumberSet(size);
    this.known = mayRemember(open) ? new Map() : null;
    while (open.depth > 0) open.takeBack();
    this.isOver = open.least() > most;
    if (!this.isOver) this.begin();
  }

  /** Goes on until the search is over or so many steps are made; whether it is over. */
  advance(mostSteps: number): boolean {
    const { open } = this;
    while (!this.isOver) {
      if (this.steps >= mostSteps) return false;
      if (open.isWhole) {
        this.remember();
        this.takeBack();
      } else if (!this.goOn()) {
        if (open.depth === 0) this.isOver = true;
        else this.takeBack();
      }
    }
    return true;
  }

  /** Lists what may be put next. */
  private begin(): void {
    const { open, order } = this;
    const { depth } = open;
    const { tasks, masks } = this.moves[depth]!;
    let count = 0;
    if (!open.isWhole) {
      for (const task of order) {
        if (!open.mayPut(task)) continue;
        const twin = this.twins[task]!;
        if (twin >= 0 && open.isTaken[twin] === 0) continue;
        for (const mask of open.masksFor(task)) {
          if (this.comesToTheSame(task, mask)) continue;
          tasks[count] = task;
          masks[count++] = mask;
        }
      }
    }
    this.counts[depth] = count;
    this.next[depth] = 0;
  }

  private goOn(): boolean {
    const { open } = this;
    const { depth } = open;
    const { tasks, masks } = this.moves[depth]!;
    while (this.next[depth]! < this.counts[depth]!) {
      const move = this.next[depth]!++;
      this.steps++;
      open.put(tasks[move]!, masks[move]!);
      this.taken.add(tasks[move]!);
      if (open.least() <= this.most && !this.isKnown()) {
        this.begin();
        return true;
      }
      this.takeBack();
    }
    return false;
  }

  private takeBack(): void {
    const { open } = this;
    open.takeBack();
    this.taken.remove(open.taken[open.depth]!);
  }

  /** After the last move a smaller one comes to the same as before it. */
  private comesToTheSame(task: number, mask: number): boolean {
    const { open, places } = this;
    if (open.depth === 0) return false;
    const [last, lastMask] = [open.taken[open.depth - 1]!, open.masks[open.depth - 1]!];
    if (places[last]! < places[task]!) return false;
    const { station } = open;
    if (station.after[last]!.includes(task)) return false;
    if (station.uses[last]!.some((name) => station.uses[task]!.includes(name))) return false;
    if ((mask & lastMask) === 0) return true;
    return mask === lastMask && this.isMereWork(last) && this.isMereWork(task);
  }

  /** Nothing waits for it, nor does it wait for anything. */
  private isMereWork(task: number): boolean {
    const { station } = this.open;
    if (station.before[task]!.length + station.after[task]!.length + station.uses[task]!.length > 0)
      return false;
    for (let row = 0; row < station.rows; row++)
      if (station.machines[row * station.size + task]! > 0) return false;
    return true;
  }

  /** Whether the same tasks were put before with nothing later or larger; otherwise this is remembered. */
  private isKnown(): boolean {
    const { open, known } = this;
    if (known === null || open.depth >= open.station.size - 1) return false;
    const others = known.get(this.taken.key);
    const times = open.times();
    const count = open.timesCount;
    if (others === undefined) {
      if (known.size < MOST_REMEMBERED) known.set(this.taken.key, [times.slice(0, count)]);
      return false;
    }
    for (const other of others) if (isNoLater(other, times, count)) return true;
    let kept = 0;
    for (const other of others) if (!isNoLater(times, other, count)) others[kept++] = other;
    others.length = kept;
    others.push(times.slice(0, count));
    return false;
  }

  private remember(): void {
    const { open } = this;
    const dwell = open.least();
    if (dwell > this.most) return;
    this.best = { tasks: [...open.taken], masks: [...open.masks], dwell };
    this.most = dwell - 1;
    this.isOver = dwell <= this.enough;
  }
}

/** Sets of tasks that are remembered. */
const MOST_REMEMBERED = 20_000;

/**
 * What has ended sooner is no better for equipment that is held from one task to a later one where its time is short: the hold then begins
 * sooner and may end as late.
 */
function mayRemember({ station, limits }: OpenSchedule): boolean {
  return station.names.every(({ name, sizes }) => {
    const counted = station.problem.countedAs[name]!;
    const isLong = counted < 0 || limits.equipment[counted]! >= limits.dwell;
    return isLong || sizes.every((size) => size === 1);
  });
}

function isNoLater(one: Float64Array, two: Float64Array, count: number): boolean {
  for (let at = 0; at < count; at++) if (one[at]! > two[at]!) return false;
  return true;
}

/** For each task the last one before it in the order that is like it in everything; -1 where there is none. */
function twinsOf(open: OpenSchedule, order: readonly number[]): Int32Array {
  const twins = new Int32Array(open.station.size).fill(-1);
  for (const [place, task] of order.entries()) {
    let at = place - 1;
    while (at >= 0 && !areTwins(open, task, order[at]!)) at--;
    if (at >= 0) twins[task] = order[at]!;
  }
  return twins;
}

function areTwins({ station, who }: OpenSchedule, one: number, two: number): boolean {
  const { size, rows, hands, machines, problem, tasks, uses, before, after } = station;
  for (let row = 0; row < rows; row++) {
    const at = row * size;
    if (hands[at + one] !== hands[at + two] || machines[at + one] !== machines[at + two]) return false;
  }
  const [first, second] = [tasks[one]!, tasks[two]!];
  return (
    problem.loads[first] === problem.loads[second] &&
    problem.modelLoads.every((own) => own[first] === own[second]) &&
    who.certain[one] === who.certain[two] &&
    who.people[one] === who.people[two] &&
    who.able?.[one] === who.able?.[two] &&
    areEqual(uses[one]!, uses[two]!) &&
    areEqual(before[one]!, before[two]!) &&
    areEqual(after[one]!, after[two]!)
  );
}

const areEqual = (one: readonly number[], two: readonly number[]): boolean =>
  one.length === two.length && one.every((each, at) => each === two[at]);
