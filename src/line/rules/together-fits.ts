import { heldWith } from "../draft-groups.js";
import { idKey } from "../ids.js";
import type { LineDraft } from "../line-draft.js";
import { hasStation, type Need, needsOf } from "../station-needs.js";
import { found, type LineRule } from "./line-rule.js";

const name = "together-fits";

export const togetherFits: LineRule = {
  name,
  purpose: "Tasks kept together are of one zone, and one station is all they ask for.",
  check(draft) {
    const { together } = draft.groups;
    if (together.length === 0 || !draft.floor.complete) return [];
    const held = heldWith(together, draft.tasks.length);
    const told = new Set<number>();
    const needs = needsOf(draft);
    return together.flatMap(({ tasks, place }) => {
      const group = tasks.length === 0 ? -1 : held[tasks[0]!.task]!;
      if (group < 0 || told.has(group)) return [];
      told.add(group);
      const members = [...held.keys()].filter((task) => held[task] === group);
      const problem = problemOf(draft, members, needs);
      if (problem === null) return [];
      const ids = members.map((task) => draft.tasks[task]!.id).join(", ");
      const message = `together: ${ids} ${problem}; take one of these out, or keep fewer tasks together`;
      return [found(name, draft, { severity: "error", message, place })];
    });
  },
};

function problemOf(draft: LineDraft, members: readonly number[], needs: ReturnType<typeof needsOf>) {
  const keys = members.map((task) => draft.tasks[task]!.keys);
  const zones = new Map(
    keys.flatMap(({ zone }) => (zone === undefined ? [] : [[idKey(zone.value), zone.value]])),
  );
  if (zones.size > 1) return `are of several zones: ${[...zones.values()].join(", ")}`;
  const each = keys.map((own) => needs(own));
  // What one task alone finds no station for has a finding of its own.
  if (each.some((own) => !hasStation(draft, own))) return null;
  const all = [...new Map(each.flat().map((need): [string, Need] => [need.words, need])).values()];
  if (hasStation(draft, all)) return null;
  return `ask together for a station ${all.map((need) => need.words).join(", ")}, and there is none`;
}
