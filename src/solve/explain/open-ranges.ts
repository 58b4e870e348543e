import { allFollowers } from "../../line/reach.js";
import { InSortedOrder } from "../in-sorted-order.js";
import { gapsOfWaits } from "../windows.js";
import { kindAt, mayHold, type StationKind, type Work } from "../work.js";

/** The first and the last station of the floor that may hold a block. */
export interface Ends {
  readonly first: number;
  readonly last: number;
}

/** Where each block may stand, by what is proved. */
export interface Ranges {
  readonly first: readonly number[];
  /** Endless where the block may stand behind the floor. */
  readonly last: readonly number[];
  /** By block the first and the last of those stations. */
  readonly ends: readonly (Ends | null)[];
  /** The stations of the floor that may hold the block, ascending; null where it may stand behind the floor. */
  stationsOf(block: number): readonly number[] | null;
}

/** What blocks take and what a station of a kind holds of it, in parts of a microsecond: hands, or the time of one model. */
export interface Row {
  readonly model: number | null;
  /** Where blocks only count, each of which takes more than half of the most that a station holds: that most; else null. */
  readonly single: number | null;
  readonly takes: readonly number[];
  readonly holds: (kind: StationKind) => number;
}

/**
 * Earliest and latest positions by windows, by what stations allow, by waits, and by blocks one after the other that may not share a
 * station; null where that leaves a block no position at all.
 */
export function openRanges(work: Work): Ranges | null {
  const { size, kinds, before, after } = work;
  const floor = kinds.length - 1;
  const gapOf = gapsOf(work);
  const first = Array.from(work.first);
  // Behind the floor there is always one more position.
  const last = work.last.map((each) => (each < floor ? each : Number.POSITIVE_INFINITY));
  for (let block = 0; block < size; block++) {
    let at = first[block]!;
    for (const each of before[block]!) at = Math.max(at, first[each]! + gapOf(each, block));
    while (at < floor && !mayHold(work, block, at)) at++;
    first[block] = at;
  }
  for (let block = size - 1; block >= 0; block--) {
    let at = last[block]!;
    for (const each of after[block]!) at = Math.min(at, last[each]! - gapOf(block, each));
    if (at >= floor && !mayHold(work, block, floor)) at = floor - 1;
    while (at >= 0 && at < floor && !mayHold(work, block, at)) at--;
    last[block] = at;
  }
  return rangesOf(work, first, last);
}

/**
 * The same once work is counted: what follows a block and is due by a station needs, with its own work, the stations up to there; what
 * comes before it likewise (energetic reasoning, Baptiste, Le Pape & Nuijten 2001). Null where that leaves a block no position.
 */
export function squeezeRanges(work: Work, ranges: Ranges, { takes, holds }: Row): Ranges | null {
  const floor = work.kinds.length - 1;
  const [first, last] = [Array.from(ranges.first), Array.from(ranges.last)];
  const heldBefore = [0];
  for (let at = 0; at < floor; at++) heldBefore.push(heldBefore[at]! + holds(work.kinds[kindAt(work, at)]!));
  const followers = allFollowers(work.before);
  const due = new InSortedOrder(work.size, (one, two) => last[one]! - last[two]!);
  for (let block = work.size - 1; block >= 0; block--) {
    let taken = takes[block]!;
    for (let each = 0; each < due.size; each++) {
      const later = due.at(each);
      if (!followers.has(block, later)) continue;
      taken += takes[later]!;
      last[block] = Math.min(last[block]!, last[later]!);
      const at = latestWithRoom(heldBefore, last[block]!, last[later]!, taken);
      // All stations up to there are too few, which says more than a block without a position.
      if (at < 0) break;
      last[block] = at;
    }
    while (last[block]! >= 0 && last[block]! < floor && !mayHold(work, block, last[block]!)) last[block]!--;
    if (last[block]! < floor) due.add(block);
  }
  const sooner = new InSortedOrder(work.size, (one, two) => first[two]! - first[one]!);
  for (let block = 0; block < work.size; block++) {
    let taken = takes[block]!;
    for (let each = 0; each < sooner.size; each++) {
      const earlier = sooner.at(each);
      if (!followers.has(earlier, block)) continue;
      taken += takes[earlier]!;
      first[block] = Math.max(first[block]!, first[earlier]!);
      const at = earliestWithRoom(heldBefore, first[earlier]!, first[block]!, taken);
      if (at >= floor && last[block]! < floor) break;
      first[block] = at;
    }
    while (first[block]! < floor && !mayHold(work, block, first[block]!)) first[block]!++;
    if (first[block]! < floor) sooner.add(block);
  }
  return rangesOf(work, first, last);
}

/** The last station, not after `at`, from which on those up to `due` hold so much; below 0 where there is none. */
function latestWithRoom(heldBefore: readonly number[], at: number, due: number, taken: number): number {
  while (at >= 0 && heldBefore[due + 1]! - heldBefore[at]! < taken) at--;
  return at;
}

/** The first station, not before `at`, up to which those from `from` on hold so much; the floor's end where there is none. */
function earliestWithRoom(heldBefore: readonly number[], from: number, at: number, taken: number): number {
  while (at < heldBefore.length - 1 && heldBefore[at + 1]! - heldBefore[from]! < taken) at++;
  return at;
}

function rangesOf(work: Work, first: readonly number[], last: readonly number[]): Ranges | null {
  const floor = work.kinds.length - 1;
  const endOf = (block: number, from: number, to: number, step: 1 | -1) => {
    let at = from;
    while (at !== to + step && !mayHold(work, block, at)) at += step;
    return at;
  };
  // Where it may stand behind the floor nobody asks for an end.
  const ends = first.map((from, block): Ends | null => {
    const to = last[block]!;
    if (to >= floor) return null;
    if (from > to) return NO_STATION;
    const end = { first: endOf(block, from, to, 1), last: endOf(block, to, from, -1) };
    return end.first > to ? NO_STATION : end;
  });
  if (ends.includes(NO_STATION)) return null;
  const stationsOf = (block: number) => {
    const own = ends[block]!;
    if (own === null) return null;
    const stations: number[] = [];
    for (let at = own.first; at <= own.last; at++) if (mayHold(work, block, at)) stations.push(at);
    return stations;
  };
  return { first, last, ends, stationsOf };
}

const NO_STATION: Ends = { first: 0, last: -1 };

/** How many positions later a block stands than another that comes right before it, at the least. */
function gapsOf(work: Work): (from: number, to: number) => number {
  const { waits, size, zones, apart } = work;
  const gapOf = gapsOfWaits(size, waits);
  const mayShare = (one: number, two: number) =>
    (zones[one] === null || zones[two] === null || zones[one] === zones[two]) && !apart[one]!.includes(two);
  return (from, to) => Math.max(gapOf(from, to), mayShare(from, to) ? 0 : 1);
}
