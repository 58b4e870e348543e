import type { LineDraft } from "../line-draft.js";
import { ALL_PARTS } from "../parts/part-use.js";
import { valuesOf } from "../read/draft.js";
import { found, type LineRule, refuseUnknown } from "./line-rule.js";

export const unknownPart: LineRule = {
  name: "unknown-part",
  purpose: "Every part that is to be used evenly is a part of some task.",
  check(draft) {
    const names = [ALL_PARTS, ...namesOfParts(draft)];
    const refuse = (id: string) => `no task has a part called ${id}`;
    const used = [...valuesOf(draft.keys.level)].map((named) => ({ named, where: "level", task: null }));
    const [first] = used;
    if (first !== undefined && names.length === 1) {
      const message =
        "level: no task of this line has parts; give the tasks theirs, such as `parts: {HC-12: 2}`, or leave it out";
      return [found("unknown-part", draft, { severity: "error", message, place: first.named.place })];
    }
    return refuseUnknown("unknown-part", draft, { names, refuse }, used);
  },
};

export const partNotListed: LineRule = {
  name: "part-not-listed",
  purpose: "Where a part list exists, every part of a task stands in it.",
  check(draft) {
    const list = draft.keys["part-list"];
    if (list === undefined || list.entries.length < list.count) return [];
    const names = list.entries.map(({ id }) => id);
    const refuse = (id: string) => `no part of \`part-list\` has the number ${id}`;
    const used = draft.tasks.flatMap(({ id: task, keys }) =>
      (keys.parts?.entries ?? []).map(({ id, place }) => ({
        named: { text: id, value: id, place },
        where: `task ${task}, parts`,
        task,
      })),
    );
    return refuseUnknown("part-not-listed", draft, { names, refuse }, used);
  },
};

/** The parts of all tasks as they are written, doubles among them. */
export const namesOfParts = ({ tasks }: Pick<LineDraft, "tasks">): string[] =>
  tasks.flatMap(({ keys }) => (keys.parts?.entries ?? []).map(({ id }) => id));
