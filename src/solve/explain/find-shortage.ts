import type { Line } from "../../line/line.js";
import { add, compare, type Ratio, ZERO } from "../../time/ratio.js";
import { fromParts } from "../parts.js";
import { isAllowed } from "../station/station-rules.js";
import { leastHolders, timeHeld } from "../time-held.js";
import { kindAt, mayHold, type StationKind, type Work } from "../work.js";
import { openRanges, type Ranges, type Row, squeezeRanges } from "./open-ranges.js";

/**
 * Work that does not fit what alone may hold it. "due": up to a station of the floor; "from": from a station on; "between": from one
 * to another; "floor": on the floor as a whole; "zone" and "stations": at some stations; "equipment": at places with counted equipment;
 * "machine": in the time that counted machines have.
 */
export type ShortageKind =
  | "due"
  | "from"
  | "between"
  | "floor"
  | "zone"
  | "stations"
  | "equipment"
  | "machine";

/** A proof that a line has no plan: tasks, where they must be done, and how much less that holds than they take. */
export interface Shortage {
  readonly kind: ShortageKind;
  /** The zone or the equipment; null where none is meant. */
  readonly name: string | null;
  /** The model whose times count; null for the mean of all. */
  readonly model: number | null;
  readonly tasks: readonly number[];
  /** Those of the tasks that a rule of their own holds there; the others come before or after some of them. */
  readonly held: readonly number[];
  /** Those of the tasks that may not stand elsewhere for all the work before or behind them, not by a rule of their own. */
  readonly squeezed: readonly number[];
  /** Those of the tasks that are longer than a station's limit and count as one whole station. */
  readonly whole: readonly number[];
  /** Numbers of stations of the floor, ascending; empty for equipment. */
  readonly stations: readonly number[];
  /** How many there are of the equipment; null for stations. */
  readonly count: number | null;
  /** Where no two of the tasks fit one station, and there are more of them than stations: its limit, in microseconds; else null. */
  readonly single: Ratio | null;
  /** What the tasks take and what may hold them takes at the most, in microseconds. */
  readonly work: Ratio;
  readonly capacity: Ratio;
}

/**
 * Work that cannot fit the stations, or the equipment, that it is held to; null where none is found, which proves nothing. Of several,
 * the one with the fewest stations, then a sum before a count, then the fewest tasks.
 *
 * A set of stations that some blocks cannot leave holds at most the sum of its limits (the counting half of energetic reasoning, Baptiste,
 * Le Pape & Nuijten 2001). A block that may exceed the limit alone has its station for itself, so it counts with the limit.
 */
export function findShortage(line: Line, work: Work): Shortage | null {
  const plain = openRanges(work);
  if (plain === null) return null;
  const isHeld = (ranges: Ranges) => ranges.last.some((last) => last < Number.POSITIVE_INFINITY);
  const direct = isHeld(plain) ? shortStations(line, work, plain, plain) : [];
  const byEquipment = shortEquipment(line, work);
  const found = fewest([...direct, ...byEquipment]);
  if (found !== null || !isHeld(plain)) return found;
  const squeezed = squeezeRanges(work, plain, handsOf(work));
  return squeezed === null ? null : fewest(shortStations(line, work, squeezed, plain));
}

function fewest(all: readonly Shortage[]): Shortage | null {
  return all.reduce<Shortage | null>(
    (best, each) => (best === null || isFewer(each, best) ? each : best),
    null,
  );
}

function isFewer(one: Shortage, two: Shortage): boolean {
  const stations = one.stations.length - two.stations.length;
  if (stations !== 0) return stations < 0;
  const isCounted = (each: Shortage) => each.single !== null;
  if (isCounted(one) !== isCounted(two)) return isCounted(two);
  return one.tasks.length < two.tasks.length;
}

