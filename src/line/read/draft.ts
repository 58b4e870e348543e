import type * as z from "zod";
import type { Place } from "../../findings/finding.js";

/** What could be read of a file, each value with its place: faulty parts are undefined or left out. */
export type Draft<Schema> =
  Schema extends z.ZodOptional<infer Inner>
    ? Draft<Inner>
    : Schema extends z.ZodObject<infer Shape>
      ? ObjectDraft<Shape>
      : Schema extends z.ZodRecord<infer _Key, infer Value>
        ? RecordDraft<Draft<Value>>
        : Schema extends z.ZodArray<infer Element>
          ? ListDraft<Draft<Element>>
          : Schema extends z.ZodUnion<infer Options extends readonly z.core.SomeType[]>
            ? Draft<Options[number]>
            : TextDraft<z.output<Schema>>;

export interface TextDraft<Value> {
  readonly kind: "text";
  readonly text: string;
  readonly value: Value;
  readonly place: Place;
}

export interface ListDraft<Item> {
  readonly kind: "list";
  readonly items: readonly Item[];
  /** How many items are written, faulty ones among them. */
  readonly count: number;
  readonly place: Place;
}

/** A map whose keys are ids; in the order of the file, the first of equal ids only. */
export interface RecordDraft<Value> {
  readonly kind: "record";
  readonly entries: readonly RecordEntry<Value>[];
  /** How many entries are written, faulty ones among them. */
  readonly count: number;
  readonly place: Place;
}

export interface RecordEntry<Value> {
  /** As typed. */
  readonly id: string;
  /** Where the id is typed. */
  readonly place: Place;
  readonly value: Value | undefined;
}

/** A map whose keys are known; `at` holds what was given and could be read, `keys` the place of every key given. */
export interface ObjectDraft<Shape> {
  readonly kind: "object";
  readonly at: { readonly [Key in keyof Shape]?: Draft<Shape[Key]> };
  readonly keys: { readonly [Key in keyof Shape]?: Place };
  readonly place: Place;
}

/** What a key that takes one value or a list of them holds. */
export type OneOrMore<Value> = TextDraft<Value> | ListDraft<TextDraft<Value>>;

/** The values of such a key, in the order of the file; none where it is left out. */
export function valuesOf<Value>(given: OneOrMore<Value> | undefined): readonly TextDraft<Value>[] {
  if (given === undefined) return [];
  return given.kind === "list" ? given.items : [given];
}
