import type { Draft, ListDraft, TextDraft } from "./read/draft.js";
import type { LineFileSchema } from "./schema/line-file-schema.js";

/** A line file as its schema reads it: what was given and could be read, with places. */
export type LineRoot = Draft<LineFileSchema>;
export type LineKeys = LineRoot["at"];

export type TaskValue = NonNullable<NonNullable<LineKeys["tasks"]>["entries"][number]["value"]>;
export type TaskKeys = Extract<TaskValue, { kind: "object" }>["at"];
type AfterKey = NonNullable<TaskKeys["after"]>;
/** One entry of `after`: a task, or a map that names one. */
export type AfterValue =
  | Exclude<AfterKey, { kind: "list" }>
  | Extract<AfterKey, { kind: "list" }>["items"][number];
export type StationKeys = NonNullable<LineKeys["stations"]>["items"][number]["at"];

/** What a key that takes one value or a list of them holds. */
export type OneOrMore<Value> = TextDraft<Value> | ListDraft<TextDraft<Value>>;

/** The values of such a key, in the order of the file; none where it is left out. */
export function valuesOf<Value>(given: OneOrMore<Value> | undefined): readonly TextDraft<Value>[] {
  if (given === undefined) return [];
  return given.kind === "list" ? given.items : [given];
}