/** The time of hands. Who works with somebody at a product with sides takes both of them. */
function handsOf(work: Work): Row {
  const { schedule, loads, kinds, people } = work;
  const holds = ({ limits, atOnce }: StationKind) => atOnce * limits.at(-1)!;
  // Many blocks may stand at the same stations.
  const leastHeld = new Map<readonly boolean[], number>();
  const leastOf = (row: readonly boolean[]) => {
    const least = kinds.reduce(
      (most, kind, at) => (row[at]! ? Math.min(most, holds(kind)) : most),
      Number.POSITIVE_INFINITY,
    );
    leastHeld.set(row, least);
    return least;
  };
  const takes = loads.map((load, block) => {
    const taken = schedule?.sides != null && people[block]! <= 2 ? work.work[block]! : load;
    if (!work.mayStandAlone[block]!) return taken;
    const row = work.allowed[block]!;
    return Math.min(taken, leastHeld.get(row) ?? leastOf(row));
  });
  return { model: null, single: null, takes, holds };
}

function rowsOf(work: Work): Row[] {
  const models = work.modelLoads.map(
    (takes, model): Row => ({
      model,
      single: null,
      takes,
      holds: ({ modelLimits, atOnce }) => atOnce * modelLimits.at(-1)!,
    }),
  );
  return [handsOf(work), ...models, ...singlesOf(work)];
}

/** Blocks that take more than half of what any station holds never share one, where each has one place and one side. */
function singlesOf({ kinds, loads, members }: Work): Row[] {
  if (kinds.some(({ limits, atOnce }) => limits.length > 1 || atOnce > 1)) return [];
  const single = Math.max(...kinds.map(({ limits }) => limits[0]!));
  const takes = loads.map((load, block) => (members[block]!.length === 1 && 2 * load > single ? 1 : 0));
  return [{ model: null, single, takes, holds: () => 1 }];
}

/** For each set of stations that blocks are held to, and each stretch of it, whether it holds their work. */
function shortStations(line: Line, work: Work, ranges: Ranges, plain: Ranges): Shortage[] {
  const held = [...work.loads.keys()].filter((block) => ranges.ends[block] !== null);
  const rows = rowsOf(work);
  return setsOf(work, held).flatMap((isIn) => {
    const isInside = heldInside(work, ranges, isIn);
    const spans = held.filter(isInside).map((block) => {
      const { first, last } = ranges.ends[block]!;
      return { block, from: first, to: last };
    });
    return rows.flatMap((row) => {
      const found = shortStretch(work, row, isIn, spans);
      return found === null ? [] : [toShortage(line, work, row, isIn, found, plain)];
    });
  });
}

/** Whether every station that may hold the block is in the set. */
function heldInside(work: Work, { ends }: Ranges, isIn: readonly boolean[]): (block: number) => boolean {
  // By row of stations, how many of the first so many are not in the set.
  const outside = new Map<readonly boolean[], Int32Array>();
  const countOutside = (row: readonly boolean[]) => {
    const counts = new Int32Array(isIn.length + 1);
    for (let at = 0; at < isIn.length; at++) counts[at + 1] = counts[at]! + (row[at]! && !isIn[at]! ? 1 : 0);
    outside.set(row, counts);
    return counts;
  };
  return (block) => {
    const { first, last } = ends[block]!;
    if (!isIn[first]! || !isIn[last]!) return false;
    const row = work.allowed[block]!;
    const counts = outside.get(row) ?? countOutside(row);
    if (counts[last + 1] === counts[first]) return true;
    for (let at = first; at <= last; at++) if (!isIn[at]! && mayHold(work, block, at)) return false;
    return true;
  };
}

/** All stations of the floor, and the sets of those that hold some block, as far as they differ. */
function setsOf({ kinds, allowed }: Work, held: readonly number[]): (readonly boolean[])[] {
  const floor = kinds.length - 1;
  const sets = new Map<string, readonly boolean[]>();
  for (const own of [Array<boolean>(floor).fill(true), ...new Set(held.map((block) => allowed[block]!))]) {
    const set = own.slice(0, floor);
    const key = set.map(Number).join("");
    if (!sets.has(key)) sets.set(key, set);
  }
  return [...sets.values()];
}

interface Span {
  readonly block: number;
  readonly from: number;
  readonly to: number;
}

interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly blocks: readonly number[];
  readonly taken: number;
  readonly held: number;
}

