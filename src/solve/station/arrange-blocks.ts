import { type BlockPlan, type FilledStation, kindAt, type Work } from "../work.js";
import { arrangeStation } from "./arrange-station.js";
import type { Closed } from "./constraint.js";
import { OpenStation } from "./open-station.js";
import { asksOf, mayBeStaffed, NO_TEAM } from "./staff-skills.js";
import { Teams } from "./teams.js";

/**
 * The plan with each block at the position given for it, or null where a rule forbids that.
 *
 * @param station of the work, for those who ask often
 */
export function arrangeBlocks(
  problem: Work,
  positionOf: readonly number[],
  station = new OpenStation(problem),
): BlockPlan | null {
  const { before, waits } = problem;
  if (before.some((earlier, block) => earlier.some((each) => positionOf[each]! > positionOf[block]!)))
    return null;
  if (waits.some(({ from, to, stations }) => positionOf[to]! - positionOf[from]! < stations)) return null;
  const at = new Map<number, number[]>();
  for (const [block, position] of positionOf.entries())
    at.set(position, [...(at.get(position) ?? []), block]);
  const stations = [...at].sort(([one], [two]) => one - two);
  return chooseWays(problem, stations.length, (next, inUse) => {
    const [position, blocks] = stations[next]!;
    return closingsOf(station, position, blocks, inUse).map((closed) => ({ position, blocks, ...closed }));
  });
}

/**
 * Stations with their own places and crews, and what is then asked of their people and of counted equipment; null where no way to staff
 * them is found.
 */
export function staffBlocks(problem: Work, plan: BlockPlan): BlockPlan | null {
  const { skills, schedule, equipment } = problem;
  const isCounted = schedule !== null && equipment.length > 0;
  if (skills === null && !isCounted) return plan;
  const station = new OpenStation(problem);
  const teams = skills && new Teams(problem, skills);
  return chooseWays(problem, plan.length, (next, inUse) => {
    const given = plan[next]!;
    const { position, blocks, places, crew } = given;
    const mayHave = (filled: FilledStation) =>
      schedule === null || crew === 1 || arrangeStation(problem, filled) !== null;
    const ways =
      isCounted && takesAll(station, position, blocks, inUse)
        ? station.closingsAs(places, crew).map((closed) => ({ ...given, ...closed }))
        : [];
    if (ways.length > 0 || teams === null) return ways.length > 0 ? ways : [given];
    return teams
      .of(blocks, kindAt(problem, position), crew)
      .map((team) => ({ ...given, team }))
      .filter(mayHave);
  });
}

/** One of the ways of each station, the first that together take no more people with their skills than there are. */
function chooseWays(
  { skills, equipment }: Work,
  count: number,
  waysOf: (next: number, inUse: readonly number[]) => readonly FilledStation[],
): BlockPlan | null {
  const plan: FilledStation[] = [];
  let tries = 0;
  // A list and no recursion, as plans have thousands of stations.
  const open: Choice[] = [];
  const openNext = (inUse: readonly number[], asks: readonly bigint[]) => {
    if (plan.length < count) open.push({ ways: waysOf(plan.length, inUse), tried: 0, inUse, asks });
  };
  openNext(
    equipment.map(() => 0),
    [],
  );
  while (plan.length < count) {
    const choice = open.at(-1)!;
    const way = choice.ways[choice.tried++];
    if (way === undefined) {
      open.pop();
      // Teams of a station may leave too few people for later ones: then others of it are tried.
      if (plan.length === 0 || skills === null || ++tries >= MOST_TRIES) return null;
      plan.pop();
      continue;
    }
    const asks = skills === null ? choice.asks : [...choice.asks, ...asksOf(way.team ?? NO_TEAM, way.places)];
    if (skills !== null && !mayBeStaffed(asks, skills.people)) continue;
    plan.push(way);
    openNext(
      choice.inUse.map((units, each) => units + (way.equipment?.[each] ?? 0)),
      asks,
    );
  }
  return plan;
}

/** A station whose way is chosen, and what is in use and asked of people before it. */
interface Choice {
  readonly ways: readonly FilledStation[];
  tried: number;
  readonly inUse: readonly number[];
  readonly asks: readonly bigint[];
}

/** Ways to close a station for these blocks, that of the fewest people first; none where it cannot hold them. */
function closingsOf(
  station: OpenStation,
  position: number,
  blocks: readonly number[],
  inUse: readonly number[],
): Closed[] {
  return takesAll(station, position, blocks, inUse) ? station.closings().reverse() : [];
}

/** Fills a station with these blocks; false where it cannot take one of them. */
function takesAll(
  station: OpenStation,
  position: number,
  blocks: readonly number[],
  inUse: readonly number[],
): boolean {
  station.start(position, inUse);
  return blocks.every((block) => {
    if (!station.canTake(block)) return false;
    station.take(block);
    return true;
  });
}

/** Stations closed in another way. */
const MOST_TRIES = 200;

/** The position of each block in a plan. */
export function positionsOf(problem: Work, plan: BlockPlan): number[] {
  const positionOf = problem.loads.map(() => -1);
  for (const { position, blocks } of plan) for (const block of blocks) positionOf[block] = position;
  return positionOf;
}
