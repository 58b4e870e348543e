import { costOf } from "./cost.js";
import { arrangeBlocks } from "./station/arrange-blocks.js";
import { OpenStation } from "./station/open-station.js";
import type { BlockPlan, Work } from "./work.js";

/**
 * The plan with as many of its stations as the floor has room for at places that stand there already: who needs no station behind the
 * floor builds none. Stations keep their blocks and their order; those of the floor stay where they are unless they make room. The plan
 * itself where that breaks a rule or takes more people.
 */
export function drawOntoFloor(work: Work, plan: BlockPlan): BlockPlan {
  const floor = work.kinds.length - 1;
  const behind = plan.filter(({ position }) => position >= floor).length;
  if (floor === 0) return plan;
  const station = new OpenStation(work);
  for (let drawn = behind; drawn > 0; drawn--) {
    const moved = drawn === behind ? plan : plan.slice(0, drawn - behind);
    const positions = latestPlaces(work, station, moved, floor - 1);
    if (positions === null) continue;
    const positionOf = work.loads.map(() => -1);
    for (const [at, { position, blocks }] of plan.entries())
      for (const block of blocks) positionOf[block] = positions[at] ?? position;
    const arranged = arrangeBlocks(work, positionOf, station);
    if (arranged === null || costOf(arranged).people > costOf(plan).people) continue;
    // The order of work at each station stays as it is.
    return arranged.map((each, at) => ({ ...each, blocks: plan[at]!.blocks }));
  }
  return plan;
}

/** A place for each of these stations up to the last, the latest first; null where the floor has too few that may hold them. */
function latestPlaces(work: Work, station: OpenStation, plan: BlockPlan, last: number): number[] | null {
  const positions: number[] = [];
  const nothingInUse = work.equipment.map(() => 0);
  const mayHold = (position: number, blocks: readonly number[]) => {
    station.start(position, nothingInUse);
    return blocks.every((block) => {
      if (!station.canTake(block)) return false;
      station.take(block);
      return true;
    });
  };
  let next = last;
  for (let at = plan.length - 1; at >= 0; at--) {
    const { position, blocks } = plan[at]!;
    let place = Math.min(next, position);
    while (place >= 0 && !mayHold(place, blocks)) place--;
    if (place < 0) return null;
    positions[at] = place;
    next = place - 1;
  }
  return positions;
}
