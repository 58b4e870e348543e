import type { Line } from "../line/line.js";
import { repairsPerGoodUnit } from "../line/visits.js";
import type { Pace } from "../time/pace.js";
import type { PlanMeasures } from "./measure.js";
import type { Plan } from "./plan.js";
import { peopleOf } from "./plan-figures.js";
import { repairPeople } from "./repair-figures.js";

/** Everybody that a line takes. */
export interface PeopleInAll {
  readonly onLine: number;
  /** Beside the line, for repairs; 0 where nothing is repaired. */
  readonly repair: number;
  readonly atATime: number;
  /** Of all shifts of a day: each has its own people; null without a calendar. */
  readonly perDay: number | null;
}

/** People on the line and people who repair beside it, at a time and per day. */
export function peopleInAll(
  line: Line,
  { operators, repairPeople }: Pick<PlanMeasures, "operators" | "repairPeople">,
): PeopleInAll {
  const repair = repairPeople ?? 0;
  const atATime = operators + repair;
  const perDay = line.calendar === null ? null : atATime * line.calendar.shifts.length;
  return { onLine: operators, repair, atATime, perDay };
}

/** People who repair beside a line at a time, whatever its plan; 0 where nothing is repaired. */
export function peopleAtRepairs(line: Line, pace: Pace): number {
  if (!line.tasks.some(({ test }) => test?.failures === "repaired")) return 0;
  return Math.max(0, repairPeople(line, pace, repairsPerGoodUnit(line)) ?? 0);
}

/** People on the line and at repairs for a plan of stations whose other figures nobody asks for. */
export const peopleOfPlan = (line: Line, pace: Pace, plan: Plan): PeopleInAll =>
  peopleInAll(line, { operators: peopleOf(plan), repairPeople: peopleAtRepairs(line, pace) });
