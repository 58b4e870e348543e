import * as z from "zod";
import type { Reading } from "../../time/reading.js";
import { readId } from "../ids.js";
import type { ReadingRule } from "./reading-rules.js";

/** Reads a piece of text of the file; the problem it gives back is what the engineer is told. */
type Read<T> = (text: string) => Reading<T>;

/** A value that an editor's YAML parser leaves as text. `rule` names the finding when `read` refuses it. */
export function text<T>(rule: ReadingRule, description: string, read: Read<T>) {
  return leaf(rule, read, { description });
}

/** A value of which an editor's YAML parser may make a number: an id, a time, a count. */
export function textOrNumber<T>(rule: ReadingRule, description: string, read: Read<T>) {
  return leaf(rule, read, { description, type: ["string", "number"] });
}

/** The name of a thing, kept as typed. */
export function named(description: string) {
  return textOrNumber("id", description, readId);
}

/** One name, or a list of them. */
export function namedOneOrMore(description: string) {
  return z.union([named(description), z.array(named("One of them."))]).meta({ description });
}

/** A value of which an editor's YAML parser makes true or false. */
export function flag(rule: ReadingRule, description: string, read: Read<boolean>) {
  return leaf(rule, read, { description, type: "boolean" });
}

/** Describes a value that is a time, in the unit of the file where it is bare. */
export type TimeLeaf = (
  rule: "task-time" | "other-time",
  description: string,
) => ReturnType<typeof textOrNumber<number>>;

/** One word of a short list. */
export function choice<T extends string>(
  rule: ReadingRule,
  description: string,
  of: readonly T[],
  read: Read<T>,
) {
  return leaf(rule, read, { description, enum: [...of] });
}

function leaf<T>(rule: ReadingRule, read: Read<T>, meta: z.core.GlobalMeta) {
  return z
    .string()
    .transform((typed, context): T => {
      const reading = read(typed);
      if (reading.ok) return reading.value;
      context.addIssue({ code: "custom", message: reading.problem, params: { rule } });
      return z.NEVER;
    })
    .meta(meta)
    .register(readBy, { rule, read });
}

/** How each value is read, and the rule of that: what kind of text it is. */
export const readBy = z.registry<{ rule: ReadingRule; read: Read<unknown> }>();

/**
 * Keys of the design that this version does not honour, by the object that will take them. They are refused by
 * name, so that nobody believes them obeyed.
 */
export const notHonouredYet = z.registry<{ keys: readonly string[] }>();
