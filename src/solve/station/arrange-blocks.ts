import type { BlockPlan, FilledStation, Work } from "../work.js";
import { OpenStation } from "./open-station.js";
import { mayBeStaffed } from "./staff-skills.js";

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
  const plan: FilledStation[] = [];
  const needs: bigint[] = [];
  let inUse: readonly number[] = problem.equipment.map(() => 0);
  for (const [position, blocks] of [...at].sort(([one], [two]) => one - two)) {
    station.start(position, inUse);
    for (const block of blocks) {
      if (!station.canTake(block)) return null;
      station.take(block);
    }
    const closed = station.closings().at(-1);
    if (closed === undefined) return null;
    const { places, crew, equipment } = closed;
    inUse = inUse.map((used, each) => used + equipment[each]!);
    plan.push({ position, blocks, places, crew, equipment });
    const need = blocks.reduce((all, block) => all | (skills?.needs[block] ?? 0n), 0n);
    if (need !== 0n) needs.push(...Array<bigint>(places).fill(need));
  }
  return skills === null || mayBeStaffed(needs, skills.people) ? plan : null;
}

/** The position of each block in a plan. */
export function positionsOf(problem: Work, plan: BlockPlan): number[] {
  const positionOf = problem.loads.map(() => -1);
  for (const { position, blocks } of plan) for (const block of blocks) positionOf[block] = position;
  return positionOf;
}
