import type { Arrow } from "../draft-arrows.js";
import { heldWith } from "../draft-groups.js";
import { beforeOf, type LineDraft } from "../line-draft.js";
import { isLoopFree } from "../precedence.js";
import { allFollowers } from "../reach.js";
import { found, type LineRule } from "./line-rule.js";

const name = "together-waits";

export const togetherWaits: LineRule = {
  name,
  purpose: "No tasks are kept together that stations must lie between.",
  check(draft) {
    const before = beforeOf(draft);
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
  return found(name, draft, { severity: "error", message, place, task: id(to) });
}
