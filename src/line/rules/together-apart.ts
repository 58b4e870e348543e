import { type GroupDraft, heldWith } from "../draft-groups.js";
import type { LineDraft } from "../line-draft.js";
import { found, type LineRule } from "./line-rule.js";

const name = "together-apart";

export const togetherApart: LineRule = {
  name,
  purpose: "No two tasks are kept together and apart at once.",
  check(draft) {
    const { together, apart } = draft.groups;
    const held = heldWith(together, draft.tasks.length);
    return apart.flatMap((group) => refuseHeld(draft, group, held));
  },
};

/** One finding for each task that an earlier one of the list is held with. */
function refuseHeld(draft: LineDraft, { tasks }: GroupDraft, held: readonly number[]) {
  const first = new Map<number, number>();
  return tasks.flatMap(({ task, place }) => {
    const earlier = first.get(held[task]!);
    if (earlier === undefined) first.set(held[task]!, task);
    if (earlier === undefined || earlier === task) return [];
    const [one, two] = [draft.tasks[earlier]!.id, draft.tasks[task]!.id];
    const places = placesOf(draft, held, task);
    const message = `apart: ${one} and ${two} must never share a station here, and must share one by together (${places}); take one of the two out`;
    return [found(name, draft, { severity: "error", message, place, task: two })];
  });
}

/** Where the lists stand that hold these tasks together. */
function placesOf(draft: LineDraft, held: readonly number[], task: number): string {
  const lists = draft.groups.together.filter((group) =>
    group.tasks.some((each) => held[each.task] === held[task]),
  );
  return lists.map(({ place }) => `line ${place.line}, column ${place.column}`).join("; ");
}
