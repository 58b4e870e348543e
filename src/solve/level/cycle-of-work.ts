import type { Line } from "../../line/line.js";
import { add, compare, divide, larger, ONE, type Ratio, ratio, ZERO } from "../../time/ratio.js";
import { handlingOf, machineRun, type WorkLimits } from "../lay-out-work.js";
import { fromParts } from "../parts.js";
import { scheduleSides } from "../station/sides/schedule-sides.js";
import type { BlockPlan, FilledStation, Work } from "../work.js";

/** (Station time + handling) / places of one station, in microseconds. */
export function cycleOf(line: Line, problem: Work, limits: WorkLimits, station: FilledStation): Ratio {
  const finish = scheduleSides(problem, station)?.finish;
  const tasks = station.blocks.flatMap((block) => problem.members[block]!);
  const load =
    finish === undefined
      ? tasks.map((task) => line.tasks[task]!.load).reduce(add, ZERO)
      : fromParts(line, finish);
  return perPlace(station, add(load, handlingOf(line, limits, tasks)));
}

/**
 * The shortest cycle at which a plan can be worked, in microseconds. Where a pace is given, models and machines are held against
 * that, and only the slowest station counts; where the plan sets its own pace, that pace is one that they keep up with, too.
 */
export function cycleOfBlocks(line: Line, problem: Work, limits: WorkLimits, plan: BlockPlan): Ratio {
  const slowest = plan.map((station) => cycleOf(line, problem, limits, station)).reduce(larger, ZERO);
  return larger(slowest, cycleBeyondStations(line, problem, limits, plan));
}

/** What models and machines ask of the cycle where a plan sets its own pace; zero at a pace that is given. */
export function cycleBeyondStations(line: Line, problem: Work, limits: WorkLimits, plan: BlockPlan): Ratio {
  if (!limits.free) return ZERO;
  const models = plan.map((station) => cycleForModels(line, problem, limits, station));
  return [...models, cycleForMachines(line, problem, plan)].reduce(larger, ZERO);
}

/** The longest time of a model that a station works on is at most 1 + overload of the working time. */
function cycleForModels(line: Line, problem: Work, limits: WorkLimits, station: FilledStation): Ratio {
  if (line.modelOverload === null) return ZERO;
  const ends = scheduleSides(problem, station)?.ends;
  const times = problem.modelLoads.map((loads, model) =>
    ends === undefined
      ? fromParts(line, sumOf(loads, station.blocks))
      : divide(fromParts(line, ends[model]!), problem.modelShares[model]!),
  );
  const longest = times.reduce(larger, ZERO);
  const tasks = station.blocks.flatMap((block) => problem.members[block]!);
  const handling = handlingOf(line, limits, tasks);
  return perPlace(station, add(divide(longest, add(ONE, line.modelOverload)), handling));
}

/** As many machines as exist, shared among the stations so that the busiest is the least busy. */
function cycleForMachines(line: Line, problem: Work, plan: BlockPlan): Ratio {
  return [...line.equipment]
    .map(([name, count]) => {
      const users = plan.flatMap(({ blocks, places }) => {
        const tasks = blocks.flatMap((block) => problem.members[block]!);
        return tasks.some((task) => line.tasks[task]!.equipment.includes(name))
          ? [{ busy: busyOf(line, tasks, name), machines: places }]
          : [];
      });
      if (users.every(({ busy }) => compare(busy, ZERO) === 0)) return ZERO;
      const share = ({ busy, machines }: (typeof users)[number]) => divide(busy, ratio(machines));
      let free = count - users.reduce((sum, { machines }) => sum + machines, 0);
      for (; free > 0; free--) {
        const busiest = users.reduce((one, two) => (compare(share(two), share(one)) > 0 ? two : one));
        busiest.machines++;
      }
      return users.map(share).reduce(larger, ZERO);
    })
    .reduce(larger, ZERO);
}

/** How long the tasks keep machines of a name busy for one good unit, loading and running, in microseconds. */
export function busyOf(line: Line, tasks: readonly number[], name: string): Ratio {
  return tasks
    .filter((task) => line.tasks[task]!.equipment.includes(name) && line.tasks[task]!.machineTime > 0)
    .map((task) => machineRun(line, task))
    .reduce(add, ZERO);
}

const perPlace = ({ places }: FilledStation, amount: Ratio): Ratio => divide(amount, ratio(places));

const sumOf = (loads: readonly number[], blocks: readonly number[]): number =>
  blocks.reduce((sum, block) => sum + loads[block]!, 0);
