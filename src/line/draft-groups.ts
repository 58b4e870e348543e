import type { Place } from "../findings/finding.js";
import type { NumberOf } from "./draft-arrows.js";
import type { LineKeys } from "./line-keys.js";
import type { TextDraft } from "./read/draft.js";

export const GROUP_KEYS = ["together", "apart"] as const;
export type GroupKey = (typeof GROUP_KEYS)[number];

/** Tasks of `together` or `apart` as far as they exist, in the order of the file, doubles among them. */
export interface GroupDraft {
  readonly named: readonly TextDraft<string>[];
  /** How many tasks are written, faulty ones among them. */
  readonly count: number;
  readonly tasks: readonly { readonly task: number; readonly place: Place }[];
  readonly place: Place;
}

export function draftGroups(given: LineKeys[GroupKey], numberOf: NumberOf): GroupDraft[] {
  return (given?.items ?? []).map(({ items, count, place }) => ({
    named: items,
    count,
    tasks: items.flatMap((each) => {
      const task = numberOf(each.value);
      return task === undefined ? [] : [{ task, place: each.place }];
    }),
    place,
  }));
}

/** For each task the smallest number among the tasks that groups hold together with it, itself where none do. */
export function heldWith(groups: readonly GroupDraft[], tasks: number): number[] {
  const first = Array.from({ length: tasks }, (_, task) => task);
  const find = (task: number): number => {
    let at = task;
    while (first[at] !== at) at = first[at] = first[first[at]!]!;
    return at;
  };
  for (const { tasks: members } of groups) {
    for (const { task } of members) {
      const [one, two] = [find(members[0]!.task), find(task)];
      first[Math.max(one, two)] = Math.min(one, two);
    }
  }
  return first.map((_, task) => find(task));
}
