import type { StationSide } from "../../../plan/plan.js";
import type { Work } from "../../work.js";
import type { Team } from "../staff-skills.js";
import type { ScheduleProblem } from "./schedule-problem.js";

/** How the people of one place share its tasks; a side of a wide product is a person who does nothing at the other one. */
export interface PeopleOfTasks {
  /** Who may be at a task of their own at once. */
  readonly persons: number;
  /** By place of the task, the bits of the people that must do it; 0 where they can be chosen. */
  readonly certain: Int32Array;
  /** How many of them it takes. */
  readonly people: Int32Array;
  /** Whether each of them has a load of their own. */
  readonly isShared: boolean;
  /** Sides by person; null on a line without sides. */
  readonly sides: readonly StationSide[] | null;
  /** By place of the task, the bits of the people of whom one must be at it; absent where everybody can do everything. */
  readonly able?: Int32Array;
  /** The same number for people who can do the same; absent where all can. */
  readonly classes?: readonly number[];
}

/** All of them together, as one: nobody does anything else meanwhile. */
export function together(tasks: readonly number[]): PeopleOfTasks {
  const one = Int32Array.from(tasks, () => 1);
  return { persons: 1, certain: one, people: one, isShared: false, sides: null };
}

/** Each on tasks of their own, as many at once as a task takes. */
export function sharing(
  { people }: ScheduleProblem,
  tasks: readonly number[],
  persons: number,
): PeopleOfTasks {
  const taken = Int32Array.from(tasks, (task) => people[task]!);
  const all = 2 ** persons - 1;
  return {
    persons,
    certain: taken.map((each) => (each === persons ? all : 0)),
    people: taken,
    isShared: true,
    sides: null,
  };
}

/** One at a side of a wide product; null where one side is not enough. */
export function atOneSide({ sides }: ScheduleProblem, tasks: readonly number[]): PeopleOfTasks | null {
  const wanted = new Set(tasks.map((task) => sides![task]!).filter((side) => side !== "either"));
  if (wanted.size > 1 || wanted.has("both")) return null;
  return { ...together(tasks), isShared: true, sides: [wanted.has("right") ? "right" : "left"] };
}

/** One at each side. */
export function atBothSides({ sides }: ScheduleProblem, tasks: readonly number[]): PeopleOfTasks {
  const certain = Int32Array.from(tasks, (task) => SIDE_MASKS[sides![task]!]);
  const people = certain.map((mask) => (mask === SIDE_MASKS.both ? 2 : 1));
  return { persons: 2, certain, people, isShared: true, sides: ["left", "right"] };
}

const SIDE_MASKS = { left: 1, right: 2, both: 3, either: 0 } as const;

/** The same people where skills are asked of them: of the people at each task one has all that it needs. */
export function withSkills(
  { skills, schedule }: Work,
  who: PeopleOfTasks,
  tasks: readonly number[],
  team: Team,
): PeopleOfTasks {
  const { persons } = who;
  if (team.length === 0 || persons === 1) return who;
  const all = 2 ** persons - 1;
  const able = Int32Array.from(tasks, (task) => {
    const has = (own: bigint) => (skills!.needsOfTasks[task]! & ~own) === 0n;
    // Of more people than sides any may be at the task.
    if (schedule!.people[task]! > persons && team.slice(persons).some(has)) return all;
    return team.slice(0, persons).reduce((mask, own, person) => (has(own) ? mask | (1 << person) : mask), 0);
  });
  const isOne = (mask: number) => mask !== 0 && (mask & (mask - 1)) === 0;
  const certain = who.certain.map((mask, at) =>
    mask === 0 && who.people[at] === 1 && isOne(able[at]!) ? able[at]! : mask,
  );
  return { ...who, certain, able, classes: team.slice(0, persons).map((own) => team.indexOf(own)) };
}

/** No more people than bits of a mask; beyond that all of a crew work together. */
export const MOST_SHARING = 30;
