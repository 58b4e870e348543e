import type { Line } from "../line/line.js";
import { peopleNeeded } from "../models/weighted-work.js";
import { planOf } from "../plan/plan.js";
import { workContent } from "../plan/plan-figures.js";
import type { Pace } from "../time/pace.js";
import { add, ceiling, divide, multiply, ONE, type Ratio, ratio, subtract } from "../time/ratio.js";

/** People by work content alone: work content / station limit, as if work could be shared out without loss. */
export interface PeopleByWork {
  readonly exact: Ratio;
  readonly whole: number;
  /** So much less work content, in microseconds, is the work of one person fewer; null for a line without work. */
  readonly lessWork: Ratio | null;
}

export function peopleByWork(line: Line, pace: Pace): PeopleByWork {
  const work = workContent(line, planOf([[...line.tasks.keys()]]));
  const { exact, whole } = peopleNeeded(work, pace.stationLimit);
  const lessWork = whole < 1n ? null : subtract(work, multiply(ratio(whole - 1n), pace.stationLimit));
  return { exact, whole: Number(whole), lessWork };
}

/** People to hire = people of the day x (1 + relief) / attendance, rounded up; null where the day is not known. */
export function peopleHired(
  { attendance, relief }: Pick<Line, "attendance" | "relief">,
  peoplePerDay: number | null,
): number | null {
  if (peoplePerDay === null) return null;
  return Number(ceiling(divide(multiply(ratio(peoplePerDay), add(ONE, relief)), attendance)));
}
