import type { Line } from "../line/line.js";
import type { Plan, Station } from "../plan/plan.js";
import { stationIds } from "../plan/station-numbers.js";
import { scheduleSides } from "./station/sides/schedule-sides.js";
import type { BlockPlan, Work } from "./work.js";

/**
 * A plan under way as a plan of the line: stations by their ids, tasks in order of work, sides where the line has them.
 *
 * @param inGivenOrder the blocks of each station are in an order of work already
 */
export function toPlan(line: Line, problem: Work, plan: BlockPlan, inGivenOrder = false): Plan {
  const ids = stationIds(
    line,
    plan.map(({ position }) => position),
  );
  return {
    stations: plan.map(({ position, blocks, places, crew }, at): Station => {
      const id = ids[at]!;
      const inOrder = inGivenOrder ? blocks : blocks.toSorted((one, two) => one - two);
      const tasks = inOrder.flatMap((block) => problem.members[block]!);
      const schedule = scheduleSides(problem, { position, blocks, places });
      return schedule === null
        ? { id, tasks, places, crew, sides: null, persons: null }
        : { id, tasks: schedule.tasks, places, crew, sides: schedule.sides, persons: null };
    }),
  };
}
