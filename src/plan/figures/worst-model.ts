import type { Line } from "../../line/line.js";
import type { Pace } from "../../time/pace.js";
import { compare, divide, type Ratio, ZERO } from "../../time/ratio.js";
import type { Station } from "../plan.js";
import { postOf } from "../post.js";
import { modelTime } from "../station-schedule.js";
import { workingTime } from "./working-time.js";

/** The model that a station works longest on. */
export interface WorstModel {
  /** Its number in `Line.models`. */
  readonly model: number;
  /** Every model takes as long. */
  readonly isOfAll: boolean;
  /** Station time of that model, in microseconds. */
  readonly stationTime: Ratio;
  /** Station time / working time; above 1 the station drifts on such a unit and catches up on others. */
  readonly share: Ratio;
}

/** The model with the largest station time, of equal ones the first; null on a line without models. */
export function worstModel(line: Line, pace: Pace, station: Station): WorstModel | null {
  const times = line.models.map((_, model) => modelTime(line, station, model));
  const [first, ...others] = times;
  if (first === undefined) return null;
  const longest = others.reduce((most, each) => (compare(each, most) > 0 ? each : most), first);
  const working = workingTime(postOf(line, pace, station), pace.lineCycle);
  const share = compare(working, ZERO) > 0 ? divide(longest, working) : ZERO;
  const isOfAll = times.every((each) => compare(each, longest) === 0);
  return { model: times.indexOf(longest), isOfAll, stationTime: longest, share };
}
