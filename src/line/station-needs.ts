import { listedEquipment, listedSkills } from "./floor-names.js";
import { idKey } from "./ids.js";
import type { LineDraft } from "./line-draft.js";
import { type StationKeys, type TaskKeys, valuesOf } from "./line-keys.js";

/** One thing that a task asks of its station, in the words of a message: "in zone paint". */
export interface Need {
  readonly words: string;
  /** Whether a station of the floor, by its number, will do. */
  fits(number: number, keys: StationKeys): boolean;
  /** Whether a station behind the floor will do. */
  readonly behind: boolean;
}

/** Whether any station is all of that. */
export function hasStation({ floor }: LineDraft, needs: readonly Need[]): boolean {
  return (
    needs.every((each) => each.behind) ||
    floor.stations.some(({ keys }, number) => needs.every((each) => each.fits(number, keys)))
  );
}

/** What each task asks of its station, as far as the names in it are known. */
export function needsOf(draft: LineDraft): (keys: TaskKeys) => Need[] {
  const { floor } = draft;
  const anyZone = floor.stations.some((station) => station.keys.zone !== undefined);
  const listed = listedEquipment(draft);
  const skills = listedSkills(draft);
  return (keys) => [
    ...windowNeeds(draft, keys),
    ...(anyZone && keys.zone !== undefined ? [zoneNeed(keys.zone.value)] : []),
    ...valuesOf(keys.equipment)
      .filter((each) => listed.has(idKey(each.value)))
      .map((each) => holdingNeed(`with ${each.value}`, each.value, (station) => station.equipment)),
    ...valuesOf(keys.skill)
      .filter((each) => skills.has(idKey(each.value)))
      .map((each) => holdingNeed(`with the skill ${each.value}`, each.value, (station) => station.skills)),
  ];
}

function windowNeeds({ floor }: LineDraft, keys: TaskKeys): Need[] {
  const names = valuesOf(keys.station);
  const stations = names.flatMap((each) => floor.numberOf(each.value) ?? []);
  const [first, last] = [keys["not-before"], keys["not-after"]];
  const needs: Need[] = [];
  if (stations.length > 0) {
    const words = `that is ${names.map((each) => each.value).join(" or ")}`;
    needs.push({ words, fits: (number) => stations.includes(number), behind: false });
  }
  const from = first && floor.numberOf(first.value);
  const to = last && floor.numberOf(last.value);
  if (from !== undefined) {
    needs.push({ words: `not before ${first!.value}`, fits: (number) => number >= from, behind: true });
  }
  if (to !== undefined) {
    needs.push({ words: `not after ${last!.value}`, fits: (number) => number <= to, behind: false });
  }
  return needs;
}

function zoneNeed(zone: string): Need {
  const fits = (_: number, station: StationKeys) =>
    station.zone !== undefined && idKey(station.zone.value) === idKey(zone);
  return { words: `in zone ${zone}`, fits, behind: false };
}

function holdingNeed(
  words: string,
  name: string,
  held: (station: StationKeys) => StationKeys["equipment"],
): Need {
  const fits = (_: number, station: StationKeys) =>
    valuesOf(held(station)).some((each) => idKey(each.value) === idKey(name));
  return { words, fits, behind: false };
}
