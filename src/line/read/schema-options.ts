import * as z from "zod";

/** The schemas that a value may follow: the parts of a union, without the wrapping of what may be left out. */
export function optionsOf(schema: z.ZodType): readonly z.ZodType[] {
  const known = OPTIONS.get(schema);
  if (known !== undefined) return known;
  const options = unwrapped(schema);
  OPTIONS.set(schema, options);
  return options;
}

/** Asked for at every value of a file. */
const OPTIONS = new WeakMap<z.ZodType, readonly z.ZodType[]>();

function unwrapped(schema: z.ZodType): readonly z.ZodType[] {
  if (schema instanceof z.ZodOptional) return optionsOf(schema.unwrap() as z.ZodType);
  if (schema instanceof z.ZodUnion) return (schema.options as z.ZodType[]).flatMap(optionsOf);
  return [schema];
}
