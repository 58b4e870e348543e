import { isMap, isScalar, isSeq, type Node, type Pair, Scalar, type YAMLMap, type YAMLSeq } from "yaml";
import * as z from "zod";
import { addTo } from "../../findings/add-to.js";
import { type Finding, finding, type Place, type Severity } from "../../findings/finding.js";
import { nearestNames, nearestWords } from "../../findings/nearest.js";
import { visibleText } from "../../findings/visible-text.js";
import { quoted } from "../../time/quoted.js";
import { idKey } from "../ids.js";
import type { Draft } from "./draft.js";
import { expectedForm } from "./expected-form.js";
import { notHonouredYet, readBy } from "./leaf.js";
import type { YamlNodes } from "./parse-yaml.js";
import type { ReadingRule } from "./reading-rules.js";
import { optionsOf } from "./schema-options.js";
import { keysOfTrade, tradeWords } from "./trade-words.js";

const START: Place = { line: 1, column: 1, endColumn: 2 };

/**
 * Reads a node of the file against its schema. Whatever is right is in the draft, whatever is wrong is a finding:
 * one fault never hides another.
 */
export function readShape<Schema extends z.ZodType>(
  schema: Schema,
  tree: YamlNodes,
): { draft: Draft<Schema> | undefined; findings: Finding[] } {
  const reader = new ShapeReader(tree);
  const draft = reader.read(schema, tree.root, { path: null, place: START }) as Draft<Schema> | undefined;
  return { draft, findings: reader.findings };
}

/** Where the reader stands: the keys that lead there, and the place to name where the value itself has none. */
interface Spot {
  /** Null at the top of the file. */
  readonly path: Path | null;
  readonly place: Place;
  /** The value is an entry of the list at that path. */
  readonly inList?: boolean;
}

interface Entry {
  /** As typed. */
  readonly key: string;
  /** What it is compared by. */
  readonly name: string;
  readonly place: Place;
  readonly value: unknown;
}

class ShapeReader {
  readonly findings: Finding[] = [];
  readonly #tree: YamlNodes;

  constructor(tree: YamlNodes) {
    this.#tree = tree;
  }

  /** The draft of a node, or undefined where nothing of it can be read. */
  read(schema: z.ZodType, written: unknown, spot: Spot): unknown {
    const place = this.#tree.whereIs(written, spot.place);
    const node = written === null ? new Scalar("") : this.#tree.resolve(written);
    const options = optionsOf(schema);
    const taker = options.find((option) => takes(option, node));
    const at = { ...spot, place };
    if (taker === undefined) return this.#refuseKind(options, node, at);
    if (options.length > 1 && isMap(node) && this.#isUnderNames(taker, node))
      return this.#refuseKind(
        options,
        node,
        at,
        node.items.length > 1 ? "a map under names" : "a map under a name",
      );
    if (taker instanceof z.ZodObject) return this.#readObject(taker, node as YAMLMap, at);
    if (taker instanceof z.ZodRecord) return this.#readRecord(taker, node as YAMLMap, at);
    if (taker instanceof z.ZodArray) return this.#readList(taker, node as YAMLSeq, at);
    this.#warnOfComment(node, at);
    return this.#readText(taker, textOf(node)!, at);
  }

  /** A comment that looks like the rest of the value: one without a blank behind its #, or any behind words of caution. */
  #warnOfComment(node: Node | null, { path }: Spot): void {
    const comment = this.#tree.commentAfter(node);
    if (comment === null || (/^#[\s#!]/u.test(comment.text) && path?.key !== "caution")) return;
    const message = `the value ends before ${quoted(comment.text)}, as " #" begins a comment; quote the value where this belongs to it`;
    this.#report("comment-cuts", message, path, comment.place, "warning");
  }

  #readText(schema: z.ZodType, typed: string, { path, place }: Spot) {
    const { rule, read } = readBy.get(schema)!;
    const reading = read(typed);
    if (reading.ok) return { kind: "text", text: typed, value: reading.value, place };
    this.#report(typed.trim() === "" ? "blank" : rule, reading.problem, path, place);
    return undefined;
  }

