import type { Line } from "../../line/line.js";
import type { Pace } from "../../time/pace.js";
import { add, ceiling, compare, divide, type Ratio, ZERO } from "../../time/ratio.js";
import type { Station } from "../plan.js";
import { machineRun } from "./kinds-of-time.js";

/** What keeps a machine busy for one good unit at one task, in microseconds. */
export interface MachineTask {
  readonly task: number;
  /** Hand work at the machine, which cannot run meanwhile. */
  readonly loading: Ratio;
  readonly run: Ratio;
}

/** A machine at a station, with how long it is busy for one good unit; times in microseconds. */
export interface BusyMachine {
  /** The equipment; null for a machine that the file gives no name. */
  readonly name: string | null;
  /** One, or for a machine without a name the task that it stands for alone. */
  readonly tasks: readonly MachineTask[];
  readonly busy: Ratio;
  /** So many keep up: busy time / line cycle, rounded up. */
  readonly needed: number;
}

/** How many of a machine are needed, with the sum that this follows from; times in microseconds. */
export interface MachineNeed extends Pick<BusyMachine, "name" | "busy" | "needed"> {
  /** Id of the first task at it. */
  readonly task: string;
  readonly runs: readonly Omit<MachineTask, "task">[];
  readonly lineCycle: Ratio;
}

/** What the number of a machine that is needed follows from. */
export function machineNeed(line: Line, { lineCycle }: Pace, machine: BusyMachine): MachineNeed {
  const { name, busy, needed, tasks } = machine;
  return { name, busy, needed, task: line.tasks[tasks[0]!.task]!.id, runs: tasks, lineCycle };
}

/** The machines of a station, each with the sum of loading and running that its number follows from. */
export function busyMachines(line: Line, pace: Pace, station: Pick<Station, "tasks">): BusyMachine[] {
  if (compare(pace.lineCycle, ZERO) <= 0) return [];
  const running = station.tasks.filter((task) => line.tasks[task]!.machineTime > 0);
  const names = [...new Set(running.flatMap((task) => line.tasks[task]!.equipment))];
  const named = names.map((name) =>
    machineOf(
      line,
      pace,
      name,
      running.filter((task) => line.tasks[task]!.equipment.includes(name)),
    ),
  );
  const nameless = running.filter((task) => line.tasks[task]!.equipment.length === 0);
  return [...named, ...nameless.map((task) => machineOf(line, pace, null, [task]))];
}

function machineOf(line: Line, pace: Pace, name: string | null, numbers: readonly number[]): BusyMachine {
  const tasks = numbers.map((task) => ({
    task,
    loading: line.tasks[task]!.load,
    run: machineRun(line, line.tasks[task]!),
  }));
  const busy = tasks.map(({ loading, run }) => add(loading, run)).reduce(add, ZERO);
  return { name, tasks, busy, needed: Number(ceiling(divide(busy, pace.lineCycle))) };
}

/** Equipment that a station needs. */
export interface NeededEquipment {
  readonly name: string;
  /** One for each place, and more where machines are loaded and run longer than one of them has for a unit. */
  readonly units: number;
}

/**
 * The equipment of a station's tasks, in their order. A machine is busy while it is loaded and while it runs; of each one needs
 * so many that this is at most machines x line cycle.
 */
export function equipmentNeeded(line: Line, pace: Pace, station: Station): NeededEquipment[] {
  const machines = busyMachines(line, pace, station);
  const names = new Set(station.tasks.flatMap((task) => line.tasks[task]!.equipment));
  return [...names].map((name) => {
    const needed = machines.find((each) => each.name === name)?.needed ?? 0;
    return { name, units: Math.max(station.places, needed) };
  });
}
