import type { Line } from "../line/line.js";
import { directFollowers, topologicalOrder } from "../line/precedence.js";
import { reducedOrder } from "../line/reduced-order.js";
import { personTime } from "../plan/figures/person-time.js";
import { add, compare, multiply, type Ratio, ratio, subtract, ZERO } from "../time/ratio.js";
import { CutWalk, type Stretch } from "./cut-walk.js";

/** Tasks that can be built away from the line and handed to it at one task. */
export interface Block {
  /** Task numbers, ascending; with a task, everything before it. */
  readonly tasks: readonly number[];
  /** The one task outside the block that waits for it. */
  readonly joinsAt: number;
}

/** Whether anything in the file says what the base unit is; without it every block is a guess. */
export function marksBase(line: Line): boolean {
  return line.tasks.some((task) => task.onBase);
}

/** For each task whether it works on the base unit: it says so, or any task before it does. */
export function tasksOnBase(line: Line): boolean[] {
  const onBase = line.tasks.map((task) => task.onBase);
  for (const task of topologicalOrder(line.before)) {
    if (line.before[task]!.some((earlier) => onBase[earlier])) onBase[task] = true;
  }
  return onBase;
}

/** For each task whether another one needs it: what is made by a task that nothing waits for is handed to nobody. */
export function tasksHandedOn(line: Line): boolean[] {
  return directFollowers(line.before).map((later) => later.length > 0);
}

/**
 * Blocks that can leave the line: for each task that they join at, all that can be built away for it, each part of that
 * which hangs together, and each part that ends in one task. Where no task is marked, the base unit is unknown; blocks
 * are then guessed among those that hold less than half of the work content.
 */
export function findBlocks(line: Line): Block[] {
  const after = directFollowers(reducedOrder(line.before));
  const byJoin = partsByJoin(line);
  // A part ends in one task where only that task is before what it joins at; such parts come first, by that task.
  const ending = byJoin
    .flatMap(({ parts, joinsAt }) =>
      parts.map((tasks) => ({
        tasks,
        joinsAt,
        ends: tasks.filter((task) => after[task]!.includes(joinsAt)),
      })),
    )
    .filter(({ ends }) => ends.length === 1)
    .sort((one, two) => one.ends[0]! - two.ends[0]!);
  const known = new Set(ending.map(({ tasks }) => tasks));
  const others = byJoin.flatMap(({ parts, isAll, joinsAt }) => {
    const all = isAll && parts.length > 1 ? [ascending(parts.flat())] : [];
    return [...all, ...parts.filter((tasks) => !known.has(tasks))].map((tasks) => ({ tasks, joinsAt }));
  });
  const found = [...ending.map(({ tasks, joinsAt }) => ({ tasks, joinsAt })), ...others];
  return marksBase(line) ? found : found.filter(likelyBlocks(line));
}

/** Where no task is marked: whether a block holds less than half of the work content, as what is built beside the base unit does. */
export function likelyBlocks(line: Line): (block: Pick<Block, "tasks">) => boolean {
  const whole = personTime(line, [...line.tasks.keys()]);
  return ({ tasks }) => compare(multiply(ratio(2), personTime(line, tasks)), whole) < 0;
}

/** What can be built away for one task. */
export interface PartsOfJoin {
  readonly joinsAt: number;
  /** Task numbers, ascending; the part with the smallest number first. */
  readonly parts: readonly (readonly number[])[];
  /** No part was left out. */
  readonly isAll: boolean;
}

/**
 * For each task that something joins at, the parts that can be built away for it: everything before it that nothing else waits
 * for, cut where no arrow runs between. Every block that joins at one task is made of such parts.
 *
 * Without that task a part hangs together with nothing else, and no task of it works on the base unit or hands on to nobody: so parts
 * are what falls off the diagram where one of its cut vertices is taken out (Tarjan 1972). Where no task is marked, parts of half of the
 * work content or more are left out.
 */
export function partsByJoin(line: Line): PartsOfJoin[] {
  const before = reducedOrder(line.before);
  const walk = new CutWalk(before, directFollowers(before));
  const marked = marksBase(line);
  const onBase = tasksOnBase(line);
  const isHandedOn = tasksHandedOn(line);
  const bad = walk.sumsBefore(
    (task) => Number(onBase[task]! || !isHandedOn[task]),
    0,
    (one, two) => one + two,
  );
  const work = walk.sumsBefore((task) => personTime(line, [task]), ZERO, add);
  const isLikely = (ranges: readonly Stretch[]): boolean => {
    const own = ranges.map(({ from, to }) => subtract(work[to]!, work[from]!)).reduce(add, ZERO);
    return marked || compare(multiply(ratio(2), own), work.at(-1)!) < 0;
  };
  return [...line.tasks.keys()].flatMap((joinsAt) => {
    const all = walk
      .without(joinsAt)
      .filter((ranges) => ranges.every(({ from, to }) => bad[to] === bad[from]));
    const parts = all
      .filter(isLikely)
      .map((ranges) => ascending(ranges.flatMap(({ from, to }) => walk.order.slice(from, to))))
      .sort((one, two) => one[0]! - two[0]!);
    return parts.length > 0 ? [{ joinsAt, parts, isAll: parts.length === all.length }] : [];
  });
}

/** Tasks outside that take over from any of these, ascending: an arrow that others imply hands nothing over. */
export function joinsOf(line: Line, tasks: readonly number[]): number[] {
  const before = reducedOrder(line.before);
  const inside = new Set(tasks);
  return [...line.tasks.keys()].filter(
    (task) => !inside.has(task) && before[task]!.some((earlier) => inside.has(earlier)),
  );
}

/** Tasks in an order in which they can be worked. */
export function inOrderOfWork(line: Line, tasks: readonly number[]): number[] {
  const turns = TURNS.get(line.before) ?? [];
  if (turns.length === 0)
    for (const [turn, task] of topologicalOrder(line.before).entries()) turns[task] = turn;
  TURNS.set(line.before, turns);
  return [...new Set(tasks)].sort((one, two) => turns[one]! - turns[two]!);
}

/** When the turn of each task comes: on a line of thousands every block asks. */
const TURNS = new WeakMap<Line["before"], number[]>();

export function timeOf(line: Line, tasks: readonly number[]): Ratio {
  return tasks.map((task) => line.tasks[task]!.load).reduce(add, ZERO);
}

/** These tasks and everything before them. */
export function withPredecessors(line: Line, tasks: readonly number[]): Set<number> {
  const inside = new Set(tasks);
  for (const task of inside) for (const earlier of line.before[task]!) inside.add(earlier);
  return inside;
}

export const ascending = (tasks: Iterable<number>): number[] => [...Int32Array.from(tasks).sort()];
