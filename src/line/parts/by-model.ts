import * as z from "zod";
import { accept, type Reading } from "../../time/reading.js";
import type { RecordDraft, TextDraft } from "../read/draft.js";
import { named } from "../read/leaf.js";
import type { ReadingRule } from "../read/reading-rules.js";
import type { ModelsDraft } from "./models.js";

type Leaf = <T>(
  rule: ReadingRule,
  description: string,
  read: (text: string) => Reading<T>,
) => z.ZodPipe<z.ZodString, z.ZodTransform<T, string>>;

/** How a value is described: for every model, for one of them, and as a whole. */
interface Described {
  readonly all: string;
  readonly one: string;
  readonly whole: string;
}

/** A value for every model, or a map with that of each, "-" where a model has none. */
export function byModelSchema<T>(
  leaf: Leaf,
  rule: ReadingRule,
  { all, one, whole }: Described,
  read: (text: string) => Reading<T>,
) {
  const orNone = (text: string): Reading<T | null> => (text.trim() === "-" ? accept(null) : read(text));
  return z
    .union([leaf(rule, all, read), z.record(named("A model."), leaf(rule, one, orNone))])
    .meta({ description: whole });
}

/** A value as it is given for every model, or by model. */
export type ByModel<T> = TextDraft<T> | RecordDraft<TextDraft<T | null>>;

/** The value of each model as it is given, one entry on a line that builds one; null where a model has none, or its own could not be read. */
export function valuesByModel<T>(
  given: ByModel<T> | undefined,
  otherwise: T,
  { models, numberOf }: ModelsDraft,
): (T | null)[] {
  const values = Array<T | null>(models.length || 1).fill(null);
  if (given?.kind !== "record") return values.fill(given === undefined ? otherwise : given.value);
  for (const { id, value } of given.entries) {
    const number = numberOf(id);
    if (number !== undefined && value !== undefined) values[number] = value.value;
  }
  return values;
}
