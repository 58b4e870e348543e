import type { OpenSchedule } from "./open-schedule.js";
import { masksFor } from "./people-of-tasks.js";
import type { FoundOrder } from "./schedule-search.js";

/** A schedule made in one go is often as good as any. */
export function listTasks(open: OpenSchedule, order: readonly number[]): FoundOrder | null {
  const [one, two] = [listBy(open, order, true), listBy(open, order, false)];
  return one === null || (two !== null && two.dwell < one.dwell) ? two : one;
}

/**
 * Each task in turn: of those that may be put the one that starts soonest, of equals that with the longest chain behind it; or the
 * longest chain before the sooner start. Null where no limit is kept, or what is begun cannot be put to its end.
 *
 * @param order tasks, the longest chains first
 */
function listBy(open: OpenSchedule, order: readonly number[], isSoonestFirst: boolean): FoundOrder | null {
  while (open.depth > 0) open.takeBack();
  while (!open.isWhole) {
    let [best, mask, start] = [-1, 0, Number.POSITIVE_INFINITY];
    for (const task of order) {
      if (!open.mayPut(task)) continue;
      for (const people of masksFor(open, task)) {
        const own = startOf(open, task, people);
        if (own < start) [best, mask, start] = [task, people, own];
      }
      if (best === task && !isSoonestFirst) break;
    }
    if (best < 0) return null;
    open.put(best, mask);
  }
  const { dwell } = open.least();
  return dwell === Number.POSITIVE_INFINITY
    ? null
    : { tasks: [...open.taken], masks: [...open.masks], dwell };
}

function startOf(open: OpenSchedule, task: number, mask: number): number {
  let sum = 0;
  for (let row = 0; row < open.station.rows; row++) sum += open.startOf(task, mask, row);
  return sum;
}
