import type { PeopleOfTasks } from "./people-of-tasks.js";

/** Tasks put to people at the most before nothing is said. */
const MOST_TRIES = 5_000;

/**
 * Who does which task, as bits of people, so that none of them is loaded above a limit, whatever the order of work: each task goes to as
 * many different people as it takes, or to those who must do it. "no" where nobody can share them so, "open" where that is not known
 * after many tries.
 *
 * @param loads of each task and person that it takes
 */
export function shareLoads(
  loads: readonly number[],
  { certain, people, able, classes }: Pick<PeopleOfTasks, "certain" | "people" | "able" | "classes">,
  persons: number,
  limit: number,
): readonly number[] | "no" | "open" {
  const masks = [...certain];
  const left = Array.from({ length: persons }, (_, person) =>
    loads.reduce((rest, load, task) => (((certain[task]! >>> person) & 1) === 1 ? rest - load : rest), limit),
  );
  const hasSkills = (task: number) => able === undefined || (masks[task]! & able[task]!) !== 0;
  if (left.some((each) => each < 0)) return "no";
  for (const [task, mask] of certain.entries()) if (mask !== 0 && !hasSkills(task)) return "no";
  const order = [...loads.keys()]
    .filter((task) => certain[task] === 0)
    .sort((one, two) => people[two]! - people[one]! || loads[two]! - loads[one]! || one - two);
  let ahead = order.reduce((sum, task) => sum + loads[task]! * people[task]!, 0);
  let tries = 0;
  const place = (at: number): boolean => {
    if (at === order.length) return true;
    if (ahead > left.reduce((sum, each) => sum + each, 0)) return false;
    const task = order[at]!;
    const load = loads[task]!;
    const give = (from: number, missing: number): boolean => {
      if (missing === 0) return hasSkills(task) && place(at + 1);
      for (let person = from; person <= persons - missing; person++) {
        if (left[person]! < load || isTriedBefore(left, from, person, classes)) continue;
        if (tries++ >= MOST_TRIES) return false;
        left[person]! -= load;
        masks[task]! |= 1 << person;
        ahead -= load;
        if (give(person + 1, missing - 1)) return true;
        left[person]! += load;
        masks[task]! &= ~(1 << person);
        ahead += load;
      }
      return false;
    };
    return give(0, people[task]!);
  };
  if (place(0)) return masks;
  return tries < MOST_TRIES ? "no" : "open";
}

/** Somebody before, from a number on, has as much time left. */
function isTriedBefore(
  left: readonly number[],
  from: number,
  person: number,
  classes: readonly number[] | undefined,
): boolean {
  for (let other = from; other < person; other++)
    if (left[other] === left[person] && classes?.[other] === classes?.[person]) return true;
  return false;
}
