import type { Line, Person } from "../line/line.js";
import type { Station } from "./plan.js";

/** Named people for the places of a station whose work needs skills. */
export type WhoStandsWhere = ReadonlyMap<string, readonly string[]>;

/** Every skill that a person at the station needs, in the order of the tasks. */
export const skillsNeeded = (line: Line, { tasks }: Pick<Station, "tasks">): string[] => [
  ...new Set(tasks.flatMap((task) => line.tasks[task]!.skills)),
];

/**
 * One way to give each place whose work needs skills a person of its own who has them all, by station id, people of a station in
 * their natural order (augmenting paths, Berge 1957). Null where no people are listed, where the floor says what its stations
 * can do, and where there are too few people.
 */
export function whoStandsWhere(
  line: Line,
  stations: readonly Pick<Station, "id" | "tasks" | "places">[],
): WhoStandsWhere | null {
  const { people, floor } = line;
  if (people.length === 0 || floor.some(({ skills }) => skills !== null)) return null;
  const places = stations.flatMap(({ id, tasks, places: count }) => {
    const skills = skillsNeeded(line, { tasks });
    return skills.length === 0 ? [] : Array.from({ length: count }, () => ({ id, skills }));
  });
  const seats = seatAll(
    places.map(({ skills }) => skills),
    people,
  );
  if (seats === null) return null;
  const found = new Map<string, number[]>();
  for (const [at, { id }] of places.entries()) found.set(id, [...(found.get(id) ?? []), seats[at]!]);
  return new Map(
    [...found].map(([id, who]) => [
      id,
      who.sort((one, two) => one - two).map((person) => people[person]!.id),
    ]),
  );
}

/** For each place the number of a person, no person twice; null where that cannot be. */
function seatAll(places: readonly (readonly string[])[], people: readonly Person[]): number[] | null {
  const whereIs = new Map<number, number>();
  const seat = (place: number, tried: Set<number>): boolean =>
    [...people.keys()].some((person) => {
      const isAble = places[place]!.every((skill) => people[person]!.skills.includes(skill));
      if (!isAble || tried.has(person)) return false;
      tried.add(person);
      const taken = whereIs.get(person);
      if (taken !== undefined && !seat(taken, tried)) return false;
      whereIs.set(person, place);
      return true;
    });
  if (![...places.keys()].every((place) => seat(place, new Set()))) return null;
  const personAt = new Map([...whereIs].map(([person, place]) => [place, person]));
  return places.map((_, place) => personAt.get(place)!);
}
