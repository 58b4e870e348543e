import type { OpenSchedule } from "./open-schedule.js";
import type { FoundOrder } from "./schedule-search.js";

/**
 * A schedule made in one go is often good enough.
 *
 * @param masks who does each task, where that is given
 */
export const listTasks = (
  open: OpenSchedule,
  order: readonly number[],
  masks: readonly number[] | null = null,
): FoundOrder | null => listBy(open, order, masks, false) ?? listBy(open, order, masks, true);

/**
 * Each task in turn: of those that may be put the one that starts soonest, of equals that with the longest chain behind it; or the
 * longest chain before the sooner start. Null where no limit is kept, or what is begun cannot be put to its end.
 *
 * @param order tasks, the longest chains first
 */
function listBy(
  open: OpenSchedule,
  order: readonly number[],
  masks: readonly number[] | null,
  isSoonestFirst: boolean,
): FoundOrder | null {
  while (open.depth > 0) open.takeBack();
  while (!open.isWhole) {
    let [best, mask, start] = [-1, 0, Number.POSITIVE_INFINITY];
    for (const task of order) {
      if (!open.mayPut(task)) continue;
      for (const people of masks === null ? open.masksFor(task) : [masks[task]!]) {
        if (masks !== null && !open.mayDo(task, people)) continue;
        const own = startOf(open, task, people);
        if (own < start) [best, mask, start] = [task, people, own];
      }
      if (best === task && !isSoonestFirst) break;
    }
    if (best < 0) return null;
    open.put(best, mask);
  }
  const dwell = open.least();
  return dwell === Number.POSITIVE_INFINITY
    ? null
    : { tasks: [...open.taken], masks: [...open.masks], dwell };
}

function startOf(open: OpenSchedule, task: number, mask: number): number {
  let sum = 0;
  for (let row = 0; row < open.station.rows; row++) sum += open.startOf(task, mask, row);
  return sum;
}
