import { countOf } from "../../findings/count-of.js";
import { idKey } from "../ids.js";
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

export const unusedParts: LineRule = {
  name: "unused-parts",
  purpose: "Says where parts of tasks change nothing.",
  check(draft) {
    const names = new Set(namesOfParts(draft).map(idKey));
    const isSpaced = (draft.keys.spacing?.entries ?? []).some(({ id }) => names.has(idKey(id)));
    if (names.size === 0 || isSpaced || draft.places.level !== undefined) return [];
    const { parts } = draft.tasks.find(({ keys }) => keys.parts !== undefined)!.keys;
    const message = `parts: nothing asks for the ${countOf(names.size, "part")} of tasks; \`level: parts\` has the sequence use them evenly, \`spacing\` keeps units with a part apart`;
    return [found("unused-parts", draft, { severity: "note", message, place: parts!.place })];
  },
};

/** The parts of all tasks as they are written, doubles among them. */
export const namesOfParts = ({ tasks }: Pick<LineDraft, "tasks">): string[] =>
  tasks.flatMap(({ keys }) => (keys.parts?.entries ?? []).map(({ id }) => id));
