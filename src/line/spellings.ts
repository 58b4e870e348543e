import { idKey } from "./ids.js";
import type { LineDraft } from "./line-draft.js";
import { type OneOrMore, valuesOf } from "./line-keys.js";
import { compareNaturally } from "./natural-order.js";

/** Finds the one spelling under which the line knows a name, so that equal names are equal texts. */
export type Spell = (name: string) => string;

export interface Spellings {
  readonly zone: Spell;
  readonly skill: Spell;
  readonly equipment: Spell;
}

/** A name is spelt as where it is defined: at the line, on the floor, else at the first task. */
export function spellingsOf(draft: LineDraft): Spellings {
  const { keys, tasks, floor } = draft;
  const people = [...(keys.people?.entries ?? [])].sort((one, two) => compareNaturally(one.id, two.id));
  return {
    zone: spellAs([...floor.stations, ...tasks].flatMap((each) => each.keys.zone?.value ?? [])),
    skill: spellAs(
      [
        ...floor.stations.map((each) => each.keys.skills),
        ...people.map((each) => each.value),
        ...tasks.map((task) => task.keys.skill),
      ].flatMap(texts),
    ),
    equipment: spellAs([
      ...(keys.equipment?.entries ?? []).map((each) => each.id),
      ...[...floor.stations, ...tasks].flatMap((each) => texts(each.keys.equipment)),
    ]),
  };
}

/** Every name once, in natural order. */
export function spellAll(spell: Spell, given: OneOrMore<string> | undefined): string[] {
  return [...new Set(texts(given).map(spell))].sort(compareNaturally);
}

function texts(given: OneOrMore<string> | undefined): string[] {
  return valuesOf(given).map((each) => each.value);
}

function spellAs(names: readonly string[]): Spell {
  const first = new Map<string, string>();
  for (const name of names) if (!first.has(idKey(name))) first.set(idKey(name), name);
  return (name) => first.get(idKey(name)) ?? name;
}
