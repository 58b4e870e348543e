import { isMap, isScalar, isSeq, type Node } from "yaml";
import { z } from "zod";

/** The schemas that a value may follow: the parts of a union, without the wrapping of what may be left out. */
export function optionsOf(schema: z.ZodType): z.ZodType[] {
  if (schema instanceof z.ZodOptional) return optionsOf(schema.unwrap() as z.ZodType);
  if (schema instanceof z.ZodUnion) return (schema.options as z.ZodType[]).flatMap(optionsOf);
  return [schema];
}

/** Whether the schema is for a node of this kind: a map, a list, or one piece of text. */
export function takes(schema: z.ZodType, node: Node | null): boolean {
  return node !== null && kindOf(schema) === kindOfNode(node);
}

/** "a map", "a list" or "one value", in the words of a message. */
export function kindOf(schema: z.ZodType): string {
  if (schema instanceof z.ZodObject || schema instanceof z.ZodRecord) return "a map";
  return schema instanceof z.ZodArray ? "a list" : "one value";
}

export function kindOfNode(node: Node): string {
  if (isMap(node)) return "a map";
  return isSeq(node) ? "a list" : "one value";
}

/** The text of a node that is one value, or null. Nothing at all is the empty text. */
export function textOf(node: Node | null): string | null {
  return isScalar(node) ? String(node.value ?? "") : null;
}
