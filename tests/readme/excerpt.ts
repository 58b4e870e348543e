import { isMap, type Pair, parseDocument, type Scalar } from "yaml";
import { readPage } from "./read-page.js";

/** `FILE, KEY, KEY, ...`: the lines of a line file that hold these keys, such as `demand` and `tasks.fit-fork`, and how many are left out. */
export function excerpt(of: string): string {
  const [path = "", ...wanted] = of.split(", ");
  const source = readPage(path);
  const root = parseDocument(source).contents;
  if (!isMap(root)) throw new Error(`${path} is no map`);
  const shown = new Set<string>();
  const lines = (root.items as Pair[]).flatMap((pair) => {
    const name = keyOf(pair);
    if (wanted.includes(name)) {
      shown.add(name);
      return linesOf(source, pair);
    }
    const inner = isMap(pair.value) ? (pair.value.items as Pair[]) : [];
    const kept = inner.filter((each) => wanted.includes(`${name}.${keyOf(each)}`));
    if (kept.length === 0) return [];
    for (const each of kept) shown.add(`${name}.${keyOf(each)}`);
    const rest = inner.length > kept.length ? [`  # ... ${inner.length} ${name} in all`] : [];
    return [`${name}:`, ...kept.flatMap((each) => linesOf(source, each)), ...rest];
  });
  const missing = wanted.filter((each) => !shown.has(each));
  if (missing.length > 0) throw new Error(`${path} has no ${missing.join(", ")}`);
  return ["```yaml", ...lines, "```"].join("\n");
}

const keyOf = ({ key }: Pair) => String((key as Scalar).value);

/** The whole lines of a key and its value, with a comment that ends them. */
function linesOf(source: string, { key, value }: Pair): string[] {
  const [start, end] = [(key as Scalar).range![0], (value as Scalar).range![1]];
  const from = source.lastIndexOf("\n", start) + 1;
  const to = source.indexOf("\n", Math.max(start, end - 1));
  return source.slice(from, to).trimEnd().split("\n");
}
