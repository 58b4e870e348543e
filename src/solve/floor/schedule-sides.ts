import { floor, type Ratio, ratio } from "../../time/ratio.js";
import { fitSides } from "./fit-sides.js";
import { type FilledStation, type FloorProblem, kindAt } from "./floor-problem.js";
import type { SideSchedule } from "./side-problem.js";

type Filled = Pick<FilledStation, "position" | "blocks" | "places">;

/** The most time of a station: more than the limit where one block alone takes time and may take more. */
export function limitOf(problem: FloorProblem, { position, blocks, places }: Filled): number {
  const { limits, alone } = problem.kinds[kindAt(problem, position)]!;
  const timed = blocks.filter((block) => problem.loads[block]! > 0);
  const isAlone = timed.length === 1 && problem.mayStandAlone[timed[0]!]!;
  return isAlone ? Math.max(limits[places - 1]!, alone[places - 1]!) : limits[places - 1]!;
}

/** The most that one model may take of a station; endless where models are held on average only. */
export function modelLimitOf(
  problem: FloorProblem,
  { position, places }: Pick<Filled, "position" | "places">,
): number {
  return problem.kinds[kindAt(problem, position)]!.modelLimits[places - 1] ?? Number.POSITIVE_INFINITY;
}

/** How the tasks of a station fit both sides of a wide product; null where they do not, or where the line has no sides. */
export function scheduleSides(problem: FloorProblem, station: Filled): SideSchedule | null {
  const { sides, modelLoads, modelShares, members } = problem;
  if (sides === null) return null;
  const tasks = station.blocks.toSorted((one, two) => one - two).flatMap((block) => members[block]!);
  const most = modelLimitOf(problem, station);
  const models = sides.again.map((_, model) => {
    // A model without work at these stations keeps any limit.
    const isHeld = modelLoads[model]?.some((load) => load > 0) ?? false;
    return isHeld ? inShare(most, modelShares[model]!) : Number.POSITIVE_INFINITY;
  });
  return fitSides(sides, tasks, { mean: limitOf(problem, station), models });
}

/** A limit of whole parts for the share of a model in the units: its own times are whole parts, too, so no less holds. */
const inShare = (most: number, { num, den }: Ratio): number => Number(floor(ratio(BigInt(most) * num, den)));
