import type { Line } from "../../line/line.js";
import { topologicalOrder } from "../../line/precedence.js";
import type { Pace } from "../../time/pace.js";
import { add, ceiling, compare, divide, larger, ONE, type Ratio, ZERO } from "../../time/ratio.js";
import type { Station } from "../plan.js";
import { equipmentTimes } from "../station-schedule.js";
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
  /** Ids of the tasks from the first to the last of which a unit keeps it, if that is longer than all of them take; else null. */
  readonly held: readonly string[] | null;
  readonly lineCycle: Ratio;
}

/** What the number of a machine that is needed follows from. */
export function machineNeed(line: Line, { lineCycle }: Pace, machine: BusyMachine): MachineNeed {
  const { name, busy, needed, tasks } = machine;
  const ids = tasks.map(({ task }) => line.tasks[task]!.id);
  const held = compare(busy, sumOf(tasks)) > 0 ? ids : null;
  return { name, busy, needed, task: ids[0]!, runs: tasks, held, lineCycle };
}

/**
 * The machines of some tasks, each with the sum of what these take of it one after another that its number follows from: no unit keeps it
 * for a shorter time, wherever the tasks are done.
 */
export function busyMachines(line: Line, pace: Pace, { tasks }: Pick<Station, "tasks">): BusyMachine[] {
  if (compare(pace.lineCycle, ZERO) <= 0) return [];
  const running = tasks.filter((task) => line.tasks[task]!.machineTime > 0);
  const names = [...new Set(running.flatMap((task) => line.tasks[task]!.equipment))];
  const named = names.map((name) =>
    keptBy(
      line,
      pace,
      name,
      tasks.filter((task) => line.tasks[task]!.equipment.includes(name)),
    ),
  );
  const nameless = running.filter((task) => line.tasks[task]!.equipment.length === 0);
  return [...named, ...nameless.map((task) => keptBy(line, pace, null, [task]))];
}

/** The machines of a station as its units keep them, from the first of the tasks on them that follow each other to the last. */
export function machinesAt(line: Line, pace: Pace, station: Station): BusyMachine[] {
  const machines = busyMachines(line, pace, station);
  if (machines.every(({ name }) => name === null)) return machines;
  const times = equipmentTimes(line, station);
  return machines.map((machine) => {
    const held = machine.name === null ? undefined : times.get(machine.name);
    return held === undefined ? machine : { ...machine, busy: held, needed: unitsFor(held, pace.lineCycle) };
  });
}

/** So many of an equipment keep up where a unit keeps one for so long: time / line cycle, rounded up, and one at the least. */
export const unitsFor = (held: Ratio, lineCycle: Ratio): number =>
  compare(lineCycle, ZERO) > 0 ? Math.max(1, Number(ceiling(divide(held, lineCycle)))) : 1;

/** An equipment that tasks keep one after another, whether a machine runs or not. */
export function keptBy(line: Line, pace: Pace, name: string | null, numbers: readonly number[]): BusyMachine {
  const tasks = numbers.map((task) => ({
    task,
    loading: line.tasks[task]!.load,
    run: machineRun(line, line.tasks[task]!),
  }));
  const busy = sumOf(tasks);
  return { name, tasks, busy, needed: unitsFor(busy, pace.lineCycle) };
}

/**
 * An equipment that one unit keeps from the first to the last of some tasks at one station: no shorter than the longest chain along arrows between
 * two of them. What lies between counts where every unit has it, once.
 */
export function keptAlong(line: Line, pace: Pace, name: string, numbers: readonly number[]): BusyMachine {
  const machine = keptBy(line, pace, name, numbers);
  const timeOf = (number: number): Ratio => {
    const task = line.tasks[number]!;
    const isOnce = task.every === 1 && task.visits.every((each) => compare(each, ONE) === 0);
    if (!numbers.includes(number) && !isOnce) return ZERO;
    return add(task.load, machineRun(line, task));
  };
  // From the start of one of the tasks to the end of this one, where one comes before.
  const longest = new Map<number, Ratio>();
  for (const number of topologicalOrder(line.before)) {
    const chains = line.before[number]!.flatMap((each) => longest.get(each) ?? []);
    if (chains.length > 0 || numbers.includes(number))
      longest.set(number, add(chains.reduce(larger, ZERO), timeOf(number)));
  }
  const busy = numbers.map((each) => longest.get(each)!).reduce(larger, ZERO);
  return { ...machine, busy, needed: unitsFor(busy, pace.lineCycle) };
}

const sumOf = (tasks: readonly MachineTask[]): Ratio =>
  tasks.map(({ loading, run }) => add(loading, run)).reduce(add, ZERO);

/** Equipment that a station needs. */
export interface NeededEquipment {
  readonly name: string;
  /** One for each place as far as so many exist, and more where units keep them longer than one of them has for a unit. */
  readonly units: number;
}

/** The equipment of a station's tasks, in their order, with what the post has of what is counted. */
export function equipmentNeeded(
  line: Line,
  pace: Pace,
  station: Station,
  equipment: readonly NeededEquipment[],
): NeededEquipment[] {
  return [...equipmentTimes(line, station)].map(([name, held]) => {
    const own = equipment.find((each) => each.name === name);
    const needed = unitsFor(held, pace.lineCycle);
    return {
      name,
      units: own === undefined ? Math.max(station.places, needed) : Math.max(own.units, needed),
    };
  });
}