/** The stretch of the fewest stations of the set that does not hold the blocks within it. */
function shortStretch(
  work: Work,
  { takes, holds }: Row,
  isIn: readonly boolean[],
  spans: readonly Span[],
): Stretch | null {
  const heldBefore = [0];
  const countBefore = [0];
  for (const [station, isHere] of isIn.entries()) {
    heldBefore.push(heldBefore[station]! + (isHere ? holds(work.kinds[kindAt(work, station)]!) : 0));
    countBefore.push(countBefore[station]! + (isHere ? 1 : 0));
  }
  if (!isAnyShort(heldBefore, takes, spans)) return null;
  const latestFirst = spans.toSorted((one, two) => two.from - one.from);
  let best: (Stretch & { readonly stations: number }) | null = null;
  for (const to of [...new Set(spans.map((span) => span.to))].sort((one, two) => one - two)) {
    const inside = latestFirst.filter((span) => span.to <= to);
    let taken = 0;
    for (const [at, { block, from }] of inside.entries()) {
      taken += takes[block]!;
      if (inside[at + 1]?.from === from) continue;
      const held = heldBefore[to + 1]! - heldBefore[from]!;
      const stations = countBefore[to + 1]! - countBefore[from]!;
      if (taken <= held || (best !== null && best.stations <= stations)) continue;
      best = { from, to, taken, held, stations, blocks: inside.slice(0, at + 1).map((span) => span.block) };
    }
  }
  return best;
}

/**
 * Whether any stretch does not hold the blocks within it. For each end, and the blocks that must end by then, a tree over the beginnings
 * knows the most of: what the stretches before hold, with the work from there on (the envelopes of Vilím 2009).
 */
function isAnyShort(
  heldBefore: readonly number[],
  takes: readonly number[],
  spans: readonly Span[],
): boolean {
  const starts = [...new Set(spans.map(({ from }) => from))].sort((one, two) => one - two);
  const leafOf = new Map(starts.map((from, at) => [from, at]));
  let leaves = 1;
  while (leaves < starts.length) leaves *= 2;
  const taken = new Float64Array(2 * leaves);
  const most = new Float64Array(2 * leaves).fill(Number.NEGATIVE_INFINITY);
  const put = ({ block, from }: Span) => {
    let node = leaves + leafOf.get(from)!;
    taken[node]! += takes[block]!;
    most[node] = heldBefore[from]! + taken[node]!;
    for (node >>>= 1; node >= 1; node >>>= 1) {
      const [left, right] = [2 * node, 2 * node + 1];
      taken[node] = taken[left]! + taken[right]!;
      most[node] = Math.max(most[left]! + taken[right]!, most[right]!);
    }
  };
  return spans
    .toSorted((one, two) => one.to - two.to)
    .some((span, at, inOrder) => {
      put(span);
      return inOrder[at + 1]?.to !== span.to && most[1]! > heldBefore[span.to + 1]!;
    });
}

function toShortage(
  line: Line,
  work: Work,
  row: Row,
  isIn: readonly boolean[],
  { from, to, blocks, taken, held }: Stretch,
  plain: Ranges,
): Shortage {
  // What takes no time changes no sum.
  const timed = blocks.filter((block) => row.takes[block]! > 0);
  const stations = [...isIn.keys()].filter((station) => isIn[station]! && from <= station && station <= to);
  const isElsewhere = (block: number) => {
    const own = plain.stationsOf(block);
    return own === null || !own.every((station) => stations.includes(station));
  };
  const tasks = tasksOf(work, timed);
  return {
    ...whereIs(line, isIn, stations, tasks),
    model: row.model,
    tasks,
    held: tasks.filter((task) => isHeldTo(line, task, stations)),
    squeezed: tasksOf(work, timed.filter(isElsewhere)),
    whole: wholeOf(work, row, timed),
    stations,
    count: null,
    ...sumsOf(line, work, row, { blocks: timed, taken, held }, stations),
  };
}

function sumsOf(
  line: Line,
  { loads, kinds }: Work,
  { single }: Row,
  { blocks, taken, held }: Pick<Stretch, "blocks" | "taken" | "held">,
  stations: readonly number[],
): Pick<Shortage, "single" | "work" | "capacity"> {
  if (single === null) return { single: null, work: fromParts(line, taken), capacity: fromParts(line, held) };
  const all = blocks.reduce((sum, block) => sum + loads[block]!, 0);
  const most = stations.reduce((sum, station) => sum + kinds[station]!.limits[0]!, 0);
  return {
    single: fromParts(line, single),
    work: fromParts(line, all),
    capacity: fromParts(line, most),
  };
}

