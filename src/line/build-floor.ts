import { type GroupDraft, heldWith } from "./draft-groups.js";
import type { FloorStation, Line } from "./line.js";
import type { LineDraft } from "./line-draft.js";
import { compareNaturally } from "./natural-order.js";
import { type Spellings, spellAll } from "./spellings.js";

type FloorRules = Pick<
  Line,
  "floor" | "equipment" | "together" | "apart" | "maxPlaces" | "people" | "moveCosts"
>;

/** What stands on the floor and who works there, of a draft without errors. */
export function buildFloor(draft: LineDraft, spell: Spellings): FloorRules {
  const { keys, groups } = draft;
  const byId = (one: { id: string }, two: { id: string }) => compareNaturally(one.id, two.id);
  const counts = [...(keys.equipment?.entries ?? [])].sort(byId);
  const people = [...(keys.people?.entries ?? [])].sort(byId);
  return {
    floor: draft.floor.stations.map((station) => buildStation(station, spell)),
    equipment: new Map(counts.map(({ id, value }) => [spell.equipment(id), value!.value])),
    together: buildTogether(groups.together, draft.tasks.length),
    apart: buildApart(groups.apart),
    maxPlaces: keys["max-places"]?.value ?? 1,
    moveCosts: new Map(
      [...(keys["move-costs"]?.entries ?? [])]
        .sort(byId)
        .map(({ id, value }) => [spell.skill(id), value!.value]),
    ),
    people: people.map(({ id, value }) => ({ id, skills: spellAll(spell.skill, value) })),
  };
}

function buildStation({ id, keys }: LineDraft["floor"]["stations"][number], spell: Spellings): FloorStation {
  return {
    id,
    zone: keys.zone === undefined ? null : spell.zone(keys.zone.value),
    equipment: spellAll(spell.equipment, keys.equipment),
    skills: keys.skills === undefined ? null : spellAll(spell.skill, keys.skills),
    maxPlaces: keys["max-places"]?.value ?? null,
    planTo: keys["plan-to"]?.value ?? null,
  };
}

/** Groups that share a task are one group; ascending, by their smallest task. */
function buildTogether(groups: readonly GroupDraft[], tasks: number): number[][] {
  const members = new Map<number, number[]>();
  for (const [task, first] of heldWith(groups, tasks).entries()) {
    if (task === first) members.set(task, [task]);
    else members.get(first)!.push(task);
  }
  return [...members.values()].filter((group) => group.length > 1);
}

/** Each group once and ascending, in the order of their numbers, so that the order of the file means nothing. */
function buildApart(groups: readonly GroupDraft[]): number[][] {
  const sorted = groups.map((group) =>
    [...new Set(group.tasks.map(({ task }) => task))].sort((one, two) => one - two),
  );
  const once = new Map(sorted.map((group) => [group.join(" "), group]));
  return [...once.values()].sort(compareNumbers);
}

function compareNumbers(one: readonly number[], two: readonly number[]): number {
  const at = one.findIndex((task, index) => task !== two[index]);
  if (at < 0) return one.length - two.length;
  return one[at]! - (two[at] ?? -1);
}
