import { readdirSync } from "node:fs";
import { Document, parse } from "yaml";
import { type LineFileKey, lineFileKeys, type WrittenForm } from "../../src/line/line-file.js";
import { STARTER_LINE_FILE } from "../../src/line/starter.js";
import { readPage, root } from "./read-page.js";

/** Line files that examples of keys are taken from, the first that has a key first. */
export const EXAMPLE_FILES: readonly string[] = [
  "examples/cargo-bike.line.yaml",
  "examples/two-models.line.yaml",
  "examples/basket.line.yaml",
  "examples/wheels.line.yaml",
  ...readdirSync(`${root}tests/readme/keys`).map((name) => `tests/readme/keys/${name}`),
  "examples/packing.line.yaml",
];

const examples: readonly unknown[] = [...EXAMPLE_FILES.map(readPage), STARTER_LINE_FILE].map((text) =>
  parse(text),
);

/** How a value is written, by the rule that reads it. */
const WRITTEN: Partial<Record<WrittenForm["as"], string>> = {
  keys: "map",
  blank: "text",
  id: "name",
  unit: "unit of time",
  demand: "number per period",
  supply: "number per period",
  money: "number",
  "overtime-pay": "%",
  share: "%",
  handling: "time",
  "task-time": "time",
  "other-time": "time",
  training: "time with its unit",
  delivery: "time with its unit",
  breakdown: "time with its unit",
  "calendar-time": "time with its unit",
  "calendar-count": "number",
  "model-amount": "% or whole number",
  spacing: "number in number",
  count: "whole number",
  quantity: "whole number",
  choice: "one word",
  "yes-no": "true or false",
  mass: "kg",
  distance: "mm, cm or m",
  angle: "deg",
  lifts: "number",
  amount: "number and unit",
  clock: "hh:mm",
};

const KEYS = lineFileKeys();
const below = (key: string) => KEYS.filter((each) => each.key.startsWith(`${key}.`));
/** What stands below a key, told without the key itself. */
const contents = (key: string) =>
  JSON.stringify(below(key).map((each) => [each.key.slice(key.length), each.meaning]));

/** The key with the shortest name that has the same keys below it, where the page tells them. */
function toldAt({ key }: LineFileKey): string {
  const inner = contents(key);
  if (inner === "[]") return key;
  const same = KEYS.map((each) => each.key).filter((each) => contents(each) === inner);
  return same.sort((one, two) => one.split(".").length - two.split(".").length)[0]!;
}

/** The keys that have a row of their own: what stands below another key in the same words is told once. */
export const ROWS: readonly LineFileKey[] = (() => {
  const told = KEYS.filter((each) => toldAt(each) !== each.key);
  return KEYS.filter(({ key }) => !told.some((each) => key.startsWith(`${each.key}.`)));
})();

/** `KEY, KEY, ...`: a row for each of these keys at the top of a line file and for every key below it. */
export function keyTable(of: string): string {
  const wanted = of.split(", ");
  const rows = ROWS.filter(({ key }) => wanted.includes(key.split(".")[0]!));
  return [
    "| key | meaning | written as | default | example |",
    "| --- | --- | --- | --- | --- |",
    ...rows.map(keyRow),
  ].join("\n");
}

function keyRow(row: LineFileKey): string {
  const { text, otherwise } = meaningAndDefault(row.meaning);
  const told = toldAt(row);
  const meaning = told === row.key ? text : `${text} Its keys are those of \`${told}\`.`;
  const written = [...new Set(row.written.map(formText))].join(" or ");
  const example = exampleOf(row.key);
  return `| ${[
    `\`${row.key}\`${row.required ? " (needed)" : ""}`,
    meaning,
    written,
    otherwise,
    example === null ? "" : `\`${example}\``,
  ]
    .map((cell) => cell.replaceAll("|", "\\|"))
    .join(" | ")} |`;
}

/** `[name, ...]` for a list, `{NAME: time}` for a map by names, in code where it is not one word alone. */
function formText({ as, within }: WrittenForm): string {
  const text = WRITTEN[as];
  if (text === undefined) throw new Error(`the page does not say how ${as} is written`);
  const around = (inner: string, each: "list" | "names") =>
    each === "list" ? `[${inner}, ...]` : `{NAME: ${inner}}`;
  return within.length === 0 ? text : `\`${within.reduceRight(around, text)}\``;
}

/** The schema's own text, and what holds where the key is left out, which its last sentence says. */
function meaningAndDefault(meaning: string): { text: string; otherwise: string } {
  const [, text = meaning, otherwise = ""] = /^(.*) Default: (.*)\.$/u.exec(meaning) ?? [];
  return { text, otherwise };
}

/** Longer examples are left to the example files. */
const MOST_LETTERS = 60;

/** The key with a value as an example file has it, on one line; null where every one is long, or a map of keys that are told below. */
export function exampleOf(key: string): string | null {
  const name = key.split(".").at(-1)!;
  const isMap = (value: unknown) => typeof value === "object" && !Array.isArray(value);
  const found = examples
    .flatMap((file) => valuesAt(file, key.split(".")))
    .filter((value) => below(key).length === 0 || !isMap(value));
  const lines = found.map((value) => {
    const document = new Document({ [name]: value });
    return document.toString({ collectionStyle: "flow", lineWidth: 0, flowCollectionPadding: false }).trim();
  });
  const line = lines.find((each) => each.length <= MOST_LETTERS);
  return line === undefined ? null : line.replace(/^\{(.*)\}$/u, "$1").replace(/^"(.*?)":/u, "$1:");
}

/** Every value that a file has at a path of keys; NAME stands for any key, and lists are looked through on the way. */
function valuesAt(node: unknown, [key, ...rest]: readonly string[]): unknown[] {
  if (key === undefined) return [node];
  if (Array.isArray(node)) return node.flatMap((each) => valuesAt(each, [key, ...rest]));
  if (node === null || typeof node !== "object") return [];
  if (key === "NAME") return Object.values(node).flatMap((each) => valuesAt(each, rest));
  return Object.hasOwn(node, key) ? valuesAt((node as Record<string, unknown>)[key], rest) : [];
}
