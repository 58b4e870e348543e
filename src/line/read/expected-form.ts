import { isMap, isScalar, isSeq, type Node, type Pair } from "yaml";
import * as z from "zod";
import { optionsOf } from "./schema-options.js";

/** A name that stands in YAML as it is; others are shown as dots. */
const PLAIN = /^[\p{L}\p{N}](?:[\p{L}\p{N} ._-]{0,28}[\p{L}\p{N}])?$/u;
/** So many names are shown, the others as dots. */
const SHOWN = 2;

/**
 * How a value of another kind could have been written, with the names that stand in it: `{saw: ..., glue: ...}` for a list
 * of tasks. Null where one value is expected.
 */
export function expectedForm(options: readonly z.ZodType[], written: Node, resolve: Resolve): string | null {
  const schema = options.find((option) => isMapSchema(option) || option instanceof z.ZodArray);
  if (schema === undefined) return null;
  if (schema instanceof z.ZodObject) {
    const key = keyOfMap(schema);
    const [name = "..."] = key === "id" ? wordsOf(written).filter((word) => PLAIN.test(word)) : [];
    return `{${key}: ${name}}`;
  }
  const names = namesIn(written, resolve).filter((name) => PLAIN.test(name));
  const shown = names.length === 0 ? ["..."] : names.slice(0, SHOWN);
  const more = names.length > SHOWN ? ", ..." : "";
  // A number of stations, or a time in place of a map of them, is no name.
  const areNames = names.length > (isScalar(written) ? 1 : 0);
  if (schema instanceof z.ZodRecord) {
    const entries = areNames ? shown.map((name) => `${name}: ...`) : ["NAME: ..."];
    return `{${entries.join(", ")}${more}}`;
  }
  const element = optionsOf((schema as z.ZodArray).element as z.ZodType);
  if (element.some((option) => !isMapSchema(option) && !(option instanceof z.ZodArray)))
    return `[${shown.join(", ")}${more}]`;
  const map = element.find((option) => option instanceof z.ZodObject);
  if (map === undefined) return `[[${shown.join(", ")}${more}]]`;
  const ids = areNames ? shown : ["..."];
  return `[${ids.map((name) => `{${keyOfMap(map)}: ${name}}`).join(", ")}${more}]`;
}

type Resolve = (node: unknown) => Node | null;

const isMapSchema = (schema: z.ZodType) => schema instanceof z.ZodObject || schema instanceof z.ZodRecord;

/** The key that a map is told apart by: the first that it must have, else its first. */
function keyOfMap(schema: z.ZodObject): string {
  const entries = Object.entries(schema.shape);
  const [key] = entries.find(([, inner]) => !(inner instanceof z.ZodOptional)) ?? entries[0]!;
  return key;
}

/** What a value of any kind seems to name: keys of a map, entries of a list, what stands between commas. */
function namesIn(node: Node, resolve: Resolve): string[] {
  if (isMap(node)) return (node.items as Pair[]).flatMap(({ key }) => wordsOf(resolve(key)));
  if (isSeq(node)) return node.items.flatMap((item) => nameOf(resolve(item), resolve));
  return wordsOf(node).flatMap((text) => text.split(",").map((part) => part.trim()));
}

/** An entry that is a name, or a map with its name under `id`, `task` or `name`, or with one key that is its name. */
function nameOf(node: Node | null, resolve: Resolve): string[] {
  if (!isMap(node)) return isSeq(node) ? nameOf(resolve(node.items[0]), resolve) : wordsOf(node);
  const pairs = node.items as Pair[];
  const stated = ["id", "task", "name"].flatMap((name) =>
    pairs.filter(({ key }) => wordsOf(resolve(key))[0] === name),
  );
  return wordsOf(resolve(stated.length > 0 ? stated[0]!.value : pairs[0]?.key));
}

const wordsOf = (node: Node | null): string[] =>
  isScalar(node) && node.value !== null ? [String(node.value)] : [];