  #readList(schema: z.ZodArray, node: YAMLSeq, { path, place }: Spot) {
    const element = schema.element as z.ZodType;
    if (node.items.length > 0 && node.items.every((item) => this.#isOfWrongKind(element, item))) {
      this.#refuseEntries(schema, node, { path, place });
      return { kind: "list", items: [], count: node.items.length, place };
    }
    const items = node.items.map((item) =>
      this.read(element, item, { path, place: this.#tree.pointOf(item) ?? place, inList: true }),
    );
    return { kind: "list", items: items.filter((item) => item !== undefined), count: items.length, place };
  }

  #readRecord(schema: z.ZodRecord, node: YAMLMap, { path, place }: Spot) {
    const entries = [];
    const valueType = schema.valueType as z.ZodType;
    const areOther = this.#areOfOtherKind(valueType, node);
    if (areOther) this.#refuseValues(schema, node, { path, place });
    for (const { key, place: keyPlace, value } of this.#readKeys(node, "duplicate-id", { path, place })) {
      if (this.#readText(schema.keyType as z.ZodType, key, { path, place: keyPlace }) === undefined) continue;
      const inner = { path: { above: path, key }, place: keyPlace };
      entries.push({
        id: key,
        place: keyPlace,
        value: areOther ? undefined : this.read(valueType, value, inner),
      });
    }
    return { kind: "record", entries, count: node.items.length, place };
  }

  #readObject(schema: z.ZodObject, node: YAMLMap, { path, place }: Spot) {
    const at: Record<string, unknown> = {};
    const keys: Record<string, Place> = {};
    const cutLists = new Map<Entry, Entry[]>();
    const meant = new Set<string>();
    let list: Entry | null = null;
    for (const entry of this.#readKeys(node, "duplicate-key", { path, place })) {
      const { name } = entry;
      const inner = Object.hasOwn(schema.shape, name) ? (schema.shape[name] as z.ZodType) : undefined;
      if (inner === undefined) {
        // Only inside braces may a key stand without a colon.
        if (entry.value === null && list !== null) addTo(cutLists, list, entry);
        else for (const each of this.#refuseKey(schema, name, entry.place, path)) meant.add(each);
        continue;
      }
      keys[name] = entry.place;
      at[name] = this.read(inner, entry.value, { path: { above: path, key: name }, place: entry.place });
      list = optionsOf(inner).some((option) => option instanceof z.ZodArray) ? entry : null;
    }
    for (const [entry, others] of cutLists) this.#refuseCutList(entry, others, path);
    for (const [name, inner] of neededKeys(schema))
      if (keys[name] === undefined && !meant.has(name)) this.#refuseMissing(name, inner, path, place);
    return { kind: "object", at, keys, place };
  }

  /** The keys of a map as typed, without those that are no text and without all but the first of equal ones. */
  #readKeys(node: YAMLMap, doubleRule: ReadingRule, spot: Spot): Entry[] {
    const first = new Map<string, Place>();
    const entries: Entry[] = [];
    for (const { key: written, value } of node.items as Pair[]) {
      const key = textOf(this.#tree.resolve(written));
      const own = this.#tree.whereIs(written, spot.place);
      const place = own === spot.place ? this.#tree.whereIs(value, own) : own;
      if (key === null) {
        this.#report("key-not-text", "a key is one piece of text, not a list or a map", spot.path, place);
        continue;
      }
      if (key === "<<" && isScalar(written) && written.type === Scalar.PLAIN) {
        this.#report("merge-key", "merge keys (<<) are not taken; write the keys out", spot.path, place);
        continue;
      }
      const name = idKey(key);
      const before = first.get(name);
      if (before !== undefined) this.#refuseDouble(doubleRule, key, before, spot.path, place);
      else {
        first.set(name, place);
        entries.push({ key, name, place, value });
      }
    }
    return entries;
  }

  #refuseDouble(rule: ReadingRule, key: string, first: Place, path: Path | null, place: Place): void {
    const message = `${quoted(key)} stands here a second time; the first is in line ${first.line}, column ${first.column}`;
    this.#report(rule, message, path, place);
  }

  /** The key that was meant, where that can be told: it is then not missing besides. */
  #refuseKey(schema: z.ZodObject, key: string, place: Place, path: Path | null): readonly string[] {
    const toCome = notHonouredYet.get(schema)?.keys ?? [];
    const known = Object.keys(schema.shape);
    if (toCome.includes(key)) {
      const message = `\`${key}\` is known, but not honoured yet: this version would ignore it, so it refuses it`;
      this.#report("not-honoured-yet", `${message}${nearestWords(key, known)}`, path, place);
      return [];
    }
    const told = tradeWords(key, known);
    const meant = told || nearestWords(key, known);
    // {time: 1,1 min} and {most: 2,000 kg}: what stands behind the comma is a part of a number, and no key.
    const [, digits = ""] = /^(\d+)(?:\s*(?:%|[a-z]{1,4}))?$/iu.exec(key.trim()) ?? [];
    const thousands = digits.length === 3 ? "digits stand together, " : "";
    const comma = digits === "" ? "" : `; ${thousands}decimals take a point: a comma begins the next key`;
    const all = meant === "" && comma === "" ? `; keys are ${known.join(", ")}` : "";
    this.#report("unknown-key", `no key ${quoted(key)} is known here${meant}${comma}${all}`, path, place);
    const keys =
      told === "" ? nearestNames(key, known) : keysOfTrade(key).filter((each) => known.includes(each));
    return keys.length === 1 ? keys : [];
  }

