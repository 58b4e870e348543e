import { z } from "zod";
import { lineFileSchema } from "./line-file-schema.js";

/**
 * The JSON Schema of a line file as text, for editors: what it says of keys and kinds is generated from the one
 * description that files are read with. Text that only a reader can judge, such as "176 per day", is not judged.
 */
export function lineFileJsonSchema(): string {
  const schema = z.toJSONSchema(lineFileSchema(null), { io: "input", target: "draft-2020-12" });
  return `${JSON.stringify(schema, null, 2)}\n`;
}
