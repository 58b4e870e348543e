import type { Line } from "../../line/line.js";
import { add, compare, divide, larger, multiply, ONE, type Ratio, ratio, ZERO } from "../../time/ratio.js";
import { handlingOf, type WorkLimits } from "../lay-out-work.js";
import { fromParts } from "../parts.js";
import { arrangeStation } from "../station/arrange-station.js";
import { type BlockPlan, type FilledStation, kindAt, type Work } from "../work.js";

/** (Station time + handling) / places of one station, or where that is longer (dwell / holds + handling) / places, in microseconds. */
export function cycleOf(line: Line, problem: Work, limits: WorkLimits, station: FilledStation): Ratio {
  const order = arrangeStation(problem, station);
  const tasks = station.blocks.flatMap((block) => problem.members[block]!);
  const isByPerson = order !== null && (order.sides !== null || order.persons !== null);
  const load = isByPerson
    ? fromParts(line, order.hands)
    : tasks.map((task) => line.tasks[task]!.load).reduce(add, ZERO);
  const { holds } = problem.kinds[kindAt(problem, station.position)]!;
  const dwell = order === null ? ZERO : divide(fromParts(line, order.dwell), ratio(holds));
  return perPlace(station, add(larger(load, dwell), handlingOf(line, limits, tasks)));
}

/**
 * The shortest cycle at which a plan can be worked, in microseconds. Where a pace is given, models are held against that, and only the
 * slowest station and equipment count; where the plan sets its own pace, that pace is one that models keep up with, too.
 */
export function cycleOfBlocks(line: Line, problem: Work, limits: WorkLimits, plan: BlockPlan): Ratio {
  const slowest = plan.map((station) => cycleOf(line, problem, limits, station)).reduce(larger, ZERO);
  return larger(slowest, cycleBeyondStations(line, problem, limits, plan));
}

/** What equipment asks of the cycle, and where a plan sets its own pace what models do. */
export function cycleBeyondStations(line: Line, problem: Work, limits: WorkLimits, plan: BlockPlan): Ratio {
  const models = limits.free ? plan.map((station) => cycleForModels(line, problem, limits, station)) : [];
  return [...models, cycleForEquipment(line, problem, plan)].reduce(larger, ZERO);
}

/** The longest time of a model that a station works on is at most 1 + overload of the working time. */
function cycleForModels(line: Line, problem: Work, limits: WorkLimits, station: FilledStation): Ratio {
  if (line.modelOverload === null) return ZERO;
  const times =
    arrangeStation(problem, station)?.ofModels ??
    problem.modelLoads.map((loads) => ratio(station.blocks.reduce((sum, block) => sum + loads[block]!, 0)));
  const longest = multiply(fromParts(line, 1), times.reduce(larger, ZERO));
  const tasks = station.blocks.flatMap((block) => problem.members[block]!);
  const handling = handlingOf(line, limits, tasks);
  return perPlace(station, add(divide(longest, add(ONE, line.modelOverload)), handling));
}

/** As many units as exist, shared among the stations so that the busiest is the least busy. */
function cycleForEquipment(line: Line, problem: Work, plan: BlockPlan): Ratio {
  if (problem.schedule === null) return ZERO;
  return problem.equipment
    .map(({ count }, at) => {
      const users = plan.flatMap((station) => {
        const held = arrangeStation(problem, station)?.equipment[at] ?? 0;
        const { holds } = problem.kinds[kindAt(problem, station.position)]!;
        return held > 0 ? [{ held: fromParts(line, held), units: 1, most: holds * station.places }] : [];
      });
      const share = ({ held, units }: (typeof users)[number]) => divide(held, ratio(units));
      const longest = (all: typeof users) =>
        all.reduce((one, two) => (compare(share(two), share(one)) > 0 ? two : one));
      for (let free = count - users.length; free > 0 && users.length > 0; free--) {
        const busiest = longest(users);
        if (busiest.units >= busiest.most) break;
        busiest.units++;
      }
      return users.map(share).reduce(larger, ZERO);
    })
    .reduce(larger, ZERO);
}

const perPlace = ({ places }: FilledStation, amount: Ratio): Ratio => divide(amount, ratio(places));
