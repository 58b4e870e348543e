import type { Line } from "../../line/line.js";
import type { Plan } from "../../plan/plan.js";
import { stationNumbers } from "../../plan/station-numbers.js";
import { arrangeBlocks, staffBlocks } from "../../solve/station/arrange-blocks.js";
import type { BlockPlan, Work } from "../../solve/work.js";
import { stationsByTask } from "./match-stations.js";

/** A plan as the search sees it, each station closed as the search would; null where it does not keep the rules or misses a task. */
export function arrangedAs(line: Line, work: Work, plan: Plan): BlockPlan | null {
  const numbers = positionsOf(line, work, plan);
  const positionOf = blocksByStation(work, plan).map((at) => (at < 0 ? -1 : numbers[at]!));
  return positionOf.includes(-1) ? null : arrangeBlocks(work, positionOf);
}

/** A plan that keeps to the limits, station by station with its own places and crews; null where no way to staff it is found. */
export function asItStands(line: Line, work: Work, plan: Plan): BlockPlan | null {
  const numbers = positionsOf(line, work, plan);
  const blocks: number[][] = plan.stations.map(() => []);
  for (const [block, at] of blocksByStation(work, plan).entries()) blocks[at]?.push(block);
  const stations = plan.stations.map(({ places, crew }, at) => ({
    position: numbers[at]!,
    blocks: blocks[at]!,
    places,
    crew,
  }));
  return staffBlocks(work, stations);
}

const positionsOf = (line: Line, { isPositional }: Work, plan: Plan): readonly number[] =>
  isPositional ? stationNumbers(line, plan) : [...plan.stations.keys()];

/** The station of each block, -1 where it has none. */
function blocksByStation({ members }: Work, plan: Plan): number[] {
  const stationOf = stationsByTask(plan);
  return members.map(([first]) => stationOf.get(first!) ?? -1);
}
