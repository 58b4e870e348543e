import { z } from "zod";
import { optionsOf } from "../read/read-shape.js";
import { lineFileSchema } from "./line-file-schema.js";

/** A key of a line file for the table of keys in the README. */
export interface LineFileKey {
  /** The keys that lead there with a full stop between, NAME for one that the engineer chooses: `tasks.NAME.time`. Keys in a list stand below it: `stations.zone`. */
  readonly key: string;
  readonly meaning: string;
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
      { key: path + name, meaning: meaningOf(inner) },
      ...keysBelow(inner, `${path}${name}.`),
    ]);
  });
}

function meaningOf(schema: z.ZodType): string {
  return (
    schema.description ?? (schema instanceof z.ZodOptional ? meaningOf(schema.unwrap() as z.ZodType) : "")
  );
}
