import type { Line } from "../line/line.js";
import type { Station } from "../plan/plan.js";
import { add, multiply, ONE, type Ratio, ratio, ZERO } from "../time/ratio.js";

/** The share of each model, in the order of the line; a line without models builds one. */
export function sharesOf(line: Line): readonly Ratio[] {
  return line.models.length === 0 ? [ONE] : line.models.map(({ share }) => share);
}

/**
 * What a task adds per good unit of one model, in microseconds: (task time + walking) x visits / every, 0 where the model does
 * not have the task. The share-weighted mean over the models is the load of the task.
 */
export function taskTimeOf(line: Line, task: number, model: number): Ratio {
  const { times, walking, visits, every } = line.tasks[task]!;
  const own = times[model] ?? null;
  return own === null ? ZERO : multiply(visits, ratio(own + walking, every));
}

/** The time of one unit of a model at a station, before dividing by places, in microseconds. */
export function modelTime(line: Line, station: Station, model: number): Ratio {
  return station.tasks.map((task) => taskTimeOf(line, task, model)).reduce(add, ZERO);
}

/** The time of one unit of each model at a station, in the order of the models. */
export function modelTimes(line: Line, station: Station): Ratio[] {
  return sharesOf(line).map((_, model) => modelTime(line, station, model));
}

/** The share-weighted mean of a figure that each model has. */
export function meanOverModels(line: Line, byModel: readonly Ratio[]): Ratio {
  return sharesOf(line)
    .map((share, model) => multiply(share, byModel[model]!))
    .reduce(add, ZERO);
}
