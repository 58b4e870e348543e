import type { Line, Person } from "../line/line.js";
import { ONE_PERSON } from "../plan/plan.js";
import { findShortages } from "../plan/verify/match-people.js";
import { type SkilledPlace, seatPeople, skilledPlaces } from "../plan/verify/skilled-places.js";
import type { BenchFigures } from "./measure-bench.js";

/** The places at benches whose work needs skills. */
export const skilledBenchPlaces = (
  line: Line,
  benches: readonly Pick<BenchFigures, "stations" | "places">[],
): SkilledPlace[] =>
  skilledPlaces(
    line,
    benches.flatMap(({ stations, places }) =>
      stations.map(({ tasks, crew }) => ({ ...ONE_PERSON, tasks, crew, places })),
    ),
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

/** Every way to take the people whom each place asks for, as far as those who are left differ in skills. */
export function peopleLeft(people: readonly Person[], places: readonly SkilledPlace[]): PeopleLeft {
  const able = ({ ways }: SkilledPlace) =>
    Math.max(
      0,
      ...ways.map((way) => Math.min(...way.map(({ skills }) => peopleWith(people, skills).length))),
    );
  const scarceFirst = [...places].sort((one, two) => able(one) - able(two));
  let isWhole = true;
  let choices: readonly (readonly Person[])[] = [people];
  for (const { ways } of scarceFirst) {
    const next = new Map<string, readonly Person[]>();
    const take = (left: readonly Person[], way: SkilledPlace["ways"][number]): void => {
      const [first, ...others] = way;
      if (first !== undefined) {
        for (const person of peopleWith(left, first.skills))
          take(
            left.filter((each) => each !== person),
            others,
          );
        return;
      }
      const key = keyOf(left);
      if (next.has(key)) return;
      if (next.size < MOST_CHOICES) next.set(key, left);
      else isWhole = false;
    };
    for (const left of choices) for (const way of ways) take(left, way);
    choices = [...next.values()];
  }
  return { choices, isWhole };
}

/** Those of the people who have all of these skills. */
export const peopleWith = (people: readonly Person[], skills: readonly string[]): readonly Person[] =>
  people.filter((person) => isAble(person, skills));

const isAble = ({ skills }: Person, asked: readonly string[]): boolean =>
  asked.every((skill) => skills.includes(skill));

/** People with the same skills stand in for each other. */
const keyOf = (people: readonly Person[]): string =>
  JSON.stringify(people.map(({ skills }) => JSON.stringify([...skills].sort())).sort());

/** Bench places for which too few of the people have the skills. */
export interface Shortage {
  readonly places: number;
  readonly skills: readonly string[];
  /** Those who can take them, by their ids. */
  readonly able: readonly string[];
}

/** Why benches alone cannot be staffed; null where they can. */
export function shortageOf(people: readonly Person[], places: readonly SkilledPlace[]): Shortage | null {
  if (seatPeople(places, people) !== null) return null;
  const asked = places.flatMap(({ ways: [way] }) => (way ?? []).map(({ skills }) => skills));
  // Where people may share skills in several ways the first is told.
  const [shortage] = findShortages(asked, people);
  const short = shortage === undefined ? asked : shortage.places.map((at) => asked[at]!);
  return {
    places: shortage?.places.length ?? places.length,
    skills: [...new Set(short.flat())],
    able: (shortage?.people ?? []).map((at) => people[at]!.id),
  };
}
