import type { Line, Task } from "../../line/line.js";
import type { Micros } from "../../time/duration.js";
import { add, larger, multiply, ONE, type Ratio, ratio, subtract, ZERO } from "../../time/ratio.js";
import type { Station } from "../plan.js";
import { peakTimeAt } from "../station-schedule.js";

/** Hand work at a station per good unit without walking, each task by its visits, parts taken over among it, in microseconds. */
export function manualTime(line: Line, station: Station): Ratio {
  return subtract(
    station.tasks.map((task) => line.tasks[task]!.load).reduce(add, ZERO),
    walkingTime(line, station),
  );
}

/** Walking at a station per good unit, in microseconds; manual and walking time together are the loads of its tasks. */
export function walkingTime(line: Line, station: Station): Ratio {
  return perGoodUnit(line, station, ({ walking }) => walking);
}

/** What machines of a station run by themselves per good unit, in microseconds; no part of anybody's load. */
export function machineTime(line: Line, station: Station): Ratio {
  return perGoodUnit(line, station, (task) => task.machineTime);
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

type TimeOf = (task: Task) => Micros;

function perGoodUnit(line: Line, station: Station, timeOf: TimeOf): Ratio {
  return station.tasks.map((task) => meanOf(line, line.tasks[task]!, timeOf)).reduce(add, ZERO);
}

/** The share-weighted mean over the models that have the task, x visits. */
function meanOf(line: Line, task: Task, timeOf: TimeOf): Ratio {
  return task.times
    .map((handTime, model) => {
      const share = task.times.length === 1 ? ONE : line.models[model]!.share;
      const often = multiply(share, task.visits[model]!);
      return handTime === null ? ZERO : multiply(often, ratio(timeOf(task)));
    })
    .reduce(add, ZERO);
}
