/**
 * Whether every place that needs skills can have somebody of its own who has all of them (a matching of places to people;
 * augmenting paths, Berge 1957).
 */
export function mayBeStaffed(places: readonly bigint[], people: readonly bigint[]): boolean {
  return staffSkills(places, people) !== null;
}

/** For each place the number of a person, or null where no such assignment exists. */
export function staffSkills(places: readonly bigint[], people: readonly bigint[]): number[] | null {
  const whereIs = people.map(() => -1);
  const assign = (place: number, seen: Set<number>): boolean => {
    for (const [person, skills] of people.entries()) {
      if ((places[place]! & ~skills) !== 0n || seen.has(person)) continue;
      seen.add(person);
      if (whereIs[person]! < 0 || assign(whereIs[person]!, seen)) {
        whereIs[person] = place;
        return true;
      }
    }
    return false;
  };
  for (const place of places.keys()) if (!assign(place, new Set())) return null;
  return places.map((_, place) => whereIs.indexOf(place));
}
