import * as z from "zod";
import type { TimeUnit } from "../time/duration.js";
import { benchesSchema } from "./parts/benches.js";
import { floorKeys } from "./parts/floor.js";
import { flowKeys } from "./parts/flow.js";
import { groupKeys } from "./parts/groups.js";
import { learningKeys } from "./parts/learning.js";
import { limitKeys } from "./parts/limits.js";
import { modelKeys } from "./parts/models.js";
import { optionsSchema } from "./parts/options.js";
import { paceKeys } from "./parts/pace.js";
import { partListKeys } from "./parts/part-list.js";
import { levelKeys } from "./parts/part-use.js";
import { policySchema } from "./parts/policy.js";
import { ratesSchema } from "./parts/rates.js";
import { resourceKeys } from "./parts/resources.js";
import { spacingKeys } from "./parts/spacing.js";
import { staffingKeys } from "./parts/staffing.js";
import { supplySchema } from "./parts/supply.js";
import { tasksSchema } from "./parts/task.js";
import { trainingKeys } from "./parts/training.js";
import { variationKeys } from "./parts/variation.js";
import type { Draft } from "./read/draft.js";
import { notHonouredYet, readBy } from "./read/leaf.js";
import type { ReadingRule } from "./read/reading-rules.js";
import { optionsOf } from "./read/schema-options.js";

const KEYS_TO_COME = ["fixed", "readings", "setup"];

/**
 * The one description of a line file: its keys, what each means, how its text is read. Every value arrives as text,
 * since the file is read without guessing at types. `unit` is what a bare task time or handling is in.
 */
export function lineFileSchema(unit: TimeUnit | null): LineFileSchema {
  const schema = schemas.get(unit) ?? describeLineFile(unit);
  schemas.set(unit, schema);
  return schema;
}

/** Made once for each unit: describing takes longer than reading a small file. */
const schemas = new Map<TimeUnit | null, LineFileSchema>();

function describeLineFile(unit: TimeUnit | null) {
  return z
    .strictObject({
      ...paceKeys(unit),
      ...floorKeys(unit),
      ...resourceKeys(),
      ...trainingKeys(),
      ...learningKeys(),
      ...groupKeys(),
      ...limitKeys(
        "Limits of each station or person, by name, in units of your own: shelf, mass lifted, marks of strain. You set the limits; the tool judges nobody's health.",
      ),
      ...modelKeys(unit),
      ...spacingKeys(),
      ...levelKeys(),
      ...partListKeys(),
      benches: benchesSchema(unit).optional(),
      ...staffingKeys(),
      ...variationKeys(),
      ...flowKeys(),
      options: optionsSchema(unit).optional(),
      rates: ratesSchema().optional(),
      policy: policySchema().optional(),
      supply: supplySchema().optional(),
      tasks: tasksSchema(unit),
    })
    .meta({ title: "linepoise line file", description: "An assembly line: its pace and its tasks." })
    .register(notHonouredYet, { keys: KEYS_TO_COME });
}

type LineFileSchema = ReturnType<typeof describeLineFile>;

/** A line file as its schema reads it: what was given and could be read, with places. */
export type LineRoot = Draft<LineFileSchema>;
export type LineKeys = LineRoot["at"];

/**
 * The JSON Schema of a line file as text, for editors: what it says of keys and kinds is generated from the one
 * description that files are read with. Text that only a reader can judge, such as "176 per day", is not judged.
 */
export function lineFileJsonSchema(): string {
  const schema = z.toJSONSchema(lineFileSchema(null), { io: "input", target: "draft-2020-12" });
  return `${JSON.stringify(schema, null, 2)}\n`;
}

/** A key of a line file, for the page of keys. */
export interface LineFileKey {
  /** The keys that lead there with a full stop between, NAME for one that the engineer chooses: `tasks.NAME.time`. Keys in a list stand below it: `stations.zone`. */
  readonly key: string;
  readonly meaning: string;
  /** The ways to write what stands there. */
  readonly written: readonly WrittenForm[];
  readonly required: boolean;
}

/** A way to write a value: by the rule that reads it or as a map of keys, which may stand in lists and below names, from outside in. */
export interface WrittenForm {
  readonly as: ReadingRule | "keys";
  readonly within: readonly ("list" | "names")[];
}

/** Every key that this version honours, in the order of the schema that files are read with. */
export function lineFileKeys(): LineFileKey[] {
  const byKey = new Map<string, LineFileKey>();
  for (const each of keysBelow(lineFileSchema(null), "")) if (!byKey.has(each.key)) byKey.set(each.key, each);
  return [...byKey.values()];
}

function keysBelow(schema: z.ZodType, path: string): LineFileKey[] {
  return optionsOf(schema).flatMap((option) => {
    if (option instanceof z.ZodRecord) return keysBelow(option.valueType as z.ZodType, `${path}NAME.`);
    if (option instanceof z.ZodArray) return keysBelow(option.element as z.ZodType, path);
    if (!(option instanceof z.ZodObject)) return [];
    return Object.entries(option.shape as Record<string, z.ZodType>).flatMap(([name, inner]) => [
      {
        key: path + name,
        meaning: meaningOf(inner),
        written: formsOf(inner),
        required: !(inner instanceof z.ZodOptional),
      },
      ...keysBelow(inner, `${path}${name}.`),
    ]);
  });
}

function meaningOf(schema: z.ZodType): string {
  return (
    schema.description ?? (schema instanceof z.ZodOptional ? meaningOf(schema.unwrap() as z.ZodType) : "")
  );
}

function formsOf(schema: z.ZodType): WrittenForm[] {
  return optionsOf(schema).flatMap((option): WrittenForm[] => {
    if (option instanceof z.ZodRecord) return inside("names", option.valueType as z.ZodType);
    if (option instanceof z.ZodArray) return inside("list", option.element as z.ZodType);
    const as = option instanceof z.ZodObject ? "keys" : readBy.get(option)?.rule;
    return as === undefined ? [] : [{ as, within: [] }];
  });
}

const inside = (around: WrittenForm["within"][number], schema: z.ZodType): WrittenForm[] =>
  formsOf(schema).map(({ as, within }) => ({ as, within: [around, ...within] }));
