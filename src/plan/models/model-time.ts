import type { Line } from "../../line/line.js";
import { add, multiply, ONE, type Ratio } from "../../time/ratio.js";
import type { Station } from "../plan.js";
import { modelTime } from "../station-schedule.js";

/** The share of each model, in the order of the line; a line without models builds one. */
export function sharesOf(line: Line): readonly Ratio[] {
  return line.models.length === 0 ? [ONE] : line.models.map(({ share }) => share);
}

/** The station time of each model, in the order of the line, in microseconds. */
export function modelTimes(line: Line, station: Station): Ratio[] {
  return sharesOf(line).map((_, model) => modelTime(line, station, model));
}

/** The share-weighted mean of a figure that each model has. */
export function meanOverModels(line: Line, byModel: readonly Ratio[]): Ratio {
  return sharesOf(line)
    .map((share, model) => multiply(share, byModel[model]!))
    .reduce(add);
}
