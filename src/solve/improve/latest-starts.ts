import { allFollowers } from "../../line/reach.js";
import { InSortedOrder } from "../in-sorted-order.js";
import { gapsOfWaits } from "../windows.js";
import { kindAt, mayHold, type Work } from "../work.js";

/**
 * The position, with parts of it, at which the work of each block should begin if all that comes after it is still to be in time: the work
 * of its followers that is due by a position needs, with its own, the stations up to that one (energetic reasoning, after
 * Baptiste, Le Pape & Nuijten 2001). Stations count with what they hold at one place, so this is a guide and no bound.
 *
 * Gives null now and then.
 *
 * @param horizon the number of positions that the plan should make do with
 */
export function* latestStartsInStretches(work: Work, horizon: number): Generator<null, number[]> {
  const roomBefore = roomBeforePositions(work);
  const latest: number[] = Array(work.size).fill(0);
  const [loads, rooms] = [new Float64Array(work.size), new Float64Array(work.size)];
  const gapOf = gapsOfWaits(work.size, work.waits);
  const followers = allFollowers(work.before);
  const position = (block: number) => Math.floor(latest[block]!);
  // What needs several places still takes no more than one position.
  const loadOf = (block: number) => {
    const at = Math.max(0, Math.min(position(block), work.positions - 1));
    return Math.min(work.loads[block]!, roomBefore[at + 1]! - roomBefore[at]!);
  };
  // What was looked at so far, the soonest first.
  const soonest = new InSortedOrder(work.size, (one, two) => latest[one]! - latest[two]! || one - two);
  let looked = 0;
  for (let block = work.size - 1; block >= 0; block--) {
    if (looked >= STRETCH) {
      looked = 0;
      yield null;
    }
    const first = work.first[block]!;
    looked += soonest.size;
    let last = Math.min(work.last[block]!, Math.max(horizon - 1, first));
    for (const later of work.after[block]!) last = Math.min(last, position(later) - gapOf(block, later));
    while (last > first && !mayHold(work, block, kindAt(work, last))) last--;
    latest[block] = Math.max(last, 0);
    let load = loadOf(block);
    // The least room before the work, as its start ascends with that.
    let room = roomBefore[position(block) + 1]! - load;
    for (let at = 0; at < soonest.size; at++) {
      const later = soonest.at(at);
      if (!followers.has(block, later)) continue;
      load += loads[later]!;
      room = Math.min(room, rooms[later]! - load);
    }
    const start = startWithRoom(roomBefore, room);
    last = Math.min(last, Math.floor(start));
    while (last > first && !mayHold(work, block, kindAt(work, last))) last--;
    latest[block] = Math.max(Math.min(start, last + NEARLY_ONE), first);
    loads[block] = loadOf(block);
    rooms[block] = roomBefore[position(block) + 1]!;
    soonest.add(block);
  }
  return latest;
}

/** The same at once. */
export function latestStarts(work: Work, horizon: number): number[] {
  const stretches = latestStartsInStretches(work, horizon);
  for (let stretch = stretches.next(); ; stretch = stretches.next()) if (stretch.done) return stretch.value;
}

/** Followers looked at between two looks at the clock. */
const STRETCH = 500_000;

/** Within the position, at its end. */
const NEARLY_ONE = 0.999;

/** What the stations before each position hold together. */
function roomBeforePositions(work: Work): Float64Array {
  const room = new Float64Array(work.positions + 1);
  for (let at = 0; at < work.positions; at++) {
    const { limits, atOnce } = work.kinds[kindAt(work, at)]!;
    room[at + 1] = room[at]! + atOnce * limits[0]!;
  }
  return room;
}

/** How far into the line, in positions with parts of them, so much room reaches. */
function startWithRoom(roomBefore: Float64Array, room: number): number {
  if (room <= 0) return 0;
  let [at, end] = [0, roomBefore.length - 1];
  while (at < end) {
    const middle = Math.ceil((at + end) / 2);
    if (roomBefore[middle]! <= room) at = middle;
    else end = middle - 1;
  }
  const here = (roomBefore[at + 1] ?? Number.POSITIVE_INFINITY) - roomBefore[at]!;
  return at + (room - roomBefore[at]!) / here;
}
