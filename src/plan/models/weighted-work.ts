import type { Line } from "../../line/line.js";
import type { Pace } from "../../time/pace.js";
import { divide, type Ratio } from "../../time/ratio.js";
import { type PeopleByWork, peopleByWork } from "../figures/people.js";
import { workOfLine, workOfModel } from "../figures/person-time.js";
import { sharesOf } from "./model-time.js";

/** The work in one model; times in microseconds. */
export interface ModelWork {
  /** Number of the model in the line. */
  readonly model: number;
  readonly share: Ratio;
  /** Person-time of one good unit of this model. */
  readonly workContent: Ratio;
  /** A unit of this model starts every so often on average: line cycle / share, no pace of its own; null for a share of 0. */
  readonly interval: Ratio | null;
}

/** The work in a unit of the mix and the people it takes. */
export interface WeightedWork {
  /** In the order of the line; one for a line without models. */
  readonly models: readonly ModelWork[];
  /** Share-weighted mean of the work contents, in microseconds. */
  readonly workContent: Ratio;
  readonly people: PeopleByWork;
}

/** The weighted work content of a line with models and the people that it takes by work alone. */
export function weightedWork(line: Line, pace: Pace): WeightedWork {
  const models = sharesOf(line).map((share, model) => ({
    model,
    share,
    workContent: workOfModel(line, model),
    interval: share.num === 0n ? null : divide(pace.lineCycle, share),
  }));
  return { models, workContent: workOfLine(line), people: peopleByWork(line, pace) };
}
