import type { Arrangement } from "./arrangement.js";

/**
 * Moves tasks to other stations and swaps tasks of two stations as long as that lowers the sum of squared station times:
 * work `shift` that leaves a station for one that stays below it even then. Takes the best change of each task in turn.
 * No station gets longer than the longest was, and none gets empty. True when something changed.
 */
export function swapTasks(arrangement: Arrangement): boolean {
  let changed = false;
  for (let again = true; again; ) {
    again = false;
    for (const task of arrangement.times.keys()) {
      const change = bestChange(arrangement, task);
      if (change === null) continue;
      const from = arrangement.stationOf[task]!;
      arrangement.place(task, change.to);
      if (change.swapped !== null) arrangement.place(change.swapped, from);
      if (arrangement.keepsRules(from, change.to)) again = true;
      else {
        arrangement.place(task, from);
        if (change.swapped !== null) arrangement.place(change.swapped, change.to);
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

function bestChange(arrangement: Arrangement, task: number): Change | null {
  const { times, stationOf, loads, counts } = arrangement;
  const from = stationOf[task]!;
  const [first, last] = [arrangement.earliest(task), arrangement.latest(task)];
  let best: Change | null = null;
  const consider = (to: number, swapped: number | null, shift: number) => {
    const lower = loads[from]! - loads[to]! - shift;
    if (shift <= 0 || lower <= 0 || shift * lower <= (best?.gain ?? 0)) return;
    if (swapped !== null && !mayCome(arrangement, swapped, from, task)) return;
    best = { to, swapped, gain: shift * lower };
  };
  for (let to = first; to <= last && counts[from]! > 1; to++)
    if (to !== from) consider(to, null, times[task]!);
  for (const [other, own] of times.entries()) {
    const to = stationOf[other]!;
    if (to >= first && to <= last && to !== from) consider(to, other, times[task]! - own);
  }
  return best;
}

/** Whether a task may stand at a station once `leaving` has taken its place. */
function mayCome(arrangement: Arrangement, task: number, station: number, leaving: number): boolean {
  if (station < arrangement.earliest(task) || station > arrangement.latest(task)) return false;
  return !arrangement.before[task]!.includes(leaving) && !arrangement.after[task]!.includes(leaving);
}
