import type { Line, Task } from "../../line/line.js";
import type { Micros } from "../../time/duration.js";
import { add, larger, multiply, ONE, type Ratio, ratio, subtract, ZERO } from "../../time/ratio.js";
import type { Station } from "../plan.js";
import { peakTimeAt } from "../station-schedule.js";
import { personTime } from "./person-time.js";

/**
 * Hand work at a station per good unit without walking, each task by its visits, parts taken over among it, in microseconds. Of people
 * who have tasks of their own it is person-time; of people who do all tasks together, as long as it takes them.
 */
export function manualTime(line: Line, station: Station): Ratio {
  const { tasks } = station;
  const all = isDivided(station)
    ? personTime(line, tasks)
    : tasks.map((task) => line.tasks[task]!.load).reduce(add, ZERO);
  return subtract(all, walkingTime(line, station));
}

/** Walking at a station per good unit, counted as hand work is, in microseconds; with it, the loads or the person-time of its tasks. */
export function walkingTime(line: Line, station: Station): Ratio {
  const countAt = isDivided(station)
    ? ({ people, peopleByModel }: Task, model: number) => peopleByModel?.[model] ?? people
    : () => 1;
  return station.tasks
    .map((task) => meanOf(line, line.tasks[task]!, (each, model) => each.walking * countAt(each, model)))
    .reduce(add, ZERO);
}

/** Walking to one task per good unit, however many people do it, in microseconds. */
export const walkingOf = (line: Line, task: Task): Ratio => meanOf(line, task, ({ walking }) => walking);

/** Whether its people have tasks of their own, so that they work side by side on a unit. */
const isDivided = ({ persons, sides }: Station): boolean => persons !== null || sides !== null;

/** What machines of a station run by themselves per good unit, in microseconds; no part of anybody's load. */
export function machineTime(line: Line, station: Station): Ratio {
  return station.tasks.map((task) => machineRun(line, line.tasks[task]!)).reduce(add, ZERO);
}

/**
 * Station time of a unit that gets all the work done on every so many units only, in microseconds; on a line with models, of the
 * model that takes longest with it.
 */
export function peakTime(line: Line, station: Station): Ratio {
  const columns = Math.max(1, line.models.length);
  return Array.from({ length: columns }, (_, model) => peakTimeAt(line, station, model)).reduce(larger);
}

/** What a machine does by itself for one good unit at this task, in microseconds. */
export function machineRun(line: Line, task: Task): Ratio {
  return meanOf(line, task, ({ machineTime: run }) => run);
}

type TimeOf = (task: Task, model: number) => Micros;

/** The share-weighted mean over the models that have the task, x visits. */
function meanOf(line: Line, task: Task, timeOf: TimeOf): Ratio {
  return task.times
    .map((handTime, model) => {
      const share = task.times.length === 1 ? ONE : line.models[model]!.share;
      const often = multiply(share, task.visits[model]!);
      return handTime === null ? ZERO : multiply(often, ratio(timeOf(task, model)));
    })
    .reduce(add, ZERO);
}