function whereIs(
  line: Line,
  isIn: readonly boolean[],
  stations: readonly number[],
  tasks: readonly number[],
): Pick<Shortage, "kind" | "name"> {
  const floor = line.floor.length;
  const zone = line.tasks[tasks[0]!]!.zone;
  const ofZone = [...line.floor.keys()].filter((at) => line.floor[at]!.zone === zone);
  const isZone =
    zone !== null &&
    tasks.every((task) => line.tasks[task]!.zone === zone) &&
    ofZone.length === stations.length &&
    ofZone.every((station) => stations.includes(station));
  if (isZone) return { kind: "zone", name: zone };
  if (!isIn.every(Boolean)) return { kind: "stations", name: null };
  const [isFirst, isLast] = [stations[0] === 0, stations.at(-1) === floor - 1];
  if (isFirst) return { kind: isLast ? "floor" : "due", name: null };
  if (stations.length === 1) return { kind: "stations", name: null };
  return { kind: isLast ? "from" : "between", name: null };
}

/** A rule of its own lets the task stand at no other station. */
function isHeldTo(line: Line, number: number, stations: readonly number[]): boolean {
  const task = line.tasks[number]!;
  const [first, last] = [task.notBefore ?? 0, task.notAfter ?? Number.POSITIVE_INFINITY];
  const mayStand = (at: number) =>
    first <= at && at <= last && isAllowed(line, task, line.floor[at] ?? null, at);
  return [...line.floor.keys(), line.floor.length].every((at) => stations.includes(at) || !mayStand(at));
}

const tasksOf = ({ members }: Work, blocks: readonly number[]): number[] =>
  blocks.flatMap((block) => members[block]!).sort((one, two) => one - two);

/** Tasks that count with less than they take. */
function wholeOf(work: Work, { model, single, takes }: Row, blocks: readonly number[]): number[] {
  if (model !== null || single !== null) return [];
  return tasksOf(
    work,
    blocks.filter((block) => takes[block]! < work.loads[block]!),
  );
}

/** Counted equipment whose work does not fit so many stations, or that is held for longer than so many of it have time for. */
function shortEquipment(line: Line, work: Work): Shortage[] {
  const { equipment, loads, kinds, allowed } = work;
  return equipment.flatMap(({ name, count, needs, time }) => {
    const blocks = [...loads.keys()].filter((block) => needs[block]!);
    const own = kinds.filter((_, kind) => blocks.some((block) => allowed[block]![kind]!));
    if (own.length === 0) return [];
    const common = { name, model: null, single: null, held: [], squeezed: [], stations: [], count };
    const found: Shortage[] = [];
    const row = handsOf(work);
    const takes = row.takes.map((taken, block) =>
      work.mayStandAlone[block]! ? Math.min(taken, ...aloneAbove(loads[block]!, own)) : taken,
    );
    const timed = blocks.filter((block) => takes[block]! > 0);
    const taken = timed.reduce((sum, block) => sum + takes[block]!, 0);
    // Each station that works on it has one at the least.
    const held = count * Math.max(...own.map(({ limits, atOnce }) => atOnce * limits.at(-1)!));
    if (taken > held)
      found.push({
        ...common,
        kind: "equipment",
        tasks: tasksOf(work, timed),
        whole: wholeOf(work, { ...row, takes }, timed),
        work: fromParts(line, taken),
        capacity: fromParts(line, held),
      });
    const tasks = leastHolders(line, name);
    if (!line.tasks.some(({ equipment: own, machineTime }) => machineTime > 0 && own.includes(name)))
      return found;
    const sum = tasks.map((task) => timeHeld(line, task)).reduce(add, ZERO);
    const most = time(count);
    if (most === Number.POSITIVE_INFINITY) return found;
    const capacity = fromParts(line, most);
    if (compare(sum, capacity) > 0)
      found.push({ ...common, kind: "machine", tasks, whole: [], work: sum, capacity });
    return found;
  });
}

/** The limits that a block alone may exceed: it has the places there for itself. */
function aloneAbove(load: number, kinds: readonly StationKind[]): number[] {
  return kinds.flatMap(({ limits, alone, atOnce }) =>
    limits.flatMap((limit, at) =>
      atOnce * limit < load && load <= atOnce * alone[at]! ? [atOnce * limit] : [],
    ),
  );
}
