import type { StationLimits, Work } from "../../work.js";
import { sideLimitsOf } from "../sides/schedule-sides.js";
import {
  atBothSides,
  atOneSide,
  MOST_SHARING,
  type PeopleOfTasks,
  sharing,
  together,
} from "./people-of-tasks.js";
import type { ScheduleLimits, ScheduleProblem } from "./schedule-problem.js";

/** A station with so many places and people. */
export interface Manned {
  /** What such a station takes with what it holds. */
  readonly within: StationLimits;
  readonly places: number;
  readonly crew: number;
  /** Units of each counted equipment; null where it takes as many as it likes. */
  readonly units: readonly number[] | null;
  /** The most that its busiest person may be loaded with. */
  readonly most: number;
}

/** What a station may take at the most. */
export function scheduleLimits(work: Work, { within, places, crew, units, most }: Manned): ScheduleLimits {
  const { dwell, modelLimits } = within;
  const model = modelLimits[places - 1] ?? Number.POSITIVE_INFINITY;
  const ofSides = work.sides === null ? null : sideLimitsOf(work, most, model);
  return {
    persons: personsOf(work, within, crew),
    dwell: dwell[places - 1]!,
    hands: most,
    models: ofSides?.models ?? work.schedule!.again.map(() => model),
    equipment: work.equipment.map(({ time }, at) =>
      units === null ? Number.POSITIVE_INFINITY : time(units[at]!),
    ),
  };
}

/** People of a crew who may each be at a task of their own. */
function personsOf({ sides }: Work, { maxCrew }: StationLimits, crew: number): number {
  if (sides !== null) return Math.min(crew, 2);
  return maxCrew > 1 && crew <= MOST_SHARING ? crew : 1;
}

/** How so many people share tasks; null where they cannot, all of them being needed at the other side. */
export function whoDoes(
  problem: ScheduleProblem,
  tasks: readonly number[],
  persons: number,
  isShared: boolean,
): PeopleOfTasks | null {
  if (problem.sides !== null) return persons === 1 ? atOneSide(problem, tasks) : atBothSides(problem, tasks);
  if (persons > 1) return sharing(problem, tasks, persons);
  return { ...together(tasks), isShared };
}
