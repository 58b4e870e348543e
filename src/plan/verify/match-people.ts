import type { Person } from "../../line/line.js";

/** Places that need more people than can take them. */
export interface Shortage {
  /** Indexes of places, ascending. */
  readonly places: readonly number[];
  /** Indexes of every person who can take any of them, ascending; fewer than places. */
  readonly people: readonly number[];
}

/**
 * Gives each place a person of its own who has all the skills asked for there, as many places as can be (augmenting paths, Kuhn
 * 1955), and tells what is left: sets of places with too few people for them (Hall 1935). None where everybody finds a place.
 *
 * @param asked the skills of each place
 */
export function findShortages(asked: readonly (readonly string[])[], people: readonly Person[]): Shortage[] {
  const able = asked.map((skills) =>
    [...people.keys()].filter((at) => skills.every((skill) => people[at]!.skills.includes(skill))),
  );
  const whereIs = new Map<number, number>();
  const seat = (place: number, tried: Set<number>): boolean =>
    able[place]!.some((person) => {
      if (tried.has(person)) return false;
      tried.add(person);
      const taken = whereIs.get(person);
      if (taken !== undefined && !seat(taken, tried)) return false;
      whereIs.set(person, place);
      return true;
    });
  const left = [...asked.keys()].filter((place) => !seat(place, new Set()));
  return joinShared(left.map((place) => reach(place, able, whereIs)));
}

/** The places whose people stand in each other's way, from one that is left over. */
function reach(start: number, able: readonly (readonly number[])[], whereIs: ReadonlyMap<number, number>) {
  const [places, people] = [new Set([start]), new Set<number>()];
  for (const place of places) {
    for (const person of able[place]!) {
      people.add(person);
      places.add(whereIs.get(person)!);
    }
  }
  return { places, people };
}

/** Sets that share people are one shortage. */
function joinShared(sets: readonly { places: Set<number>; people: Set<number> }[]): Shortage[] {
  const joined: { places: Set<number>; people: Set<number> }[] = [];
  for (const set of sets) {
    const shared = joined.filter((each) => [...each.people].some((person) => set.people.has(person)));
    const all = [set, ...shared];
    for (const each of shared) joined.splice(joined.indexOf(each), 1);
    joined.push({
      places: new Set(all.flatMap(({ places }) => [...places])),
      people: new Set(all.flatMap(({ people }) => [...people])),
    });
  }
  const ascending = (numbers: Set<number>) => [...numbers].sort((one, two) => one - two);
  return joined
    .map(({ places, people }) => ({ places: ascending(places), people: ascending(people) }))
    .sort((one, two) => one.places[0]! - two.places[0]!);
}
