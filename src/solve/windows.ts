import type { Line } from "../line/line.js";

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
  waits: readonly { readonly from: number; readonly to: number; readonly stations: number }[],
  positions: number,
): Windows {
  const first = members.map((tasks) => Math.max(0, ...tasks.map((task) => firstOf(line, task))));
  const last = members.map((tasks) => Math.min(positions - 1, ...tasks.map((task) => lastOf(line, task))));
  const between = (from: number, to: number) =>
    waits
      .filter((wait) => wait.from === from && wait.to === to)
      .reduce((most, each) => Math.max(most, each.stations), 0);
  for (const [block, earlier] of before.entries()) {
    for (const each of earlier) first[block] = Math.max(first[block]!, first[each]! + between(each, block));
  }
  for (let block = members.length - 1; block >= 0; block--) {
    for (const each of before[block]!)
      last[each] = Math.min(last[each]!, last[block]! - between(each, block));
  }
  return { first, last };
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
