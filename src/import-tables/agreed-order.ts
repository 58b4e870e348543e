import type { Before } from "../line/precedence.js";
import { allFollowers, allPredecessors, TaskSets } from "../line/reach.js";

/** A unit as it was built: the numbers of its tasks in the order in which they were done, each once. */
export type BuiltOrder = readonly number[];

/** Two tasks by their numbers. */
export type Pair = readonly [number, number];

/** How many pairs there are, and the first of them. */
export interface SomePairs {
  readonly count: number;
  readonly first: readonly Pair[];
}

/** What orders agree on. */
export interface AgreedOrder {
  readonly kind: "agreed";
  /** For each task the tasks directly before it, ascending, without what longer ways imply. */
  readonly before: Before;
  /** Pairs with a precedence, those that longer ways imply among them. */
  readonly ordered: number;
  /** Pairs without a precedence that were seen both ways; those that one order alone does the other way stand first. */
  readonly free: SomePairs;
  /** How many of these one order alone does one way, and two or more the other. */
  readonly alone: number;
  /** Pairs without a precedence that no order has both tasks of, and that one unit may have. */
  readonly unseen: SomePairs;
  /** Pairs without a precedence that no unit has both tasks of. */
  readonly apart: number;
}

export type Agreement =
  | AgreedOrder
  /**
   * Tasks that wait for each other, in the sense of the precedences: units disagree by way of tasks that not all of them have. The first
   * two of a loop may have been seen both ways; all others, and the last and the first, are as every unit with both has them, or known.
   */
  | { readonly kind: "loops"; readonly loops: readonly (readonly number[])[] }
  /** So many direct precedences are no answer. */
  | { readonly kind: "too-many" };

/** Pairs of a list. */
const MOST_PAIRS = 1_000;
/** Direct precedences that a line file may be given. */
export const MOST_ARROWS = 1_000_000;

/**
 * What every order that has both tasks of a pair agrees on, with what is known before: the intersection of the orders, which is the maximum
 * graph of Klindworth, Otto and Scholl, On a learning precedence graph concept for the automotive industry (2012; from memory). Every
 * precedence that must be kept is in it as soon as one order has both tasks. It takes some bits for each of n x n pairs, no more.
 *
 * @param size the number of tasks
 * @param known for each task the tasks directly before it that are known already; no order is against it
 * @param models the tasks of each model: no unit has two tasks that no model has both of; empty where a unit may have any two
 */
export function agreeOn(
  size: number,
  orders: readonly BuiltOrder[],
  known: Before,
  models: readonly (readonly number[])[] = [],
): Agreement {
  const sorted = inOrder(size, orders, known);
  if (!sorted.ok) return { kind: "loops", loops: sorted.loops };
  // Numbered in an order of work, so that whatever comes before a task has a smaller number.
  const { order } = sorted;
  const rank = new Int32Array(size);
  for (const [at, task] of order.entries()) rank[task] = at;
  const ranked = (tasks: readonly number[]) => tasks.map((task) => rank[task]!);
  const seen = new SeenPairs(size, orders.map(ranked));
  const knownRanked = order.map((task) => ranked(known[task]!));
  const knownBefore = allPredecessors(knownRanked);
  const reduced = reduce(size, (task) => seen.agreed(task, knownBefore));
  if (reduced === null) return { kind: "too-many" };
  const { closed, before } = reduced;
  const against = againstClosed(closed, orders.map(ranked));
  if (against.some((broken) => broken.length > 0)) {
    const knownAfter = allFollowers(knownRanked);
    const later = (task: number) => tasksIn(seen.agreed(task, knownAfter, 1));
    return {
      kind: "loops",
      loops: loopsAgainst(against, later).map((loop) => loop.map((each) => order[each]!)),
    };
  }
  const units = models.length === 0 ? null : tasksOfOneUnit(size, models.map(ranked));
  const [free, alone, unseen] = [new PairList(order), new PairList(order), new PairList(order)];
  let [ordered, apart] = [0, 0];
  for (let task = 0; task < size; task++) {
    const [own, unit] = [closed.row(task), units?.row(task)];
    const { once, twice } = seen.rows(task);
    for (let word = 0; word * 32 < task; word++) {
      ordered += bitsIn(own[word]!);
      const smaller = task - word * 32 >= 32 ? -1 : (1 << (task & 31)) - 1;
      const left = smaller & ~own[word]!;
      const both = left & once.before[word]! & once.after[word]!;
      const byOne = both & (twice.before[word]! ^ twice.after[word]!);
      alone.add(task, word, byOne);
      free.add(task, word, both & ~byOne);
      const neither = left & ~(once.before[word]! | once.after[word]!);
      const may = unit?.[word] ?? -1;
      unseen.add(task, word, neither & may);
      apart += bitsIn(neither & ~may);
    }
  }
  const back: number[][] = order.map(() => []);
  for (const [at, earlier] of before.entries())
    back[order[at]!] = earlier.map((each) => order[each]!).sort((one, two) => one - two);
  const first = [...alone.first, ...free.first].slice(0, MOST_PAIRS);
  return {
    kind: "agreed",
    before: back,
    ordered,
    free: { count: alone.count + free.count, first },
    alone: alone.count,
    unseen: { count: unseen.count, first: unseen.first },
    apart,
  };
}

