import type { Line } from "../line/line.js";
import type { Station } from "./plan.js";
import { type Seat, seatPeople, skilledPlaces, type Workplace } from "./verify/skilled-places.js";

/** Somebody by name, with what they are at a place where people have work of their own. */
export interface NamedPerson {
  readonly name: string;
  readonly seat: Seat;
}

/** Named people for the places of a station whose work needs skills. */
export type WhoStandsWhere = ReadonlyMap<string, readonly NamedPerson[]>;

/** Every skill that a person at the station needs, in the order of the tasks. */
export const skillsNeeded = (line: Line, { tasks }: Pick<Station, "tasks">): string[] => [
  ...new Set(tasks.flatMap((task) => line.tasks[task]!.skills)),
];

/**
 * One way to give each place whose work needs skills people of its own, so that of those at each task one has all that it needs, by station
 * id, people of a station in their natural order, or where several have work of their own in that of their numbers or sides. Null where no people
 * are listed, where the floor says what its stations can do, and where there are too few people.
 */
export function whoStandsWhere(
  line: Line,
  stations: readonly (Workplace & Pick<Station, "id">)[],
): WhoStandsWhere | null {
  const { people, floor } = line;
  if (people.length === 0 || floor.some(({ skills }) => skills !== null)) return null;
  const places = skilledPlaces(line, stations);
  const seats = seatPeople(places, people);
  if (seats === null) return null;
  const found = new Map<string, { person: number; seat: Seat }[]>();
  for (const [at, { post }] of places.entries())
    found.set(post.id, [...(found.get(post.id) ?? []), ...seats[at]!]);
  return new Map(
    [...found].map(([id, who]) => {
      const isOneSeat = new Set(who.map(({ seat }) => seat)).size === 1;
      const inOrder = isOneSeat ? who.toSorted((one, two) => one.person - two.person) : who;
      return [id, inOrder.map(({ person, seat }) => ({ name: people[person]!.id, seat }))];
    }),
  );
}
