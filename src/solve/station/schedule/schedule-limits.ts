import { floor, multiply, ratio } from "../../../time/ratio.js";
import { type FilledStation, kindAt, limitsWith, type StationLimits, type Work } from "../../work.js";
import type { Team } from "../staff-skills.js";
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
  /** Skills asked of each of its people. */
  readonly team: Team;
}

/** What a station may take at the most. */
export function scheduleLimits(
  work: Work,
  { within, places, crew, units, most }: Omit<Manned, "team">,
): ScheduleLimits {
  const { dwell, modelLimits, modelDwell } = within;
  return {
    persons: personsOf(work.schedule!, within, crew),
    dwell: dwell[places - 1]!,
    hands: most,
    model: modelLimits[places - 1] ?? Number.POSITIVE_INFINITY,
    modelDwell: work.modelShares.map((share, model) => {
      const isHeld = work.schedule!.sides !== null && work.modelLoads[model]!.some((load) => load > 0);
      // A model's own times are whole parts, so no less holds.
      return isHeld
        ? Number(floor(multiply(ratio(modelDwell[places - 1]!), share)))
        : Number.POSITIVE_INFINITY;
    }),
    equipment: work.equipment.map(({ time }, at) =>
      units === null ? Number.POSITIVE_INFINITY : time(units[at]!),
    ),
  };
}

/** The most time of a person: more than the limit where one block alone takes time and may take more. */
export function limitOf(work: Work, { position, blocks, places }: Omit<FilledStation, "crew">): number {
  const { limits, alone } = limitsWith(work, kindAt(work, position), blocks);
  let timed = 0;
  let last = 0;
  for (let at = 0; at < blocks.length && timed < 2; at++) {
    if (work.loads[blocks[at]!] === 0) continue;
    timed++;
    last = blocks[at]!;
  }
  const isAlone = timed === 1 && work.mayStandAlone[last]!;
  return isAlone ? Math.max(limits[places - 1]!, alone[places - 1]!) : limits[places - 1]!;
}

/** The tasks of blocks, in order of work. */
export function tasksOf({ members }: Work, blocks: readonly number[]): number[] {
  return blocks.toSorted((one, two) => one - two).flatMap((block) => members[block]!);
}

/** People of a crew who may each be at a task of their own. */
function personsOf({ sides }: ScheduleProblem, { maxCrew }: StationLimits, crew: number): number {
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
