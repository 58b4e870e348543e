import type { Line } from "../line/line.js";
import { ONE_PERSON, type Plan, type Station } from "../plan/plan.js";
import { stationIds } from "../plan/station-numbers.js";
import { arrangeStation } from "./station/arrange-station.js";
import type { StationOrder } from "./station/schedule/schedule-problem.js";
import type { BlockPlan, Work } from "./work.js";

/**
 * A plan under way as a plan of the line: stations by their ids, tasks in the order in which a station best does them, sides and
 * people where the line has them.
 *
 * @param inGivenOrder the blocks of each station are in an order of work already
 */
export function toPlan(line: Line, problem: Work, plan: BlockPlan, inGivenOrder = false): Plan {
  const ids = stationIds(
    line,
    plan.map(({ position }) => position),
  );
  return {
    stations: plan.map((station, at): Station => {
      const { blocks, places, crew } = station;
      const id = ids[at]!;
      const inOrder = inGivenOrder ? blocks : blocks.toSorted((one, two) => one - two);
      const tasks = inOrder.flatMap((block) => problem.members[block]!);
      const order = arrangeStation(problem, station);
      return { ...ONE_PERSON, id, tasks, places, crew, ...(order && orderOf(order)) };
    }),
  };
}

const orderOf = ({ tasks, sides, persons }: StationOrder) => ({ tasks, sides, persons });
