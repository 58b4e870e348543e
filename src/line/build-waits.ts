import type { Arrow } from "./draft-arrows.js";
import type { Wait } from "./line.js";

/** The arrows with something between their tasks, by task waited for and waiting; of several between two tasks the most. */
export function buildWaits(arrows: readonly Arrow[]): Wait[] {
  const waits = new Map<string, Wait>();
  for (const { from, to, wait, stations, place } of arrows) {
    if (stations === 0) continue;
    const other = waits.get(`${from} ${to}`) ?? { wait: 0, stations: 0, place };
    waits.set(`${from} ${to}`, {
      from,
      to,
      wait: Math.max(wait, other.wait),
      stations: Math.max(stations, other.stations),
      place: other.place,
    });
  }
  return [...waits.values()].sort((one, two) => one.from - two.from || one.to - two.to);
}
