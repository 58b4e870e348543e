import type { BlockPlan, FilledStation, Work } from "../work.js";
import type { Closed } from "./constraint.js";
import { OpenStation } from "./open-station.js";
import { asksOf, mayBeStaffed } from "./staff-skills.js";

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
  const { before, waits, skills } = problem;
  if (before.some((earlier, block) => earlier.some((each) => positionOf[each]! > positionOf[block]!)))
    return null;
  if (waits.some(({ from, to, stations }) => positionOf[to]! - positionOf[from]! < stations)) return null;
  const at = new Map<number, number[]>();
  for (const [block, position] of positionOf.entries())
    at.set(position, [...(at.get(position) ?? []), block]);
  const stations = [...at].sort(([one], [two]) => one - two);
  const plan: FilledStation[] = [];
  let tries = 0;
  // Teams of a station may leave too few people for later ones: then others of it are tried.
  const arrange = (inUse: readonly number[], asks: readonly bigint[]): boolean => {
    const next = stations[plan.length];
    if (next === undefined) return true;
    const [position, blocks] = next;
    for (const { places, crew, equipment, team } of closingsOf(station, position, blocks, inUse)) {
      const asked = [...asks, ...asksOf(team, places)];
      if (skills !== null && !mayBeStaffed(asked, skills.people)) continue;
      plan.push({ position, blocks, places, crew, equipment, team });
      const used = inUse.map((units, each) => units + equipment[each]!);
      if (arrange(used, asked)) return true;
      if (skills === null || ++tries >= MOST_TRIES) return false;
      plan.pop();
    }
    return false;
  };
  const noUnits = problem.equipment.map(() => 0);
  return arrange(noUnits, []) ? plan : null;
}

/** Ways to close a station for these blocks, that of the fewest people first; none where it cannot hold them. */
function closingsOf(
  station: OpenStation,
  position: number,
  blocks: readonly number[],
  inUse: readonly number[],
): Closed[] {
  station.start(position, inUse);
  for (const block of blocks) {
    if (!station.canTake(block)) return [];
    station.take(block);
  }
  return station.closings().reverse();
}

/** Stations closed in another way. */
const MOST_TRIES = 200;

/** The position of each block in a plan. */
export function positionsOf(problem: Work, plan: BlockPlan): number[] {
  const positionOf = problem.loads.map(() => -1);
  for (const { position, blocks } of plan) for (const block of blocks) positionOf[block] = position;
  return positionOf;
}
