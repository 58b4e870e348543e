import { kindAt, type Work } from "../work.js";
import type { Reach } from "./reach.js";

/**
 * The position, with parts of it, by which each block should end if all that comes after it is still to be in time: the work of its
 * followers that is due by a position needs, with its own, the stations up to that one (energetic reasoning, after Baptiste, Le
 * Pape & Nuijten 2001). Stations count with what they hold at one place, so this is a guide and no bound.
 *
 * @param horizon the number of positions that the plan should make do with
 */
export function latestPositions(work: Work, reach: Reach, horizon: number): number[] {
  const roomBefore = roomBeforePositions(work);
  const latest: number[] = Array(work.size).fill(0);
  /** The last position for the whole block: the position that holds its end. */
  const position = (block: number) => Math.ceil(latest[block]!) - 1;
  for (let block = work.size - 1; block >= 0; block--) {
    const first = work.first[block]!;
    const followers = reach.after(block);
    let last = Math.min(work.last[block]!, Math.max(horizon - 1, first));
    for (const { block: later, gap } of followers) last = Math.min(last, position(later) - gap);
    let end = last + 1;
    let load = work.loads[block]!;
    const soonest = followers
      .map((each) => each.block)
      .sort((one, two) => latest[one]! - latest[two]! || one - two);
    for (const later of soonest) {
      load += work.loads[later]!;
      const due = position(later);
      if (due >= 0) end = Math.min(end, endWithRoom(roomBefore, roomBefore[due + 1]! - load));
    }
    last = Math.min(last, Math.ceil(end) - 1);
    while (last > first && !mayHold(work, block, kindAt(work, last))) last--;
    latest[block] = Math.max(Math.min(end, last + 1), first + 1 - FIRST_PART);
  }
  return latest;
}

/** Less than a whole position, so that what cannot be in time is still due before what just can. */
const FIRST_PART = 0.5;

function mayHold(
  { allowed, kinds, loads, mayStandAlone, sides }: Work,
  block: number,
  kind: number,
): boolean {
  const { limits, alone } = kinds[kind]!;
  const most = Math.max(limits.at(-1)!, mayStandAlone[block]! ? alone.at(-1)! : 0);
  return allowed[block]![kind]! && loads[block]! <= (sides === null ? 1 : 2) * most;
}

/** What the stations before each position hold together. */
function roomBeforePositions(work: Work): Float64Array {
  const sides = work.sides === null ? 1 : 2;
  const room = new Float64Array(work.positions + 1);
  for (let at = 0; at < work.positions; at++)
    room[at + 1] = room[at]! + sides * work.kinds[kindAt(work, at)]!.limits[0]!;
  return room;
}

/** How far into the line, in positions with parts of them, so much room reaches. */
function endWithRoom(roomBefore: Float64Array, room: number): number {
  if (room <= 0) return 0;
  let at = 0;
  while (at + 1 < roomBefore.length && roomBefore[at + 1]! <= room) at++;
  const here = (roomBefore[at + 1] ?? Number.POSITIVE_INFINITY) - roomBefore[at]!;
  return at + (room - roomBefore[at]!) / here;
}
