import { distinctKinds, kindAt, mostOfPerson, mostOfStation, placesAlone, type Work } from "../work.js";
import type { Supports } from "./constraint.js";
import { OpenStation } from "./open-station.js";

/** What is asked of the stations of an instance beside time; everything by its task numbers. */
export interface TaskRules {
  readonly work: Work;
  /** Speaks in blocks of the work. */
  readonly station: OpenStation;
  /** The block of each task. */
  readonly blockOf: Int32Array;
  /** 1 for tasks that no constraint speaks of. */
  readonly isFree: Uint8Array;
  readonly people: Int32Array;
  /** Person-time of each task as far as it must fit people, and the most that one person takes of it, in parts. */
  readonly personTime: Float64Array;
  readonly perPerson: number;
  /** Tasks of one class may change places where their times allow it; null: never. */
  readonly classes: readonly (string | null)[];
  /** 1 for tasks without which a station still breaks nothing. */
  readonly mayLeave: Uint8Array;
  /** Stations may change places as far as the arrows allow. */
  readonly anyOrder: boolean;
  /** Every station has one place, and is worked from one side: as many people as its tasks need together. */
  readonly onePlace: boolean;
  /** Room of the first so many positions, in the units of the instance; null where positions do not matter. */
  readonly roomUpTo: Float64Array | null;
  /** For each task those that it may not share a station with, whatever else is asked. */
  readonly partedFrom: readonly Int32Array[];
  /** All stations are alike, have one person, and are asked nothing but that their tasks fit their time and none are parted. */
  readonly asksPairsOnly: boolean;
  /** Wherever the first stands at a later station, the second may take its place. */
  mayStandFor(two: number, one: number): boolean;
}

/**
 * What ways to search need to know of what is asked of stations; null where no constraint applies, and all stations are alike: whatever
 * fits their time is a plan. A way that supports no rules is used there alone, as the rest of the search takes the path without them.
 *
 * @param blockOf the block of each task of an instance
 * @param divisor parts of the work in a unit of the instance
 */
export function rulesOf(
  work: Work,
  blockOf: Int32Array = Int32Array.from(work.loads.keys()),
  divisor = 1,
): TaskRules | null {
  const station = new OpenStation(work);
  const isAlike = work.kinds.length === 1 && work.kinds[0]!.limits.length === 1;
  const isByTask = work.members.every((tasks) => tasks.length === 1);
  if (station.constraints.length === 0 && isAlike && isByTask && blocksWithoutStation(work).length === 0)
    return null;
  const all: Supports[] = station.supports;
  const perPerson = mostOfPerson(work);
  const kinds = distinctKinds(work);
  const personTime = Float64Array.from(blockOf, (block) =>
    Math.min(work.work[block]!, perPerson * work.people[block]! * placesAlone(kinds, work.loads[block]!)),
  );
  return {
    work,
    station,
    blockOf,
    isFree: Uint8Array.from(blockOf, (block) => (all.every((each) => each.isFree(block)) ? 1 : 0)),
    people: Int32Array.from(blockOf, (block) => work.people[block]!),
    personTime,
    perPerson,
    classes: Array.from(blockOf, (block) => classOf(all, block)),
    mayLeave: Uint8Array.from(blockOf, (block) =>
      all.every((each) => each.mayLeave?.(block) ?? true) ? 1 : 0,
    ),
    anyOrder: all.every((each) => each.anyOrder) && work.kinds.length === 1,
    onePlace: work.kinds.every(({ limits, atOnce }) => limits.length === 1 && atOnce === 1),
    roomUpTo: work.isPositional ? roomByPosition(work, divisor) : null,
    partedFrom: partedPairs(work, station, blockOf),
    asksPairsOnly:
      isAlike &&
      !work.isPositional &&
      station.constraints.every(({ supports }) => supports.partedFrom !== undefined) &&
      work.people.every((each) => each === 1),
    mayStandFor: (two, one) => all.every((each) => each.mayStandFor(blockOf[two]!, blockOf[one]!)),
  };
}

function partedPairs(work: Work, { constraints }: OpenStation, blockOf: Int32Array): Int32Array[] {
  const parts = constraints.flatMap(({ supports }) => (supports.partedFrom ? [supports] : []));
  const tasksOf: number[][] = work.members.map(() => []);
  for (const [task, block] of blockOf.entries()) tasksOf[block]!.push(task);
  return Array.from(blockOf, (block) => {
    const others = new Set(parts.flatMap((each) => each.partedFrom!(block)));
    return Int32Array.from([...others].flatMap((other) => tasksOf[other]!)).sort();
  });
}

/** Blocks that no station may hold, even alone. */
export function blocksWithoutStation(work: Work): number[] {
  const station = new OpenStation(work);
  const last = work.kinds.length - 1;
  const mayTake = (block: number, position: number) => {
    if (!work.allowed[block]![kindAt(work, position)]!) return false;
    station.start(position, []);
    station.allowOrderSteps(MOST_ORDER_STEPS);
    return station.canTake(block) || station.isUndecided;
  };
  return [...work.members.keys()].filter((block) => {
    for (let position = work.first[block]!; position <= Math.min(work.last[block]!, last); position++)
      if (mayTake(block, position)) return false;
    return work.last[block]! < last || !mayTake(block, Math.max(work.first[block]!, last));
  });
}

/** Tasks put in order to see whether a block fits by itself; what is not known then may fit. */
const MOST_ORDER_STEPS = 1_000_000;

function classOf(all: readonly Supports[], block: number): string | null {
  const names = all.map((each) => each.classOf(block));
  return names.includes(null) ? null : names.join("|");
}

/** What fits the first 0, 1, 2, ... positions; a task alone may take more than the limit. */
function roomByPosition(work: Work, divisor: number): Float64Array {
  const { kinds, positions } = work;
  const most = mostOfStation(work);
  const room = new Float64Array(positions + 1);
  for (let position = 0; position < positions; position++) {
    const { limits, alone, atOnce } = kinds[Math.min(position, kinds.length - 1)]!;
    const own = Math.min(most, atOnce * Math.max(limits.at(-1)!, alone.at(-1)!));
    room[position + 1] = room[position]! + Math.max(0, Math.floor(own / divisor));
  }
  return room;
}
