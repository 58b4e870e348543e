import type { Line } from "../line/line.js";
import type { Work } from "./work.js";

/** The positions between which each block must stand. */
export interface Windows {
  readonly first: readonly number[];
  readonly last: readonly number[];
}

/**
 * Earliest and latest positions by what is said of the tasks themselves, carried along the arrows: a block stands no sooner
 * than what comes before it, and no later than what comes after; waited-for blocks so many stations later.
 */
export function openWindows(
  line: Line,
  members: readonly (readonly number[])[],
  before: readonly (readonly number[])[],
  waits: Work["waits"],
  positions: number,
): Windows {
  const first = members.map((tasks) => Math.max(0, ...tasks.map((task) => firstOf(line, task))));
  const last = members.map((tasks) => Math.min(positions - 1, ...tasks.map((task) => lastOf(line, task))));
  const between = gapsOfWaits(members.length, waits);
  for (const [block, earlier] of before.entries()) {
    for (const each of earlier) first[block] = Math.max(first[block]!, first[each]! + between(each, block));
  }
  for (let block = members.length - 1; block >= 0; block--) {
    for (const each of before[block]!)
      last[each] = Math.min(last[each]!, last[block]! - between(each, block));
  }
  return { first, last };
}

/** How many positions a block stands after another at the least, by waits between these two. */
export function gapsOfWaits(size: number, waits: Work["waits"]): (from: number, to: number) => number {
  const gaps = new Map<number, number>();
  for (const { from, to, stations } of waits) {
    const key = from * size + to;
    gaps.set(key, Math.max(gaps.get(key) ?? 0, stations));
  }
  return (from, to) => gaps.get(from * size + to) ?? 0;
}

function firstOf(line: Line, task: number): number {
  const { stations, notBefore } = line.tasks[task]!;
  return Math.max(notBefore ?? 0, stations === null ? 0 : Math.min(...stations));
}

function lastOf(line: Line, task: number): number {
  const { stations, notAfter } = line.tasks[task]!;
  return Math.min(
    notAfter ?? Number.POSITIVE_INFINITY,
    stations === null ? Number.POSITIVE_INFINITY : Math.max(...stations),
  );
}