interface SeenRows {
  readonly before: Uint32Array;
  readonly after: Uint32Array;
}

/** For each task the tasks that some order has before it, and those that some order has after it; and those of two orders or more. */
class SeenPairs {
  readonly #once: readonly [TaskSets, TaskSets];
  readonly #twice: readonly [TaskSets, TaskSets];

  constructor(
    readonly size: number,
    orders: readonly BuiltOrder[],
  ) {
    const sets = (): [TaskSets, TaskSets] => [new TaskSets(size), new TaskSets(size)];
    [this.#once, this.#twice] = [sets(), sets()];
    for (const order of orders) {
      this.#see(order, 0);
      this.#see(order.toReversed(), 1);
    }
  }

  #see(order: BuiltOrder, way: 0 | 1): void {
    const passed = new Uint32Array(Math.ceil(this.size / 32));
    for (const task of order) {
      const [once, twice] = [this.#once[way].row(task), this.#twice[way].row(task)];
      for (let word = 0; word < passed.length; word++) {
        twice[word]! |= once[word]! & passed[word]!;
        once[word]! |= passed[word]!;
      }
      passed[task >>> 5]! |= 1 << (task & 31);
    }
  }

  rows(task: number): { readonly once: SeenRows; readonly twice: SeenRows } {
    const of = ([before, after]: readonly [TaskSets, TaskSets]) => ({
      before: before.row(task),
      after: after.row(task),
    });
    return { once: of(this.#once), twice: of(this.#twice) };
  }

  /** What all orders have before a task, and what is known to be; or with `way` 1 after it. */
  agreed(task: number, known: TaskSets, way: 0 | 1 = 0): Uint32Array {
    const [one, other] = [this.#once[way].row(task), this.#once[1 - way]!.row(task)];
    const found = known.row(task).slice();
    for (let word = 0; word < found.length; word++) found[word]! |= one[word]! & ~other[word]!;
    return found;
  }
}

type InOrder =
  | { readonly ok: true; readonly order: readonly number[] }
  | { readonly ok: false; readonly loops: readonly (readonly number[])[] };

/** The tasks in an order of work that keeps what all orders agree on and what is known: any order with all tasks is one. */
function inOrder(size: number, orders: readonly BuiltOrder[], known: Before): InOrder {
  const whole = orders.find(({ length }) => length === size);
  if (whole !== undefined) return { ok: true, order: whole };
  const seen = new SeenPairs(size, orders);
  const [before, after] = [allPredecessors(known), allFollowers(known)];
  const later = (task: number) => seen.agreed(task, after, 1);
  const missing = Int32Array.from({ length: size }, (_, task) => countBits(seen.agreed(task, before)));
  const order = [...missing.keys()].filter((task) => missing[task] === 0);
  for (let at = 0; at < order.length; at++)
    for (const next of tasksIn(later(order[at]!))) if (--missing[next]! === 0) order.push(next);
  if (order.length === size) return { ok: true, order };
  const left = new Set([...missing.keys()].filter((task) => missing[task]! > 0));
  const loops: number[][] = [];
  for (const task of left) {
    const loop = left.has(task) ? loopThrough(task, (each) => tasksIn(later(each)), left) : null;
    for (const each of loop ?? [task]) left.delete(each);
    if (loop !== null) loops.push(loop);
  }
  return { ok: false, loops };
}

/** For each pair that an order does against what the others imply, told once: the shortest loop that begins with it. */
function loopsAgainst(
  against: readonly (readonly BrokenOrder[])[],
  later: (task: number) => Iterable<number>,
): number[][] {
  const pairs = new Map(against.flat().map((each) => [`${each.after} ${each.before}`, each]));
  return [...pairs.values()].flatMap(({ before, after }) => {
    const loop = loopThrough(after, (task) => (task === after ? [before] : later(task)));
    return loop === null ? [] : [loop];
  });
}

/** The shortest loop through a task over the tasks that are left, or over all, in the sense of the precedences; null where there is none. */
function loopThrough(
  start: number,
  later: (task: number) => Iterable<number>,
  left: ReadonlySet<number> | null = null,
): number[] | null {
  const cameFrom = new Map<number, number>();
  const found = [start];
  for (const task of found) {
    for (const next of later(task)) {
      if (next === start) {
        const loop = [task];
        while (loop[0] !== start) loop.unshift(cameFrom.get(loop[0]!)!);
        return loop;
      }
      if (left?.has(next) === false || cameFrom.has(next)) continue;
      cameFrom.set(next, task);
      found.push(next);
    }
  }
  return null;
}

/**
 * What comes before each task directly and by longer ways, and directly without what longer ways imply; tasks are numbered in an order of
 * work. Null where too many come directly.
 */
function reduce(size: number, earlier: (task: number) => Uint32Array) {
  const closed = new TaskSets(size);
  const before: number[][] = [];
  let arrows = 0;
  for (let task = 0; task < size; task++) {
    const [wanted, own] = [earlier(task), closed.row(task)];
    const direct: number[] = [];
    // The latest first: what comes before it is implied by it.
    for (let word = wanted.length - 1; word >= 0; word--) {
      for (let bits = wanted[word]! & ~own[word]!; bits !== 0; bits = wanted[word]! & ~own[word]!) {
        const each = word * 32 + 31 - Math.clz32(bits);
        direct.push(each);
        closed.add(task, each);
        closed.addAll(task, each);
      }
    }
    arrows += direct.length;
    if (arrows > MOST_ARROWS) return null;
    before.push(direct);
  }
  return { closed, before };
}

/** For each task those that some unit has beside it. */
function tasksOfOneUnit(size: number, models: readonly (readonly number[])[]): TaskSets {
  const sets = new TaskSets(size);
  for (const tasks of models) {
    const [first, ...others] = tasks;
    if (first === undefined) continue;
    const all = new Uint32Array(Math.ceil(size / 32));
    for (const task of [first, ...others]) all[task >>> 5]! |= 1 << (task & 31);
    for (const task of tasks) {
      const row = sets.row(task);
      for (let word = 0; word < row.length; word++) row[word]! |= all[word]!;
    }
  }
  return sets;
}

/** Counts pairs and keeps the first of them. */
class PairList {
  count = 0;
  readonly first: Pair[] = [];

  constructor(readonly order: readonly number[]) {}

  /** The pairs of a task with the tasks of a word of bits. */
  add(task: number, word: number, bits: number): void {
    this.count += bitsIn(bits);
    for (let left = bits; left !== 0 && this.first.length < MOST_PAIRS; left &= left - 1) {
      const other = word * 32 + 31 - Math.clz32(left & -left);
      this.first.push([this.order[other]!, this.order[task]!]);
    }
  }
}

/** The bits that are set in a word (H. S. Warren, Hacker's Delight, counting 1-bits; from memory). */
function bitsIn(word: number): number {
  let bits = word - ((word >>> 1) & 0x55555555);
  bits = (bits & 0x33333333) + ((bits >>> 2) & 0x33333333);
  return Math.imul((bits + (bits >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
}

function countBits(row: Uint32Array): number {
  let count = 0;
  for (const word of row) count += bitsIn(word);
  return count;
}

function* tasksIn(row: Uint32Array): Generator<number> {
  for (let word = 0; word < row.length; word++)
    for (let bits = row[word]!; bits !== 0; bits &= bits - 1) yield word * 32 + 31 - Math.clz32(bits & -bits);
}

function haveCommon(one: Uint32Array, other: Uint32Array): boolean {
  for (let word = 0; word < one.length; word++) if ((one[word]! & other[word]!) !== 0) return true;
  return false;
}

/** An order that does a task before one that is known to come before it. */
export interface BrokenOrder {
  /** Known to come first, and done later. */
  readonly before: number;
  readonly after: number;
}

/**
 * Where orders are against what is known, by order; what follows from another of these is left out. Where a unit lacks the tasks between
 * two, they are to keep their order all the same.
 */
export const againstKnown = (orders: readonly BuiltOrder[], known: Before): BrokenOrder[][] =>
  againstClosed(allPredecessors(known), orders);

function againstClosed(closed: TaskSets, orders: readonly BuiltOrder[]): BrokenOrder[][] {
  const { size } = closed;
  return orders.map((order) => {
    const toCome = new Uint32Array(Math.ceil(size / 32));
    for (const task of order) toCome[task >>> 5]! |= 1 << (task & 31);
    const present = toCome.slice();
    return order.flatMap((task) => {
      toCome[task >>> 5]! &= ~(1 << (task & 31));
      const known = closed.row(task);
      if (!haveCommon(known, toCome)) return [];
      const late = [...tasksIn(toCome.map((bits, word) => bits & known[word]!))];
      const earlier = [...tasksIn(present.map((bits, word) => bits & known[word]!))];
      return late
        .filter((each) => !earlier.some((other) => closed.has(other, each)))
        .map((before) => ({ before, after: task }));
    });
  });
}
