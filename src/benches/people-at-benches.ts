import type { Line, Person } from "../line/line.js";
import { findShortages } from "../plan/verify/match-people.js";
import type { BenchFigures } from "./measure-bench.js";

/** The skills that a place asks for, in a stable order. */
export type SkilledPlace = readonly string[];

/** Where people work: a station of the line, or one of a bench. */
interface Post {
  readonly tasks: readonly number[];
  readonly places: number;
}

/** The places whose work needs skills; none where no people are listed, or the floor says what its stations can do. */
export function skilledPlaces(line: Line, posts: readonly Post[]): SkilledPlace[] {
  if (line.people.length === 0 || line.floor.some(({ skills }) => skills !== null)) return [];
  return posts.flatMap(({ tasks, places }) => {
    const skills = [...new Set(tasks.flatMap((task) => line.tasks[task]!.skills))].sort();
    return skills.length === 0 ? [] : Array.from({ length: places }, () => skills);
  });
}

/** The same of benches. */
export const skilledBenchPlaces = (
  line: Line,
  benches: readonly Pick<BenchFigures, "stations" | "places">[],
): SkilledPlace[] =>
  skilledPlaces(
    line,
    benches.flatMap(({ stations, places }) => stations.map(({ tasks }) => ({ tasks, places }))),
  );

/** Who is left for the line when others stand at the benches. */
export interface PeopleLeft {
  /** One for each choice of people for the benches that leaves the line other skills. */
  readonly choices: readonly (readonly Person[])[];
  /** No choice was left out. */
  readonly isWhole: boolean;
}

/** Choices that are followed; of more the first stand. */
const MOST_CHOICES = 24;

/** Every way to take one person who has all the skills for each place, as far as those who are left differ in skills. */
export function peopleLeft(people: readonly Person[], places: readonly SkilledPlace[]): PeopleLeft {
  const able = (place: SkilledPlace) => people.filter((person) => isAble(person, place)).length;
  const scarceFirst = [...places].sort((one, two) => able(one) - able(two));
  let isWhole = true;
  let choices: readonly (readonly Person[])[] = [people];
  for (const place of scarceFirst) {
    const next = new Map<string, readonly Person[]>();
    for (const left of choices) {
      for (const person of left.filter((each) => isAble(each, place))) {
        const others = left.filter((each) => each !== person);
        const key = keyOf(others);
        if (next.has(key)) continue;
        if (next.size < MOST_CHOICES) next.set(key, others);
        else isWhole = false;
      }
    }
    choices = [...next.values()];
  }
  return { choices, isWhole };
}

const isAble = ({ skills }: Person, place: SkilledPlace): boolean =>
  place.every((skill) => skills.includes(skill));

/** People with the same skills stand in for each other. */
const keyOf = (people: readonly Person[]): string =>
  JSON.stringify(people.map(({ skills }) => JSON.stringify([...skills].sort())).sort());

/** Whether each of these places can have a person of its own. */
export const mayStaff = (people: readonly Person[], places: readonly SkilledPlace[]): boolean =>
  findShortages(places, people).length === 0;

/** Bench places for which too few of the people have the skills. */
export interface Shortage {
  readonly places: number;
  readonly skills: readonly string[];
  /** Those who can take them, by their ids. */
  readonly able: readonly string[];
}

/** Why benches alone cannot be staffed; null where they can. */
export function shortageOf(people: readonly Person[], places: readonly SkilledPlace[]): Shortage | null {
  const [shortage] = findShortages(places, people);
  if (shortage === undefined) return null;
  return {
    places: shortage.places.length,
    skills: [...new Set(shortage.places.flatMap((at) => places[at]!))],
    able: shortage.people.map((at) => people[at]!.id),
  };
}
