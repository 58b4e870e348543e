import type { Reach } from "../improve/reach.js";
import { kindAt, mayHold, type StationKind, type Work } from "../work.js";

/** Where each block may stand, by what is proved. */
export interface Ranges {
  readonly first: readonly number[];
  /** Endless where the block may stand behind the floor. */
  readonly last: readonly number[];
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
export function squeezeRanges(
  work: Work,
  ranges: Ranges,
  reach: Reach,
  { takes, holds }: Row,
): Ranges | null {
  const floor = work.kinds.length - 1;
  const [first, last] = [Array.from(ranges.first), Array.from(ranges.last)];
  const heldBefore = [0];
  for (let at = 0; at < floor; at++) heldBefore.push(heldBefore[at]! + holds(work.kinds[kindAt(work, at)]!));
  for (let block = work.size - 1; block >= 0; block--) {
    const due = reach
      .after(block)
      .filter((each) => last[each.block]! < floor)
      .sort((one, two) => last[one.block]! - last[two.block]!);
    let taken = takes[block]!;
    for (const { block: later } of due) {
      taken += takes[later]!;
      let at = Math.min(last[block]!, last[later]!);
      last[block] = at;
      while (at >= 0 && heldBefore[last[later]! + 1]! - heldBefore[at]! < taken) at--;
      // All stations up to there are too few, which says more than a block without a position.
      if (at < 0) break;
      last[block] = at;
    }
    while (last[block]! >= 0 && last[block]! < floor && !mayHold(work, block, last[block]!)) last[block]!--;
  }
  for (let block = 0; block < work.size; block++) {
    const sooner = reach
      .before(block)
      .filter((each) => first[each.block]! < floor)
      .sort((one, two) => first[two.block]! - first[one.block]!);
    let taken = takes[block]!;
    for (const { block: earlier } of sooner) {
      taken += takes[earlier]!;
      let at = Math.max(first[block]!, first[earlier]!);
      first[block] = at;
      while (at < floor && heldBefore[at + 1]! - heldBefore[first[earlier]!]! < taken) at++;
      if (at >= floor && last[block]! < floor) break;
      first[block] = at;
    }
    while (first[block]! < floor && !mayHold(work, block, first[block]!)) first[block]!++;
  }
  return rangesOf(work, first, last);
}

function rangesOf(work: Work, first: readonly number[], last: readonly number[]): Ranges | null {
  const floor = work.kinds.length - 1;
  const stations = first.map((from, block) => {
    if (last[block]! >= floor) return null;
    const own: number[] = [];
    for (let at = from; at <= last[block]!; at++) if (mayHold(work, block, at)) own.push(at);
    return own;
  });
  if (stations.some((own) => own?.length === 0)) return null;
  return { first, last, stationsOf: (block) => stations[block]! };
}

/** How many positions later a block stands than another that comes right before it, at the least. */
function gapsOf(work: Work): (from: number, to: number) => number {
  const { waits, size, zones, apart } = work;
  const gaps = new Map<number, number>();
  for (const { from, to, stations } of waits)
    gaps.set(from * size + to, Math.max(stations, gaps.get(from * size + to) ?? 0));
  const mayShare = (one: number, two: number) =>
    (zones[one] === null || zones[two] === null || zones[one] === zones[two]) && !apart[one]!.includes(two);
  return (from, to) => Math.max(gaps.get(from * size + to) ?? 0, mayShare(from, to) ? 0 : 1);
}
