import type { Line } from "../../line/line.js";
import { peopleOf } from "../../plan/figures/people.js";
import type { Plan } from "../../plan/plan.js";
import { floorStationOf } from "../../plan/station-numbers.js";
import { verifyPlan } from "../../plan/verify-plan.js";
import { type BalancingOptions, balance } from "../../solve/balance.js";
import { fromParts, wholeParts } from "../../solve/parts.js";
import type { Pace } from "../../time/pace.js";
import { compare } from "../../time/ratio.js";
import { balanceEquipped, type ChangedLine } from "./changed-line.js";
import type { PlacesAnswer } from "./long-answer.js";
import { MOST_PLACES, RoomForTasks } from "./room-for-tasks.js";

/** Parallel places for every task that no station can hold. */
export interface PlacesForTasks extends Pick<PlacesAnswer, "everywhere" | "shorter"> {
  /** The fewest people; of as many, the plan where only the stations of these tasks have more places, then the shorter one. */
  readonly best: ChangedLine;
}

/** The wider search has this part of the partial plans where each task has a plan with a station of its own already. */
const WIDER_SHARE = 4;
const LEAST_NODES = 1_000;

/**
 * Places at stations of their own for tasks that are too long, or at every station at which they may stand, or at every station of the
 * line: these need fewer people where work beside such a task fills its places. Null where so many places are beyond use.
 */
export async function placesForTasks(
  line: Line,
  pace: Pace,
  long: readonly number[],
  options: BalancingOptions,
): Promise<PlacesForTasks | null> {
  const room = new RoomForTasks(line, pace, options.strictLimit);
  if (long.some((task) => room.placesFor(task) > MOST_PLACES)) return null;
  const search = { ...options, method: "best", level: false, explain: false };
  const own = await withStationsOfTheirOwn(line, pace, long, room, search);
  const nodes =
    own === null || options.nodes === null
      ? options.nodes
      : Math.max(LEAST_NODES, Math.floor(options.nodes / WIDER_SHARE));
  const wide = await withPlacesWhereTheyMayStand(line, pace, long, room, { ...search, nodes });
  const everywhere = placesEverywhere(line, long, wide);
  if (own?.plan == null) return { best: wide, everywhere, shorter: null };
  // A station of its own for each such task is one choice of many: only the wider search proves that none is better.
  const outcome = own.outcome === "proved" && wide.outcome === "proved" ? "proved" : "found";
  const alone = { best: { ...own, outcome }, everywhere: null, shorter: null } as const;
  if (wide.plan === null) return alone;
  const people = peopleOf(wide.plan) - peopleOf(own.plan);
  const stations = wide.plan.stations.length;
  const isShorter = people === 0 && stations < own.plan.stations.length;
  const isTold = isShorter && everywhere?.at === "every station";
  if (people < 0 || (isShorter && !isTold)) return { best: wide, everywhere, shorter: null };
  return isTold ? { ...alone, shorter: { stations, maxPlaces: everywhere.maxPlaces } } : alone;
}

/**
 * Each of these tasks at a station of its own, with as many places as it needs; units go to the places in turn. The search sees such a
 * task as a full station; the plan with its places is verified against the true times. Null where the rules of the line forbid that.
 */
async function withStationsOfTheirOwn(
  line: Line,
  pace: Pace,
  long: readonly number[],
  room: RoomForTasks,
  options: BalancingOptions,
): Promise<ChangedLine | null> {
  const tasks = line.tasks.map((task, at) => {
    if (!long.includes(at)) return task;
    const full = fromParts(line, wholeParts(line, room.limitFor(at), "down"));
    // What it keeps of counted equipment is for the verifier to say: the search would hold its true times against one place.
    const equipment = task.equipment.filter((name) => !line.equipment.has(name));
    return compare(task.load, full) > 0 ? { ...task, load: full, equipment } : task;
  });
  const { plan: filled, proved } = await balance({ ...line, tasks }, pace, options);
  if (filled === null) return null;
  const stations = filled.stations.map((station) => {
    const held = station.tasks.filter((task) => long.includes(task));
    return held.length === 0
      ? station
      : { ...station, places: Math.max(...held.map((at) => room.placesFor(at))) };
  });
  const plan: Plan = { stations };
  const isHeld = verifyPlan(withPlacesOf(line, plan), pace, plan, options.strictLimit).length === 0;
  if (!isHeld) return null;
  return { line, pace, plan, outcome: proved ? "proved" : "found", obstacles: null, scarce: [] };
}

/** The line where stations may have the places that a plan gives them. */
function withPlacesOf(line: Line, { stations }: Plan): Line {
  const most = Math.max(line.maxPlaces, ...stations.map(({ places }) => places));
  return {
    ...line,
    maxPlaces: most,
    floor: line.floor.map((each) => ({ ...each, maxPlaces: Math.max(most, each.maxPlaces ?? 1) })),
  };
}

/**
 * The line where every station at which one of these tasks may stand may have as many places as the longest of them needs, and
 * with the equipment for that; every station of the line where there is no plan otherwise.
 */
async function withPlacesWhereTheyMayStand(
  line: Line,
  pace: Pace,
  long: readonly number[],
  room: RoomForTasks,
  options: BalancingOptions,
): Promise<ChangedLine> {
  const { floor } = line;
  const needed = new Map<string, number>();
  for (const task of long) {
    for (const [name, count] of room.equipmentFor(task)) needed.set(name, (needed.get(name) ?? 0) + count);
  }
  const placesAt = (stations: ReadonlySet<number>) => {
    const most = Math.max(line.maxPlaces, ...long.map((task) => room.placesFor(task)));
    const roomy = floor.map((station, at) => {
      const places = station.maxPlaces ?? line.maxPlaces;
      return { ...station, maxPlaces: stations.has(at) ? Math.max(places, most) : places };
    });
    const maxPlaces = stations.has(floor.length) ? most : line.maxPlaces;
    return balanceEquipped({ ...line, maxPlaces, floor: roomy }, pace, needed, options);
  };
  // Numbers of the stations at which any of these tasks may stand; the number of stations for those behind the floor.
  const theirs = new Set(long.flatMap((task) => room.stationsFor(task)));
  const own = await placesAt(theirs);
  if (own.plan !== null || theirs.size > floor.length) return own;
  const everywhere = await placesAt(new Set([...floor.keys(), floor.length]));
  return everywhere.plan === null ? own : everywhere;
}

/** Where a plan counts on more places also at stations that have none of these tasks; null where it does not. */
function placesEverywhere(
  before: Line,
  long: readonly number[],
  { line, plan }: ChangedLine,
): PlacesAnswer["everywhere"] {
  const isMore = plan?.stations.some(({ id, tasks, places }) => {
    const allowed = floorStationOf(before, id)?.maxPlaces ?? before.maxPlaces;
    return places > allowed && !tasks.some((task) => long.includes(task));
  });
  if (isMore !== true) return null;
  const maxPlaces = Math.max(line.maxPlaces, ...line.floor.map((station) => station.maxPlaces ?? 1));
  const isAll = [line, ...line.floor].every((each) => (each.maxPlaces ?? line.maxPlaces) >= maxPlaces);
  return { maxPlaces, at: isAll ? "every station" : "their stations" };
}
