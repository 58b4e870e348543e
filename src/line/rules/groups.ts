import type { LineDraft } from "../line-draft.js";
import type { Arrow } from "../parts/arrows.js";
import { type GroupDraft, heldWith } from "../parts/groups.js";
import { isLoopFree } from "../precedence.js";
import { allFollowers } from "../reach.js";
import { found, type LineRule } from "./line-rule.js";

export const togetherApart: LineRule = {
  name: "together-apart",
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
    return [found("together-apart", draft, { severity: "error", message, place, task: two })];
  });
}

/** Where the lists stand that hold these tasks together. */
function placesOf(draft: LineDraft, held: readonly number[], task: number): string {
  const lists = draft.groups.together.filter((group) =>
    group.tasks.some((each) => held[each.task] === held[task]),
  );
  return lists.map(({ place }) => `line ${place.line}, column ${place.column}`).join("; ");
}

export const togetherWaits: LineRule = {
  name: "together-waits",
  purpose: "No tasks are kept together that stations must lie between.",
  check(draft) {
    const { before } = draft;
    const spread = draft.arrows.filter((arrow) => arrow.stations > 0);
    const { together } = draft.groups;
    if (spread.length === 0 || together.length === 0 || !isLoopFree(before)) return [];
    const held = heldWith(together, before.length);
    const members = [...new Set(together.flatMap(({ tasks }) => tasks.map(({ task }) => task)))].sort(
      (one, two) => one - two,
    );
    const followers = allFollowers(before);
    const leads = (one: number, two: number) => one === two || followers.has(one, two);
    return spread.flatMap((arrow) => {
      const early = members.filter((task) => leads(task, arrow.from));
      const late = members.filter((task) => leads(arrow.to, task));
      const groups = new Set(early.map((task) => held[task]!));
      const last = late.find((task) => groups.has(held[task]!));
      if (last === undefined) return [];
      const first = early.find((task) => held[task] === held[last])!;
      return [refuse(draft, arrow, { first, last, group: held[last]!, held })];
    });
  },
};

interface Pair {
  readonly first: number;
  readonly last: number;
  readonly group: number;
  readonly held: readonly number[];
}

function refuse(draft: LineDraft, { from, to, place }: Arrow, { first, last, group, held }: Pair) {
  const id = (task: number) => draft.tasks[task]!.id;
  const list = draft.groups.together.find(({ tasks }) => tasks.some(({ task }) => held[task] === group))!;
  const { line, column } = list.place;
  const message = `${id(first)} and ${id(last)} are kept together (line ${line}, column ${column}), but ${id(from)} -> ${id(to)} asks for different stations; take one of the two out`;
  return found("together-waits", draft, { severity: "error", message, place, task: id(to) });
}
