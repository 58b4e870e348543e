import * as z from "zod";
import type { Place } from "../../findings/finding.js";
import type { NumberOf } from "../ids.js";
import type { Line } from "../line.js";
import type { ObjectDraft, TextDraft } from "../read/draft.js";
import { named } from "../read/leaf.js";

/** Lists of lists of tasks: orders, and what stays together or apart. */
export const groupKeys = () => ({
  chains: groups(
    "Lists of tasks in order of work. Each task comes before the next, besides `after`.",
    "Tasks in order of work, two or more.",
  ),
  together: groups(
    "Groups of tasks that share a station, whichever it is.",
    "Two tasks or more that stay together.",
  ),
  apart: groups(
    "Groups of tasks that never share a station.",
    "Two tasks or more, each at a station of its own.",
  ),
});

function groups(description: string, each: string) {
  return z
    .array(z.array(named("A task.")).meta({ description: each }))
    .meta({ description })
    .optional();
}

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

export function draftGroups(
  given: ObjectDraft<ReturnType<typeof groupKeys>>["at"][GroupKey],
  numberOf: NumberOf,
): GroupDraft[] {
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

/** What stays together and apart, of a draft without errors. */
export function buildGroups(
  { together, apart }: Readonly<Record<GroupKey, readonly GroupDraft[]>>,
  tasks: number,
): Pick<Line, "together" | "apart"> {
  return { together: buildTogether(together, tasks), apart: buildApart(apart) };
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
