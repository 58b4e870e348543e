import type { Line } from "../../line/line.js";
import type { Plan, Station } from "../../plan/plan.js";
import { stationIds } from "../../plan/station-numbers.js";
import { fitSides } from "./fit-sides.js";
import { type FloorPlan, type FloorProblem, kindAt } from "./floor-problem.js";

/** A plan under way as a plan of the line: stations by their ids, tasks in order of work, sides where the line has them. */
export function toPlan(line: Line, problem: FloorProblem, plan: FloorPlan): Plan {
  const ids = stationIds(
    line,
    plan.map(({ position }) => position),
  );
  return {
    stations: plan.map(({ position, blocks, places, crew }, at): Station => {
      const id = ids[at]!;
      const tasks = blocks.toSorted((one, two) => one - two).flatMap((block) => problem.members[block]!);
      if (problem.sides === null) return { id, tasks, places, crew, sides: null };
      const kind = problem.kinds[kindAt(problem, position)]!;
      const most = Math.max(kind.limits[places - 1]!, kind.alone[places - 1]!);
      const schedule = fitSides(problem.sides, tasks, most)!;
      return { id, tasks: schedule.tasks, places, crew, sides: schedule.sides };
    }),
  };
}
