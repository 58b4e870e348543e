import type { Arrangement } from "./arrangement.js";

/**
 * Moves tasks to other stations and swaps tasks of two stations as long as that lowers the sum of squared station times:
 * work `shift` that leaves a station for one that stays below it even then. Takes the best change of each task in turn.
 * No station gets longer than the longest was, and none gets empty. True when something changed.
 */
export function swapTasks(arrangement: Arrangement): boolean {
  const swaps = swapsOf(arrangement);
  for (;;) {
    const { done, value } = swaps.next();
    if (done === true) return value;
  }
}

/** The same in stretches between which a search may end: the plan is whole after each. */
export function* swapsOf(arrangement: Arrangement): Generator<undefined, boolean> {
  let looked = 0;
  const tasksAt = arrangement.plan().map((tasks) => new Set(tasks));
  const place = (task: number, to: number) => {
    tasksAt[arrangement.stationOf[task]!]!.delete(task);
    tasksAt[to]!.add(task);
    arrangement.place(task, to);
  };
  let changed = false;
  for (let again = true; again; ) {
    again = false;
    for (const task of arrangement.times.keys()) {
      looked += arrangement.latest(task) - arrangement.earliest(task);
      if (looked > STRETCH) {
        looked = 0;
        yield;
      }
      const change = bestChange(arrangement, tasksAt, task);
      if (change === null) continue;
      const from = arrangement.stationOf[task]!;
      place(task, change.to);
      if (change.swapped !== null) place(change.swapped, from);
      if (arrangement.keepsRules(from, change.to)) again = true;
      else {
        place(task, from);
        if (change.swapped !== null) place(change.swapped, change.to);
      }
    }
    changed ||= again;
  }
  return changed;
}

interface Change {
  readonly to: number;
  /** The task that comes back. */
  readonly swapped: number | null;
  /** Half of what the sum of squares falls by. */
  readonly gain: number;
}

/** Of equals a move, to the first station, before a swap, with the smallest number. */
function bestChange(
  arrangement: Arrangement,
  tasksAt: readonly ReadonlySet<number>[],
  task: number,
): Change | null {
  const { times, stationOf, loads, counts } = arrangement;
  const from = stationOf[task]!;
  const [first, last] = [arrangement.earliest(task), arrangement.latest(task)];
  let [at, back, most] = [NONE, NONE, 0];
  const consider = (to: number, swapped: number, shift: number) => {
    const lower = loads[from]! - loads[to]! - shift;
    const gain = shift * lower;
    if (shift <= 0 || lower <= 0 || gain < most) return;
    if (gain === most && (back === NONE || swapped >= back)) return;
    if (swapped !== NONE && !mayCome(arrangement, swapped, from, task)) return;
    [at, back, most] = [to, swapped, gain];
  };
  for (let to = first; to <= last && counts[from]! > 1; to++)
    if (to !== from) consider(to, NONE, times[task]!);
  for (let to = first; to <= last; to++) {
    // Half of the gap, shifted, gains the most.
    const gap = loads[from]! - loads[to]!;
    if (to === from || gap <= 0 || (gap * gap) / 4 < most) continue;
    for (const other of tasksAt[to]!) consider(to, other, times[task]! - times[other]!);
  }
  return at === NONE ? null : { to: at, swapped: back === NONE ? null : back, gain: most };
}

/** Whether a task may stand at a station once `leaving` has taken its place. */
function mayCome(arrangement: Arrangement, task: number, station: number, leaving: number): boolean {
  if (station < arrangement.earliest(task) || station > arrangement.latest(task)) return false;
  return !arrangement.before[task]!.includes(leaving) && !arrangement.after[task]!.includes(leaving);
}

const NONE = -1;
/** Stations looked at in a stretch. */
const STRETCH = 1_000_000;
