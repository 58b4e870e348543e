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
  // A map under names is a list of them, where one is taken.
  const isList = (option: z.ZodType) => option instanceof z.ZodArray;
  const schema =
    (isMap(written) ? options.find(isList) : undefined) ??
    options.find((option) => isMapSchema(option) || isList(option));
  if (schema === undefined) return null;
  const names = namesIn(written, resolve).filter((name) => PLAIN.test(name));
  if (schema instanceof z.ZodObject) return mapForm(schema, names[0], isScalar(written));
  const more = names.length > SHOWN ? ", ..." : "";
  // A number of stations, or a time in place of a map of them, is no name.
  const areNames = names.length > (isScalar(written) ? 1 : 0);
  const shown = areNames ? names.slice(0, SHOWN) : ["..."];
  if (schema instanceof z.ZodRecord) {
    const isNamed = areNames && !names.some((name) => Number.isFinite(Number(name)));
    const entries = isNamed ? shown.map((name) => `${name}: ...`) : ["NAME: ..."];
    return `{${entries.join(", ")}${isNamed ? more : ""}}`;
  }
  const element = optionsOf((schema as z.ZodArray).element as z.ZodType);
  const listed = `${(names.length > 0 ? names.slice(0, SHOWN) : ["..."]).join(", ")}${more}`;
  if (element.some((option) => !isMapSchema(option) && !(option instanceof z.ZodArray))) return `[${listed}]`;
  const map = element.find((option) => option instanceof z.ZodObject);
  if (map === undefined) return `[[${listed}]]`;
  if (keysOfMap(map).join() !== "id") return `[${mapForm(map)}]`;
  return `[${shown.map((name) => mapForm(map, name)).join(", ")}${more}]`;
}

type Resolve = (node: unknown) => Node | null;

const isMapSchema = (schema: z.ZodType) => schema instanceof z.ZodObject || schema instanceof z.ZodRecord;

/** The keys that a map is told apart by: its `id` and those that it must have, else its first. */
function keysOfMap({ shape }: z.ZodObject): string[] {
  const all = Object.keys(shape);
  const told = all.filter((key) => key === "id" || !(shape[key] instanceof z.ZodOptional));
  return told.length > 0 ? told : all.slice(0, 1);
}

/** @param isName whether the name is one that an `id` takes; a `task` takes any */
function mapForm(schema: z.ZodObject, name = "...", isName = true): string {
  const shownAt = (key: string) => {
    const isList = optionsOf(schema.shape[key] as z.ZodType).every((option) => option instanceof z.ZodArray);
    return key === "task" || (key === "id" && isName) ? name : isList ? "[...]" : "...";
  };
  return `{${keysOfMap(schema)
    .map((key) => `${key}: ${shownAt(key)}`)
    .join(", ")}}`;
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
