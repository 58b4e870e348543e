import * as z from "zod";
import { compareNaturally } from "../../findings/natural-order.js";
import { idKey } from "../ids.js";
import type { Line } from "../line.js";
import { type ObjectDraft, type OneOrMore, type TextDraft, valuesOf } from "../read/draft.js";
import { named, namedOneOrMore, textOrNumber } from "../read/leaf.js";
import { readEquipmentCount, readMoveCost } from "../whole-numbers.js";

/** What the line has of equipment, skills and people. */
export const resourceKeys = () => ({
  equipment: z
    .record(
      named("The name of the equipment."),
      textOrNumber("count", "How many of it exist, a whole number from 1.", readEquipmentCount),
    )
    .meta({
      description:
        "How many of each equipment exist, by name. List all that tasks name. Without this key nothing is counted.",
    })
    .optional(),
  "move-costs": z
    .record(
      named("The name of a skill."),
      textOrNumber("count", "Points for moving a task with the skill, a whole number from 1.", readMoveCost),
    )
    .meta({ description: "Points for moving a task, by skill, where the task has no `move-cost`." })
    .optional(),
  people: z
    .record(named("The name of a person, or of a post."), namedOneOrMore("The skills, one or a list."))
    .meta({
      description:
        "The people and their skills, by name. Each works at one workplace. Each task is done by somebody there who has all its skills. Where several people are at a task, one of them has them. Nobody is at two tasks at once.",
    })
    .optional(),
});

/** What a task needs of them. */
export const resourceKeysOfTask = () => ({
  skill: namedOneOrMore("The skill that the work needs, or a list of skills.").optional(),
  equipment: namedOneOrMore("The equipment that the work needs, or a list.").optional(),
});

type ResourceKeys = ObjectDraft<ReturnType<typeof resourceKeys>>["at"];

/** Finds the one spelling under which the line knows a name, so that equal names are equal texts. */
type Spell = (name: string) => string;

export interface Spellings {
  readonly zone: Spell;
  readonly skill: Spell;
  readonly equipment: Spell;
}

/** Where names are used. */
interface NamesInUse {
  readonly keys: ResourceKeys;
  readonly tasks: readonly {
    readonly keys: {
      readonly zone?: TextDraft<string>;
      readonly skill?: OneOrMore<string>;
      readonly equipment?: OneOrMore<string>;
    };
  }[];
  readonly floor: {
    readonly stations: readonly {
      readonly keys: {
        readonly zone?: TextDraft<string>;
        readonly skills?: OneOrMore<string>;
        readonly equipment?: OneOrMore<string>;
      };
    }[];
  };
}

/** A name is spelt as where it is defined: at the line, on the floor, else at the first task. */
export function spellingsOf(draft: NamesInUse): Spellings {
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

/** The equipment that is counted, the people and what moves cost, of a draft without errors. */
export function buildResources(
  keys: ResourceKeys,
  spell: Spellings,
): Pick<Line, "equipment" | "people" | "moveCosts"> {
  const byId = (one: { id: string }, two: { id: string }) => compareNaturally(one.id, two.id);
  const counts = [...(keys.equipment?.entries ?? [])].sort(byId);
  const people = [...(keys.people?.entries ?? [])].sort(byId);
  const costs = [...(keys["move-costs"]?.entries ?? [])].sort(byId);
  return {
    equipment: new Map(counts.map(({ id, value }) => [spell.equipment(id), value!.value])),
    moveCosts: new Map(costs.map(({ id, value }) => [spell.skill(id), value!.value])),
    people: people.map(({ id, value }) => ({ id, skills: spellAll(spell.skill, value) })),
  };
}
