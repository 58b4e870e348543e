import type { Line, Task } from "../line/line.js";
import { columnOf, handsOnce, takingOverAgain } from "../line/task-load.js";
import { unitKinds } from "../line/unit-kinds.js";
import type { Micros } from "../time/duration.js";
import { add, larger, multiply, ONE, type Ratio, ratio, subtract, ZERO } from "../time/ratio.js";

/** What the units of one model and one kind take of a station; times in microseconds. */
export interface UnitRow {
  readonly model: number;
  /** Their share of the units of the model. */
  readonly ofModel: Ratio;
  /** Hands at each task on one of them, done once. */
  readonly times: readonly Ratio[];
  /** What a machine then runs by itself. */
  readonly machines: readonly Ratio[];
}

/** A row for every model and kind of units of a line whose stations are schedules; a line without models builds one. */
export function unitRows(line: Line): UnitRow[] {
  const kinds = unitKinds(line.tasks.map(({ every }) => every));
  return weightsOf(line).flatMap((_, model) =>
    kinds.map((kind) => {
      const due = (time: (task: Task, model: number) => Micros) =>
        line.tasks.map((task) => (kind.isDue(task.every) ? ratio(time(task, model)) : ZERO));
      return { model, ofModel: kind.share, times: due(handsOnce), machines: due(machineOnce) };
    }),
  );
}

/**
 * Time of the work done again on a good unit of each model, or on one scrapped for it, by model and task, in microseconds. Work that only a
 * share of the units has is never done again: its rows have it on every unit.
 */
export const timesAgain = (line: Line): Ratio[][] =>
  again(line, (task, model) => handsOnce({ ...task, takenOver: [] }, model), takingOverAgain);

/** The same of what machines run by themselves. */
export const machinesAgain = (line: Line): Ratio[][] => again(line, machineOnce, () => ZERO);

function again(
  line: Line,
  time: (task: Task, model: number) => Micros,
  apart: (task: Task, model: number) => Ratio,
): Ratio[][] {
  return weightsOf(line).map((_, model) =>
    line.tasks.map((task) => {
      const often = task.visits[columnOf(task, model)]!;
      const beyond = larger(ZERO, subtract(often, ratio(1, task.every)));
      return add(multiply(ratio(time(task, model)), beyond), apart(task, model));
    }),
  );
}

/** The share of each model; 1 for one that is not built now, which is held to its own limit all the same. */
export const weightsOf = ({ models }: Line): readonly Ratio[] =>
  models.length === 0 ? [ONE] : models.map(({ share }) => (share.num === 0n ? ONE : share));

/**
 * Whether stations are more than a sum of times: worked from sides, with machines that run by themselves, by people who share a unit, or
 * on equipment that places may share.
 */
export const hasSchedules = (line: Line): boolean =>
  line.tasks.some(({ machineTime }) => machineTime > 0) || sharesWork(line) || sharesEquipment(line);

/** Whether the people of some place may share the work of a unit, or do it from its sides. */
export const sharesWork = ({ maxCrew, floor, tasks }: Line): boolean =>
  maxCrew > 1 ||
  floor.some((station) => (station.maxCrew ?? 1) > 1) ||
  tasks.some(({ side }) => side !== null);

/** Whether several units may be at some station that works on counted equipment. */
export const sharesEquipment = (line: Line): boolean =>
  [line, ...line.floor].some(({ holds, maxPlaces }) => (holds ?? 1) > 1 || (maxPlaces ?? 1) > 1) &&
  line.tasks.some(({ equipment }) => equipment.some((name) => line.equipment.has(name)));

const machineOnce = (task: Task, model: number): Micros =>
  task.times[columnOf(task, model)] === null ? 0 : task.machineTime;
