import { kindAt, type Work } from "../work.js";
import type { Reach } from "./reach.js";

/**
 * The position by which each block should stand if all that comes after it is still to be in time: the work of its followers that
 * is due by a position, with its own, needs the stations from its own position to that one (energetic reasoning: Baptiste, Le Pape
 * & Nuijten 2001). Stations count with what they hold at one place, so this is a guide and no bound.
 *
 * @param horizon the number of positions that the plan should make do with
 */
export function latestPositions(work: Work, reach: Reach, horizon: number): Float64Array {
  const sides = work.sides === null ? 1 : 2;
  // Room of all positions before each.
  const roomBefore = new Float64Array(work.positions + 1);
  for (let at = 0; at < work.positions; at++)
    roomBefore[at + 1] = roomBefore[at]! + sides * work.kinds[kindAt(work, at)]!.limits[0]!;
  const latest = new Float64Array(work.size);
  for (let block = work.size - 1; block >= 0; block--) {
    let last = Math.min(work.last[block]!, Math.max(horizon - 1, work.first[block]!));
    const followers = reach.after(block);
    for (const { block: later, gap } of followers) last = Math.min(last, Math.floor(latest[later]!) - gap);
    const inOrder = followers
      .map(({ block: later }) => later)
      .sort((one, two) => latest[one]! - latest[two]! || one - two);
    let load = work.loads[block]!;
    // How far into the line the block may end at the latest, in positions and parts of them.
    let finest = last + 1;
    for (const later of inOrder) {
      load += work.loads[later]!;
      const due = Math.floor(latest[later]!);
      if (due < 0) continue;
      finest = Math.min(finest, positionWithRoom(roomBefore, roomBefore[due + 1]! - load));
    }
    while (last > 0 && last > work.first[block]! && last > finest) last--;
    while (last > work.first[block]! && !work.allowed[block]![kindAt(work, last)]!) last--;
    latest[block] = Math.min(last + 1, Math.max(finest, last));
  }
  return latest;
}

/** The position, with parts, before which there is so much room. */
function positionWithRoom(roomBefore: Float64Array, room: number): number {
  if (room < 0) return -1;
  let at = 0;
  while (at + 1 < roomBefore.length && roomBefore[at + 1]! <= room) at++;
  const here = (roomBefore[at + 1] ?? roomBefore[at]! + 1) - roomBefore[at]!;
  return at + (here > 0 ? (room - roomBefore[at]!) / here : 0);
}
