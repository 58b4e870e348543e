import type { StationSide } from "../../../plan/plan.js";
import type { OpenSchedule } from "./open-schedule.js";
import type { ScheduleProblem } from "./schedule-problem.js";

/** How the people of one place share its tasks. */
export interface PeopleOfTasks {
  /** Who may be at a task of their own at once. */
  readonly persons: number;
  /** By place of the task, the bits of the people that must do it; 0 where they can be chosen. */
  readonly certain: Int32Array;
  /** How many of them it takes. */
  readonly people: Int32Array;
  readonly isShared: boolean;
  /** Sides by person; null on a line without sides. */
  readonly sides: readonly StationSide[] | null;
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
  return { ...together(tasks), sides: [wanted.has("right") ? "right" : "left"] };
}

/** One at each side. */
export function atBothSides({ sides }: ScheduleProblem, tasks: readonly number[]): PeopleOfTasks {
  const certain = Int32Array.from(tasks, (task) => SIDE_MASKS[sides![task]!]);
  const people = certain.map((mask) => (mask === SIDE_MASKS.both ? 2 : 1));
  return { persons: 2, certain, people, isShared: false, sides: ["left", "right"] };
}

const SIDE_MASKS = { left: 1, right: 2, both: 3, either: 0 } as const;

/** No more people than bits of a mask; beyond that all of a crew work together. */
export const MOST_SHARING = 30;

/**
 * Who may do a task next, as masks, the smallest first. Of people who are alike so far the first are taken: which of them changes
 * nothing but their numbers.
 */
export function masksFor(open: OpenSchedule, task: number): number[] {
  const certain = open.certain[task]!;
  if (certain !== 0) return open.mayWork(task, certain) ? [certain] : [];
  if (!open.isShared) return [1, 2];
  const masks: number[] = [];
  const choose = (person: number, mask: number, missing: number) => {
    if (missing === 0) {
      if (open.mayWork(task, mask)) masks.push(mask);
      return;
    }
    if (open.persons - person < missing) return;
    if (!isPassedOver(open, person, mask)) choose(person + 1, mask | (1 << person), missing - 1);
    choose(person + 1, mask, missing);
  };
  choose(0, 0, open.people[task]!);
  return masks.sort((one, two) => one - two);
}

/** Whether somebody before, who is alike, is not of the mask. */
function isPassedOver(open: OpenSchedule, person: number, mask: number): boolean {
  for (let other = 0; other < person; other++)
    if (((mask >>> other) & 1) === 0 && open.areAlike(other, person)) return true;
  return false;
}