  /** Values that stand behind a comma inside braces: `{after: a, b}` has a key `b` and no list. */
  #refuseCutList({ key, value }: Entry, others: readonly Entry[], path: Path | null): void {
    const [second] = others;
    const first = textOf(this.#tree.resolve(value)) ?? "...";
    const list = [first, ...others.map((each) => each.key)].map(visibleText).join(", ");
    // That the first of them is no list is the same fault.
    const written = this.#tree.whereIs(value, second!.place);
    const told = this.findings.findIndex(({ rule, place }) => rule === "wrong-kind" && isAt(place, written));
    if (told >= 0) this.findings.splice(told, 1);
    const message = `inside braces a comma begins the next key, here ${quoted(second!.key)}; a list takes brackets: \`${key}: [${list}]\``;
    this.#report("unknown-key", message, path, second!.place);
  }

  #refuseMissing(name: string, inner: z.ZodType, path: Path | null, place: Place): void {
    const [, meaning = ""] = /^(.*?)\.(?: |$)/u.exec(inner.description ?? "") ?? [];
    const said = meaning === "" ? "" : ` (${meaning.charAt(0).toLowerCase()}${meaning.slice(1)})`;
    this.#report("missing-key", `\`${name}\` is missing${said}`, path, place);
  }

  #isOfWrongKind(schema: z.ZodType, written: unknown): boolean {
    const node = this.#tree.resolve(written);
    if (isMap(node) && this.#isUnderName(schema, node)) return true;
    return this.#isOfOtherKind(schema, node);
  }

  #isOfOtherKind(schema: z.ZodType, node: Node | null): boolean {
    return (
      node !== null && textOf(node)?.trim() !== "" && !optionsOf(schema).some((option) => takes(option, node))
    );
  }

  /** Several values of a record, of which none is of a kind that is expected. */
  #areOfOtherKind(schema: z.ZodType, node: YAMLMap): boolean {
    return (
      node.items.length > 1 &&
      (node.items as Pair[]).every(({ value }) => this.#isOfOtherKind(schema, this.#tree.resolve(value)))
    );
  }

  /** `{S1: ...}` where the keys of a station are expected: no key of it, nor anything like one. */
  #isUnderName(schema: z.ZodType, node: YAMLMap): boolean {
    const expected = optionsOf(schema).find((option) => option instanceof z.ZodObject);
    return expected !== undefined && node.items.length === 1 && this.#isUnderNames(expected, node);
  }

  /** The same of one key or of several. */
  #isUnderNames(expected: z.ZodType, node: YAMLMap): boolean {
    if (!(expected instanceof z.ZodObject) || node.items.length === 0) return false;
    const known = Object.keys(expected.shape);
    return (node.items as Pair[]).every((pair) => {
      const key = textOf(this.#tree.resolve(pair.key));
      return (
        key !== null &&
        !known.includes(key) &&
        tradeWords(key, known) === "" &&
        nearestNames(key, known).length === 0
      );
    });
  }

  /** A list with no entry of the right kind is written in another form: that is one fault, and not one an entry. */
  #refuseEntries(schema: z.ZodArray, node: YAMLSeq, { path, place }: Spot): void {
    const element = schema.element as z.ZodType;
    const kinds = node.items.map((item) => {
      const entry = this.#tree.resolve(item)!;
      return isMap(entry) && this.#isUnderName(element, entry) ? "a map under a name" : kindOfNode(entry);
    });
    const written = [...new Set(kinds)].join(" or ");
    const expected = expectedKinds(optionsOf(element));
    const message = `each entry is ${written} here; ${expected} is expected`;
    this.#report("wrong-kind", `${message}${this.#formOf([schema], node, { path, place })}`, path, place);
  }

  /** The same of a record, whose values are then not judged one by one. */
  #refuseValues(schema: z.ZodRecord, node: YAMLMap, spot: Spot): void {
    const kinds = (node.items as Pair[]).map(({ value }) => kindOfNode(this.#tree.resolve(value)!));
    const expected = expectedKinds(optionsOf(schema.valueType as z.ZodType));
    const message = `each entry is ${[...new Set(kinds)].join(" or ")} here; ${expected} is expected`;
    this.#report("wrong-kind", `${message}${this.#formOf([schema], node, spot)}`, spot.path, spot.place);
  }

  /** How the value of this key could be written, in words that end a message. */
  #formOf(options: readonly z.ZodType[], node: Node, { path, inList }: Spot): string {
    const form = expectedForm(options, node, (written) => this.#tree.resolve(written));
    if (path === null) return "";
    if (form === null) return inList ? "" : this.#valueForm(options, node, path);
    return `, such as \`${inList ? "" : `${path.key}: `}${form}\``;
  }

  /** `city: 60 %` for `city: {share: 60 %}`: the one of its values that may stand there by itself. */
  #valueForm(options: readonly z.ZodType[], node: Node, { key }: Path): string {
    const typed = isMap(node)
      ? (node.items as Pair[]).flatMap(({ value }) => textOf(this.#tree.resolve(value)) ?? [])
      : [];
    const [found, ...others] = typed.filter((text) =>
      options.some((option) => readBy.get(option)?.read(text).ok),
    );
    return found === undefined || others.length > 0 ? "" : `, such as \`${visibleText(`${key}: ${found}`)}\``;
  }

  #refuseKind(
    options: readonly z.ZodType[],
    node: Node | null,
    spot: Spot,
    written = node === null ? "" : kindOfNode(node),
  ): undefined {
    const { path, place } = spot;
    const expected = expectedKinds(options);
    if (textOf(node)?.trim() === "") {
      this.#report(
        "blank",
        `nothing is written here; ${expected} is expected, or leave the key out`,
        path,
        place,
      );
    } else if (node !== null) {
      const message = `${written} is written here; ${expected} is expected`;
      this.#report("wrong-kind", `${message}${this.#formOf(options, node, spot)}`, path, place);
    }
    return undefined;
  }

  #report(
    rule: ReadingRule,
    message: string,
    path: Path | null,
    place: Place,
    severity: Severity = "error",
  ): void {
    const keys = keysOf(path);
    const words = pathWords(keys);
    const { file } = this.#tree;
    const said = words === "" ? message : `${words}: ${message}`;
    this.findings.push(finding({ rule, severity, message: said, file, place, task: taskOf(keys) }));
  }
}

