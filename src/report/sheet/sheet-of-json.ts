import type { Sheet, SheetCell } from "../../table/sheet.js";

type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };
type JsonMap = Readonly<Record<string, Json>>;

/**
 * A list of a result document as a table: a row an entry, a column a figure, headings from the keys. What entries hold in lists of their own
 * stays in the document. Cautions follow, as in every other form.
 *
 * @param path keys of the list, with points between them, and of the list within each of its entries; none for the figures of the document itself
 */
export function sheetOfJson(json: string, path: readonly string[]): Sheet {
  const document = JSON.parse(json) as JsonMap;
  const [key, inner] = path;
  const outer = key === undefined ? [] : entriesOf(valueAt(document, key));
  const rows = outer.flatMap((entry) => rowsOf(entry, inner));
  const heads = [...new Set(rows.flatMap((row) => [...row.keys()]))];
  if (key === undefined)
    return [
      ["figure", "value"].map(text),
      ...[...figuresOf(document)].map(([head, cell]) => [text(head), cell]),
    ];
  const table =
    heads.length === 0
      ? [[text("outcome"), cellOf(document.outcome ?? null)]]
      : [heads.map(text), ...rows.map((row) => heads.map((head) => row.get(head) ?? null))];
  return evenRows([...table, ...cautionRows(document)]);
}

/** Every row with as many cells as the longest, as RFC 4180 asks for. */
function evenRows(rows: readonly (readonly SheetCell[])[]): Sheet {
  const width = rows.reduce((most, row) => Math.max(most, row.length), 0);
  return rows.map((row) => [...row, ...Array<SheetCell>(width - row.length).fill(null)]);
}

const isMap = (value: Json | undefined): value is JsonMap =>
  typeof value === "object" && value !== null && !Array.isArray(value);

const entriesOf = (value: Json | undefined): readonly JsonMap[] =>
  Array.isArray(value) ? (value as readonly Json[]).filter(isMap) : [];

type Row = ReadonlyMap<string, SheetCell>;

/** An entry, or each of its own entries beside the figures that it has itself. */
function rowsOf(entry: JsonMap, inner: string | undefined): Row[] {
  if (inner === undefined) return [figuresOf(entry)];
  const own = figuresOf(Object.fromEntries(Object.entries(entry).filter(([, value]) => !isDeep(value))));
  const rows = entriesOf(valueAt(entry, inner)).map((each) => new Map([...own, ...figuresOf(each)]));
  return rows.length === 0 ? [own] : rows;
}

const valueAt = (map: JsonMap, keys: string): Json | undefined =>
  keys.split(".").reduce<Json | undefined>((value, key) => (isMap(value) ? value[key] : undefined), map);

const isDeep = (value: Json): boolean =>
  typeof value === "object" &&
  value !== null &&
  Object.values(value).some((each) => typeof each === "object" && each !== null);

const text = (words: string): SheetCell => ({ text: words });

function cellOf(value: Json): SheetCell {
  if (value === null) return null;
  return typeof value === "number" ? { number: String(value) } : text(String(value));
}

/** What a map holds of words and numbers by heading, in maps within it too; blanks are left out. */
function figuresOf(map: JsonMap, above: readonly string[] = []): Row {
  const figures = new Map<string, SheetCell>();
  for (const [key, value] of Object.entries(map)) {
    const path = [...above, key];
    if (above.length === 0 && NO_FIGURES.has(key)) continue;
    if (isMap(value)) for (const [head, cell] of figuresOf(value, path)) figures.set(head, cell);
    else if (Array.isArray(value)) {
      const words = (value as readonly Json[]).filter((each) => typeof each !== "object");
      if (words.length > 0) figures.set(headOf(path), text(words.join("; ")));
    } else if (value !== null) figures.set(headOf(path), cellOf(value!));
  }
  return figures;
}

/** What a document says of itself. */
const NO_FIGURES: ReadonlySet<string> = new Set(["format", "command", "findings"]);

/** `idleSeconds` is headed `idle (s)`. */
function headOf(path: readonly string[]): string {
  const words = path.map((key) =>
    /^[a-z]+(?:[A-Z][a-z]*)+$/u.test(key) ? key.replace(/[A-Z]/gu, (sign) => ` ${sign.toLowerCase()}`) : key,
  );
  // The model of the worst model is said once.
  const all = words.filter((word, at) => at === 0 || !` ${words[at - 1]}`.endsWith(` ${word}`)).join(" ");
  const bare = all.replace(/(?:^| )seconds(?= |$)/u, "").trim();
  return bare === all ? all : `${bare === "" ? "time" : bare} (s)`;
}

/** Each task that needs caution with where it is done, and what no plan says. */
function cautionRows(document: JsonMap): SheetCell[][] {
  const { plan, cautions, caution } = document;
  const tasks = entriesOf(cautions ?? (isMap(plan) ? plan.cautions : null));
  const rows = tasks.map((each) => {
    const { people, lift } = each;
    const together = typeof people === "number" && people > 1 ? `${people} people at once` : null;
    const lifted = typeof lift === "string" ? `lift of ${lift}` : null;
    const said = [together, lifted, each.caution].filter((words) => typeof words === "string").join("; ");
    const stations = Array.isArray(each.stations) ? each.stations.join(", ") : "";
    return [text(`caution: ${each.task}`), text(stations === "" ? said : `${stations}: ${said}`)];
  });
  return typeof caution === "string" ? [...rows, [text("caution"), text(caution)]] : rows;
}
