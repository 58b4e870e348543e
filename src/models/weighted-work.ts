import type { Line } from "../line/line.js";
import { modelTime } from "../plan/model-figures.js";
import { planOf } from "../plan/plan.js";
import type { Pace } from "../time/pace.js";
import { add, ceiling, divide, multiply, ONE, type Ratio, ratio, ZERO } from "../time/ratio.js";
import { meanOverModels, sharesOf } from "./model-time.js";

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
  readonly people: PeopleNeeded;
}

/** People by work content alone, as if work could be shared out without loss. */
export interface PeopleNeeded {
  readonly exact: Ratio;
  /** Rounded up to whole people. */
  readonly whole: bigint;
}

const NOBODY: PeopleNeeded = { exact: ZERO, whole: 0n };

/** The weighted work content of a line with models and the people it takes at the line cycle. */
export function weightedWork(line: Line, pace: Pace): WeightedWork {
  const models = sharesOf(line).map((share, model) => ({
    model,
    share,
    workContent: workContentOf(line, model),
    interval: share.num === 0n ? null : divide(pace.lineCycle, share),
  }));
  const workContent = meanOverModels(
    line,
    models.map((each) => each.workContent),
  );
  // A fixed number of stations without any work has a cycle of 0.
  const isIdle = pace.lineCycle.num === 0n;
  return { models, workContent, people: isIdle ? NOBODY : peopleNeeded(workContent, pace.lineCycle) };
}

/** Person-time of one good unit of a model: sum of task time x people, each task as if it stood alone, in microseconds. */
function workContentOf(line: Line, model: number): Ratio {
  const alone = planOf([...line.tasks.keys()].map((task) => [task])).stations;
  return line.tasks
    .map(({ people }, task) => multiply(ratio(people), modelTime(line, alone[task]!, model)))
    .reduce(add, ZERO);
}

/**
 * People for a work content when a unit leaves every takt: work / (takt x availability x efficiency). The efficiency stands for
 * what balancing and repositioning lose; where the takt is a line cycle already, the availability is in it.
 * Source: M. P. Groover, Automation, Production Systems, and CIM, workers of a mixed model line.
 *
 * @param availability share of the time in which the line runs, above 0
 * @param efficiency share of the paid time in which people work, above 0
 * @throws RangeError for a takt of 0
 */
export function peopleNeeded(
  workContent: Ratio,
  takt: Ratio,
  { availability = ONE, efficiency = ONE }: { availability?: Ratio; efficiency?: Ratio } = {},
): PeopleNeeded {
  const exact = divide(workContent, multiply(takt, multiply(availability, efficiency)));
  return { exact, whole: ceiling(exact) };
}
