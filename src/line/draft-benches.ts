import type { NumberOf } from "./draft-arrows.js";
import type { LineKeys } from "./line-keys.js";
import { valuesOf } from "./line-keys.js";
import { compareNaturally } from "./natural-order.js";
import type { TextDraft } from "./read/draft.js";

type BenchKeys = NonNullable<NonNullable<LineKeys["benches"]>["entries"][number]["value"]>["at"];

/** A bench as far as it could be read. */
export interface BenchDraft {
  /** As typed. */
  readonly id: string;
  readonly place: TextDraft<string>["place"];
  readonly keys: BenchKeys;
  /** The tasks as they are named, and those of them that exist, in the order of the file, doubles among them. */
  readonly named: readonly TextDraft<string>[];
  readonly tasks: readonly { readonly task: number; readonly named: TextDraft<string> }[];
}

/** In natural order of names. */
export function draftBenches(given: LineKeys["benches"], numberOf: NumberOf): BenchDraft[] {
  const entries = [...(given?.entries ?? [])].sort((one, two) => compareNaturally(one.id, two.id));
  return entries.map(({ id, place, value }) => {
    const keys: BenchKeys = value?.at ?? {};
    const named = valuesOf(keys.tasks);
    const tasks = named.flatMap((each) => {
      const task = numberOf(each.value);
      return task === undefined ? [] : [{ task, named: each }];
    });
    return { id, place, keys, named, tasks };
  });
}
