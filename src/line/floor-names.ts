import { idKey } from "./ids.js";
import type { LineDraft } from "./line-draft.js";
import { valuesOf } from "./line-keys.js";

/** Names that those in use must be among, and what is said of a name, in quotes, that is none of them. */
export interface KnownNames {
  readonly names: readonly string[];
  refuse(name: string): string;
}

/** Zones of stations; null where no station has one. */
export function knownZones({ floor }: LineDraft): KnownNames | null {
  const names = floor.stations.flatMap((station) => station.keys.zone?.value ?? []);
  return names.length === 0 ? null : { names, refuse: (name) => `no station is in a zone ${name}` };
}

/** Skills of stations where any states them, else of people; null where neither does. */
export function knownSkills({ floor, keys, places }: LineDraft): KnownNames | null {
  if (statesSkills(floor)) {
    const skills = floor.stations.flatMap((station) => valuesOf(station.keys.skills));
    return {
      names: skills.map((each) => each.value),
      refuse: (name) => `no station has the skill ${name}, so any may hold the task`,
    };
  }
  if (places.people === undefined || keys.people === undefined) return null;
  const skills = keys.people.entries.flatMap((person) => valuesOf(person.value));
  return {
    names: skills.map((each) => each.value),
    refuse: (name) => `nobody of \`people\` has the skill ${name}`,
  };
}

/** Equipment that is counted; null where the line counts none. */
export function knownEquipment({ keys }: LineDraft): KnownNames | null {
  if (keys.equipment === undefined) return null;
  return {
    names: keys.equipment.entries.map((each) => each.id),
    refuse: (name) => `${name} is not counted in \`equipment\` of the line`,
  };
}

/** Equipment that any station lists, by what makes names equal. */
export function listedEquipment({ floor }: LineDraft): ReadonlySet<string> {
  const listed = floor.stations.flatMap((station) => valuesOf(station.keys.equipment));
  return new Set(listed.map((each) => idKey(each.value)));
}

/** Skills that any station states, by what makes names equal. */
export function listedSkills({ floor }: LineDraft): ReadonlySet<string> {
  const listed = floor.stations.flatMap((station) => valuesOf(station.keys.skills));
  return new Set(listed.map((each) => idKey(each.value)));
}

export function statesSkills({ stations }: LineDraft["floor"]): boolean {
  return stations.some((station) => station.keys.skills !== undefined);
}
