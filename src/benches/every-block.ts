import type { Line } from "../line/line.js";
import {
  ascending,
  joinsOf,
  likelyBlocks,
  marksBase,
  partsByJoin,
  tasksHandedOn,
  tasksOnBase,
} from "./find-blocks.js";
import { holdsOf } from "./held-on-line.js";

/** Tasks that can be built away from the line, and every task of the line that waits for them. */
export interface JoinedBlock {
  /** Task numbers, ascending; with a task, everything before it. */
  readonly tasks: readonly number[];
  /** Ascending, one or more. */
  readonly joinsAt: readonly number[];
}

export interface EveryBlock {
  readonly blocks: readonly JoinedBlock[];
  /** No block was left out. */
  readonly isWhole: boolean;
}

/** More blocks than these are not looked at. */
export const MOST_BLOCKS = 5_000;

/**
 * Every block of a line: tasks off the base unit, closed under predecessors, from each of which arrows lead out, all to one task;
 * with `several`, to any tasks; and which no rule of the line holds at its stations. Where no task is marked the base unit is unknown: such blocks are guessed among those of less than
 * half of the work content.
 */
export function everyBlock(line: Line, several: boolean, most = MOST_BLOCKS): EveryBlock {
  const isLikely = marksBase(line) ? () => true : likelyBlocks(line);
  const blocks: JoinedBlock[] = [];
  for (const block of several ? closedSets(line, 4 * most) : unionsOfParts(line)) {
    if (block === null) return { blocks, isWhole: false };
    if (!isLikely(block) || holdsOf(line, block.tasks).length > 0) continue;
    if (blocks.length === most) return { blocks, isWhole: false };
    blocks.push(block);
  }
  return { blocks, isWhole: true };
}

/** What joins at one task is any choice of the parts that may be built away for it; fewer parts first. */
function* unionsOfParts(line: Line): Generator<JoinedBlock> {
  const byJoin = partsByJoin(line);
  const most = Math.max(0, ...byJoin.map(({ parts }) => parts.length));
  for (let size = 1; size <= most; size++) {
    for (const { joinsAt, parts } of byJoin) {
      for (const chosen of choices(parts, size, 0)) yield blockOf(chosen, joinsAt);
    }
  }
}

const blockOf = (parts: readonly (readonly number[])[], joinsAt: number): JoinedBlock => ({
  tasks: ascending(parts.flat()),
  joinsAt: [joinsAt],
});

/** Every choice of so many items from `from` on, in the order of the items. */
function* choices<T>(items: readonly T[], size: number, from: number): Generator<T[]> {
  if (size === 0) {
    yield [];
    return;
  }
  for (let first = from; first <= items.length - size; first++) {
    for (const rest of choices(items, size - 1, first + 1)) yield [items[first]!, ...rest];
  }
}

/** Every closed set off the base unit all of which leads back to the line, smaller ones first; null once `most` sets were met. */
function* closedSets(line: Line, most: number): Generator<JoinedBlock | null> {
  const onBase = tasksOnBase(line);
  const isHandedOn = tasksHandedOn(line);
  const away = [...line.tasks.keys()].filter((task) => !onBase[task] && isHandedOn[task]);
  let met = 0;
  let level: readonly number[][] = [[]];
  while (level.length > 0) {
    const next = new Map<string, number[]>();
    for (const set of level) {
      const inside = new Set(set);
      for (const task of away) {
        if (inside.has(task) || !line.before[task]!.every((earlier) => inside.has(earlier))) continue;
        const larger = ascending([...set, task]);
        const key = larger.join(" ");
        if (next.has(key)) continue;
        if (met++ === most) return yield null;
        next.set(key, larger);
        yield { tasks: larger, joinsAt: joinsOf(line, larger) };
      }
    }
    level = [...next.values()];
  }
}
