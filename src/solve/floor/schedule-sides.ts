import { fitSides, type SideSchedule } from "./fit-sides.js";
import { type FilledStation, type FloorProblem, kindAt } from "./floor-problem.js";

type Filled = Pick<FilledStation, "position" | "blocks" | "places">;

/** The most time of a station: more than the limit where one block alone takes time and may take more. */
export function limitOf(problem: FloorProblem, { position, blocks, places }: Filled): number {
  const { limits, alone } = problem.kinds[kindAt(problem, position)]!;
  const timed = blocks.filter((block) => problem.loads[block]! > 0);
  const isAlone = timed.length === 1 && problem.mayStandAlone[timed[0]!]!;
  return isAlone ? Math.max(limits[places - 1]!, alone[places - 1]!) : limits[places - 1]!;
}

/** How the tasks of a station fit both sides of a wide product; null where they do not, or where the line has no sides. */
export function scheduleSides(problem: FloorProblem, station: Filled): SideSchedule | null {
  if (problem.sides === null) return null;
  const tasks = station.blocks.toSorted((one, two) => one - two).flatMap((block) => problem.members[block]!);
  return fitSides(problem.sides, tasks, limitOf(problem, station));
}
