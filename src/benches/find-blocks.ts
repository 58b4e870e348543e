import type { Line } from "../line/line.js";
import { directFollowers, topologicalOrder } from "../line/precedence.js";
import { reducedOrder } from "../line/reduced-order.js";
import { personTime } from "../plan/figures/person-time.js";
import { add, compare, multiply, type Ratio, ratio, ZERO } from "../time/ratio.js";

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
  const onBase = tasksOnBase(line);
  const away = [...line.tasks.keys()].filter((task) => !onBase[task]);
  const whole = partsByJoin(line).flatMap(({ parts, joinsAt }) =>
    [ascending(parts.flat()), ...parts].map((tasks) => ({ tasks, joinsAt })),
  );
  const ending = away.flatMap((task) => blockEndingIn(line, after, task));
  const found = withoutDoubles([...ending, ...whole]);
  return marksBase(line) ? found : found.filter(({ tasks }) => isLikely(line, tasks));
}

/** Where no task is marked: whether the tasks hold less than half of the work content, as what is built beside the base unit does. */
export function isLikely(line: Line, tasks: readonly number[]): boolean {
  return compare(multiply(ratio(2), personTime(line, tasks)), personTime(line, [...line.tasks.keys()])) < 0;
}

/**
 * For each task that something joins at, the parts that can be built away for it: everything before it that nothing else waits
 * for, cut where no arrow runs between. Every block that joins at one task is made of such parts.
 */
export function partsByJoin(line: Line): { readonly joinsAt: number; readonly parts: readonly number[][] }[] {
  const before = reducedOrder(line.before);
  const after = directFollowers(before);
  const onBase = tasksOnBase(line);
  return [...line.tasks.keys()].flatMap((joinsAt) => {
    const joining = before[joinsAt]!.filter((task) => !onBase[task]);
    const largest = largestBlock(line, after, joinsAt, withPredecessors(line, joining));
    return largest.length > 0 ? [{ joinsAt, parts: connectedParts(line, largest) }] : [];
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
  const inside = new Set(tasks);
  return topologicalOrder(line.before).filter((task) => inside.has(task));
}

export function timeOf(line: Line, tasks: readonly number[]): Ratio {
  return tasks.map((task) => line.tasks[task]!.load).reduce(add, ZERO);
}

/** These tasks and everything before them. */
export function withPredecessors(line: Line, tasks: readonly number[]): Set<number> {
  const inside = new Set(tasks);
  for (const task of inside) for (const earlier of line.before[task]!) inside.add(earlier);
  return inside;
}

export const ascending = (tasks: Iterable<number>): number[] => [...tasks].sort((one, two) => one - two);

/** The block of a task and everything before it, where only one task outside waits for any of it. */
function blockEndingIn(line: Line, after: readonly (readonly number[])[], last: number): Block[] {
  const inside = withPredecessors(line, [last]);
  const leaving = new Set([...inside].flatMap((task) => after[task]!.filter((later) => !inside.has(later))));
  const [joinsAt] = leaving;
  if (leaving.size !== 1 || joinsAt === undefined || after[last]!.length === 0) return [];
  return [{ tasks: ascending(inside), joinsAt }];
}

/** All of these tasks that can be built away for one: what others need as well, and what needs that, stays on the line. */
function largestBlock(
  line: Line,
  after: readonly (readonly number[])[],
  joinsAt: number,
  inside: Set<number>,
): number[] {
  const stays = (task: number): boolean =>
    after[task]!.some((later) => later !== joinsAt && !inside.has(later)) ||
    line.before[task]!.some((earlier) => !inside.has(earlier));
  for (let found = true; found; ) {
    const leaving = [...inside].filter(stays);
    for (const task of leaving) inside.delete(task);
    found = leaving.length > 0;
  }
  return ascending(inside);
}

/** The parts of a block between which no arrow runs. */
function connectedParts(line: Line, block: readonly number[]): number[][] {
  const part = new Map(block.map((task) => [task, task]));
  const rootOf = (task: number): number => {
    let root = task;
    while (part.get(root) !== root) root = part.get(root)!;
    return root;
  };
  for (const task of block) for (const earlier of line.before[task]!) part.set(rootOf(task), rootOf(earlier));
  const roots = [...new Set(block.map(rootOf))];
  return roots.map((root) => block.filter((task) => rootOf(task) === root));
}

function withoutDoubles(blocks: readonly Block[]): Block[] {
  return [...new Map(blocks.map((block) => [block.tasks.join(","), block])).values()];
}
