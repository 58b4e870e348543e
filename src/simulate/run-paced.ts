import type { Micros } from "../time/duration.js";
import { type RunInSteps, type RunLine, type RunStreams, STEP, WatchedLine } from "./watched-line.js";
import type { Window } from "./window.js";

/**
 * A line on which all units move on together: when the line cycle is over, and no sooner than every station is done with the unit that
 * leaves it, but for its room. A place with so many beside it has that many cycles for a unit. Work that runs on in the room is done
 * before the place begins the next unit.
 */
export function* runPaced(line: RunLine, streams: RunStreams, window: Window): RunInSteps {
  const { stations, lineCycle } = line;
  const watched = new WatchedLine(line, streams, window);
  const offsets = stations.map((_, at) => stations.slice(0, at).reduce((sum, { places }) => sum + places, 0));
  const whole = stations.reduce((sum, { places }) => sum + places, 0);
  const doneAt = stations.map(({ places }) => new Array<number>(places).fill(0));
  const isUsed = stations.map(({ places }) => new Array<boolean>(places).fill(false));
  const wait = (station: number, place: number, until: Micros) =>
    watched.spend(
      station,
      place,
      isUsed[station]![place]! ? "blocked" : "starved",
      doneAt[station]![place]!,
      until,
    );
  let now = 0;
  for (let round = 0; now <= window.to; round++) {
    if (round % Math.ceil(STEP / stations.length) === 0 && round > 0) yield null;
    if (round >= whole) watched.leave(round - whole, now);
    watched.enter(round, now);
    let next = now + (lineCycle ?? 0);
    for (const [station, { places, room }] of stations.entries()) {
      const unit = round - offsets[station]!;
      if (unit < 0) continue;
      const place = unit % places;
      const start = Math.max(now, doneAt[station]![place]!);
      wait(station, place, start);
      isUsed[station]![place] = true;
      doneAt[station]![place] = watched.work(station, place, unit, start);
      const leaves = unit + 1 - places;
      if (leaves >= 0) next = Math.max(next, doneAt[station]![leaves % places]! - room);
    }
    now = next;
  }
  for (const [station, places] of doneAt.entries())
    for (const place of places.keys()) wait(station, place, window.to);
  return watched.end();
}
