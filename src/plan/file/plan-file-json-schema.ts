import { z } from "zod";
import { planFileSchema } from "./plan-file-schema.js";

/** The JSON Schema of a plan file as text, for editors, from the one description that plan files are read with. */
export function planFileJsonSchema(): string {
  const schema = z.toJSONSchema(planFileSchema, { io: "input", target: "draft-2020-12" });
  return `${JSON.stringify(schema, null, 2)}\n`;
}