const isAt = (one: Place | null, other: Place): boolean =>
  one !== null && one.line === other.line && one.column === other.column;

/** The key that leads to a value, and those above it. */
interface Path {
  readonly above: Path | null;
  readonly key: string;
}

/** The keys that lead to a value, from the top of the file. */
function keysOf(path: Path | null): string[] {
  const keys: string[] = [];
  for (let at = path; at !== null; at = at.above) keys.unshift(at.key);
  return keys;
}

/** Maps whose keys are names of things, by what one of those is called. */
const NAMED: Readonly<Record<string, string>> = { tasks: "task", shifts: "shift", options: "option" };

/** The path in words: `task load-frame, time`; `shift early, breaks, meal`; `uptime`; nothing at the top. */
function pathWords(path: readonly string[]): string {
  const from = path.findIndex((key, at) => at < path.length - 1 && Object.hasOwn(NAMED, key));
  if (from < 0) return path.join(", ");
  return [`${NAMED[path[from]!]} ${path[from + 1]}`, ...path.slice(from + 2)].join(", ");
}

/** The id of the task that the path leads into, or null. */
function taskOf(path: readonly string[]): string | null {
  return path[0] === "tasks" ? (path[1] ?? null) : null;
}

/** The keys that a map of this schema must have. */
function neededKeys(schema: z.ZodObject): readonly (readonly [string, z.ZodType])[] {
  const known = NEEDED.get(schema);
  if (known !== undefined) return known;
  const all = Object.entries(schema.shape) as [string, z.ZodType][];
  const needed = all.filter(([, inner]) => !(inner instanceof z.ZodOptional));
  NEEDED.set(schema, needed);
  return needed;
}

/** Asked for at every map of a file. */
const NEEDED = new WeakMap<z.ZodObject, readonly (readonly [string, z.ZodType])[]>();

/** Whether the schema is for a node of this kind: a map, a list, or one piece of text. */
export function takes(schema: z.ZodType, node: Node | null): boolean {
  return node !== null && kindOf(schema) === kindOfNode(node);
}

/** "a map", "a list" or "one value", in the words of a message. */
function kindOf(schema: z.ZodType): string {
  if (schema instanceof z.ZodObject || schema instanceof z.ZodRecord) return "a map";
  return schema instanceof z.ZodArray ? "a list" : "one value";
}

const expectedKinds = (options: readonly z.ZodType[]): string => {
  const kinds = [...new Set(options.map(kindOf))];
  return [kinds.slice(0, -1).join(", "), kinds.at(-1)!].filter((part) => part !== "").join(" or ");
};

function kindOfNode(node: Node): string {
  if (isMap(node)) return "a map";
  return isSeq(node) ? "a list" : "one value";
}

/** The text of a node that is one value, or null. Nothing at all is the empty text. */
export function textOf(node: Node | null): string | null {
  return isScalar(node) ? String(node.value ?? "") : null;
}
