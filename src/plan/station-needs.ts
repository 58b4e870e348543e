import type { Line } from "../line/line.js";
import type { Pace } from "../time/pace.js";
import { add, ceiling, compare, divide, ZERO } from "../time/ratio.js";
import { machineRun } from "./kinds-of-time.js";
import type { Station } from "./plan.js";

/** Equipment that a station needs. */
export interface NeededEquipment {
  readonly name: string;
  /** One for each place, and more where machines are loaded and run longer than one of them has for a unit. */
  readonly units: number;
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
