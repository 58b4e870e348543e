import type { Limit, Line } from "../line/line.js";
import { amountOf, isPerPerson, isPerShift, limitsAt } from "../line/parts/limits.js";
import type { Pace } from "../time/pace.js";
import { add, ceiling, compare, divide, type Ratio, ratio, ZERO } from "../time/ratio.js";
import { machineRun } from "./kinds-of-time.js";
import type { Station } from "./plan.js";
import { floorStationOf } from "./station-numbers.js";

/** Equipment that a station needs. */
export interface NeededEquipment {
  readonly name: string;
  /** One for each place, and more where machines are loaded and run longer than one of them has for a unit. */
  readonly units: number;
}

/** What the tasks of a station take of a limit, for the place or the person that it is for. */
export interface LimitUse extends Limit {
  readonly used: Ratio;
}

/** Every limit of which the tasks here take something, in natural order of names; those per shift where demand and calendar are known. */
export function limitsUsed(line: Line, station: Station): LimitUse[] {
  return limitsAt(line, floorStationOf(line, station.id)).flatMap((limit) => {
    const amounts = station.tasks.flatMap((task) => amountOf(line, line.tasks[task]!, limit) ?? []);
    if (amounts.length === 0) return [];
    const shared = (isPerPerson(limit.per) ? station.crew : 1) * (isPerShift(limit.per) ? station.places : 1);
    return [{ ...limit, used: divide(amounts.reduce(add, ZERO), ratio(shared)) }];
  });
}

/** Every skill that a person at the station needs, in the order of the tasks. */
export function skillsNeeded(line: Line, station: Station): string[] {
  return [...new Set(station.tasks.flatMap((task) => line.tasks[task]!.skills))];
}

/**
 * The equipment of a station's tasks, in their order. A machine is busy while it is loaded and while it runs; of each one needs
 * so many that this is at most machines x line cycle.
 */
export function equipmentNeeded(line: Line, pace: Pace, station: Station): NeededEquipment[] {
  const tasks = station.tasks.map((task) => line.tasks[task]!);
  return [...new Set(tasks.flatMap((task) => task.equipment))].map((name) => {
    const busy = tasks
      .filter((task) => task.machineTime > 0 && task.equipment.includes(name))
      .map((task) => add(task.load, machineRun(line, task)))
      .reduce(add, ZERO);
    const machines = compare(pace.lineCycle, ZERO) > 0 ? Number(ceiling(divide(busy, pace.lineCycle))) : 0;
    return { name, units: Math.max(station.places, machines) };
  });
}
