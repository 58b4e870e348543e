import type { Place } from "../findings/finding.js";
import type { NumberOf } from "./draft-arrows.js";
import type { LineKeys } from "./line-keys.js";
import { compareNaturally } from "./natural-order.js";
import type { TextDraft } from "./read/draft.js";

export type OptionKeys = NonNullable<NonNullable<LineKeys["options"]>["entries"][number]["value"]>["at"];

/** A block of `off-line`: its tasks as they are named, or the name of a bench. */
export type OffLineDraft =
  | { readonly kind: "bench"; readonly named: TextDraft<string>; readonly place: Place }
  | {
      readonly kind: "tasks";
      readonly named: readonly TextDraft<string>[];
      /** How many tasks are written, faulty ones among them. */
      readonly count: number;
      /** Those that exist, in the order of the file, doubles among them. */
      readonly tasks: readonly { readonly task: number; readonly place: Place }[];
      readonly place: Place;
    };

export interface OptionDraft {
  /** As typed. */
  readonly name: string;
  readonly place: Place;
  readonly keys: OptionKeys;
  readonly offLine: readonly OffLineDraft[];
  /** Other times as they are named; the task is left out where there is none of that name. */
  readonly times: readonly {
    readonly named: TextDraft<string>;
    readonly task: number | undefined;
    readonly given: TextDraft<number> | undefined;
  }[];
}

/** In natural order of names. */
export function draftOptions(given: LineKeys["options"], numberOf: NumberOf): OptionDraft[] {
  const entries = [...(given?.entries ?? [])].sort((one, two) => compareNaturally(one.id, two.id));
  return entries.map(({ id, place, value }) => {
    const keys: OptionKeys = value?.at ?? {};
    return {
      name: id,
      place,
      keys,
      offLine: (keys["off-line"]?.items ?? []).map((item) => draftOffLine(item, numberOf)),
      times: (keys.times?.entries ?? []).map((each) => ({
        named: { kind: "text", text: each.id, value: each.id, place: each.place },
        task: numberOf(each.id),
        given: each.value,
      })),
    };
  });
}

type OffLineItem = NonNullable<OptionKeys["off-line"]>["items"][number];

function draftOffLine(item: OffLineItem, numberOf: NumberOf): OffLineDraft {
  if (item.kind === "text") return { kind: "bench", named: item, place: item.place };
  const { items, count, place } = item;
  const tasks = items.flatMap((each) => {
    const task = numberOf(each.value);
    return task === undefined ? [] : [{ task, place: each.place }];
  });
  return { kind: "tasks", named: items, count, tasks, place };
}
