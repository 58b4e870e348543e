import type { Draw } from "./draw.js";

/** What a file says before it is written: text, a list, or keys in order. */
export type Tree = string | Tree[] | Map<string, Tree>;

const PLAIN = /^[A-Za-z][A-Za-z0-9 _%/.-]*$|^\d+(?:\.\d+)?(?: (?:%|[a-z]+(?: per [a-z]+)?))?$/;
const WORDS = /^(?:null|true|false|yes|no|on|off|y|n)$|\s$/i;

/** A text as YAML takes it: plain where that is safe, now and then quoted without need. */
function scalar(text: string, draw: Draw): string {
  const isPlain = PLAIN.test(text) && !WORDS.test(text);
  if (isPlain && !draw.once(20)) return text;
  return draw.once(2) && !/[\p{Cc}\p{Surrogate}\u2028\u2029\ufeff]/u.test(text)
    ? `'${text.replaceAll("'", "''")}'`
    : JSON.stringify(text);
}

function flow(tree: Tree, draw: Draw): string {
  if (typeof tree === "string") return scalar(tree, draw);
  if (Array.isArray(tree)) return `[${tree.map((each) => flow(each, draw)).join(", ")}]`;
  return `{${[...tree].map(([key, value]) => `${scalar(key, draw)}: ${flow(value, draw)}`).join(", ")}}`;
}

/** The tree as YAML, in blocks outside and mostly between braces inside. */
export function yamlOf(tree: Map<string, Tree>, draw: Draw): string {
  const lines: string[] = [];
  const block = (value: Tree, key: string, indent: string, isFlow: boolean) => {
    if (typeof value === "string" || isFlow || (Array.isArray(value) ? value.length : value.size) === 0) {
      lines.push(`${indent}${key} ${flow(value, draw)}`);
      return;
    }
    lines.push(`${indent}${key}`);
    const inner = `${indent}  `;
    if (Array.isArray(value)) for (const each of value) lines.push(`${inner}- ${flow(each, draw)}`);
    else for (const [name, each] of value) block(each, `${scalar(name, draw)}:`, inner, !draw.once(6));
  };
  for (const [key, value] of tree) block(value, `${scalar(key, draw)}:`, "", draw.once(8));
  return `${lines.join("\n")}\n`;
}

/** Every place in a tree that can be changed. */
export function places(
  tree: Tree,
): { readonly holder: Tree[] | Map<string, Tree>; readonly key: string | number }[] {
  if (typeof tree === "string") return [];
  const keys = Array.isArray(tree) ? [...tree.keys()] : [...tree.keys()];
  return keys.flatMap((key) => [{ holder: tree, key }, ...places(valueAt(tree, key))]);
}

export const valueAt = (holder: Tree[] | Map<string, Tree>, key: string | number): Tree =>
  Array.isArray(holder) ? holder[key as number]! : holder.get(key as string)!;
