import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { findColumns, readGivenColumns } from "../../../src/import-tables/task-columns.js";
import { exportTasks, importTasks, type Line, readLine } from "../../../src/library.js";
import { readTable } from "../../../src/table/read-table.js";

/** Two tasks, with times by model that are all different, or else with one for all; every name in quotes. */
function lineOf(models: readonly string[], isAlike = false): string {
  const each = (value: (at: number) => string) =>
    `{${models.map((model, at) => `${JSON.stringify(model)}: ${value(at)}`).join(", ")}}`;
  const head = `unit: s\nmodels: ${each(() => "1")}\n`;
  if (isAlike) return `${head}tasks:\n  A: {time: 2}\n  B: {time: 3, after: A}\n`;
  return [
    head,
    "tasks:\n",
    `  A: {time: ${each((at) => String(at + 1))}}\n`,
    `  B: {time: ${each((at) => (at === 0 ? '"-"' : String(at + 20)))}, after: A}\n`,
  ].join("");
}

/** The text of a line and what is told of columns, after its table is imported into it. */
async function backInto(line: Line, form: "csv" | "workbook") {
  const exported = await exportTasks(line);
  const table = form === "csv" ? "t.csv" : "t.xlsx";
  const { result, lineText } = await importTasks({ file: table, content: exported[form] }, { into: line });
  const rules = [...exported.result.findings, ...result.findings].map(({ rule }) => rule);
  return { lineText, told: rules.filter((rule) => /^(?:column-not-read|not-read-back)$/u.test(rule)) };
}

/** Names that the words, brackets and units of a heading may be taken for, that programs trip over, or that look like formulas. */
const HOSTILE = [
  ..."() [] {} (s) (min) [s] [a] {a} a A b B a(s) s S min h Min cmin".split(" "),
  ..."time Time times t unit units after before id name work task quantity every people zone check lift".split(
    " ",
  ),
  ..."__proto__ constructor toString __defineGetter__ hasOwnProperty null true ~ . .. ... - -- --- .inf 1e3 007".split(
    " ",
  ),
  ..."=1+1 +1 -1+1 @SUM(A1) $(echo) ' '' 'a \" | ; , : / \\ %0A # &a *a << é e\u0301 É İ i ß SS ﬁ fi Ａ 作業 🚲".split(
    " ",
  ),
  ...[
    "a (s)",
    "a (min)",
    "a (s) (s)",
    "a  b",
    "a b",
    " a b",
    "A  B",
    "time a",
    "time a (s)",
    "(s) a",
    "a, s",
    "a time",
  ],
  ...["machine time", "work content", "time (s)", "a\u00a0b", "a, b", "x".repeat(200)],
];
const SIGNS = [..."=+-@'\"`,;|/&()[]{}<>#%:.?*!$^~\\ _x0159esSmMinaAéß作🚲"];
const name = fc.oneof(
  fc.constantFrom(...HOSTILE),
  fc.tuple(fc.constantFrom(...HOSTILE), fc.constantFrom(...HOSTILE)).map(([one, two]) => `${one} ${two}`),
  fc.array(fc.constantFrom(...SIGNS), { minLength: 1, maxLength: 6 }).map((signs) => signs.join("")),
);
const names = fc.uniqueArray(name, {
  minLength: 2,
  maxLength: 6,
  selector: (each) => each.normalize("NFC").trim(),
});

describe("a table of times by model that goes back into its line", () => {
  test("changes nothing, whatever the models are called", async () => {
    const refused: string[] = [];
    for (const each of HOSTILE)
      for (const isAlike of [false, true]) {
        const text = lineOf([each, "other"], isAlike);
        const { line } = readLine(text);
        if (line === null) refused.push(each);
        else expect([each, await backInto(line, "csv")]).toEqual([each, { lineText: text, told: [] }]);
      }
    expect(refused).toEqual([]);
  });

  test("changes nothing, whatever the models beside each other are called, from CSV and from a workbook", async () => {
    await fc.assert(
      fc.asyncProperty(names, fc.constantFrom("csv", "workbook"), async (models, form) => {
        const text = lineOf(models);
        const { line } = readLine(text);
        fc.pre(line !== null);
        expect(await backInto(line!, form)).toEqual({ lineText: text, told: [] });
      }),
      { numRuns: 60, seed: 7 },
    );
  });
});

/** The keys of the columns beside the ids, each with its heading, and its unit. */
async function columnsOf(models: readonly string[], headings: string, given = "") {
  const { table } = await readTable("t.csv", new TextEncoder().encode(`id,${headings}\n`));
  const columns = given === "" ? null : readGivenColumns(given);
  const chosen = columns?.ok ? columns.value : new Map();
  const found = findColumns(table!.rows, chosen, models, () => {});
  return [...found!.columns.values()]
    .slice(1)
    .map(({ key, heading, unit }) => `${key} <- ${heading}, ${unit}`);
}

describe("headings that people write", () => {
  test("name a model to the letter also without a unit", async () => {
    expect(await columnsOf(["[a]", ".b"], "time .b,time [a]")).toEqual([
      "time .b <- time .b, null",
      "time [a] <- time [a], null",
    ]);
  });

  test("say the unit of all times where they may also name a model", async () => {
    expect(await columnsOf(["min", "(s)"], "time min")).toEqual(["time <- time min, min"]);
    expect(await columnsOf(["min", "(s)"], "time (s)")).toEqual(["time <- time (s), s"]);
    expect(await columnsOf(["unit", "b"], "time,time unit")).toEqual([
      "time <- time, null",
      "unit <- time unit, null",
    ]);
  });

  test("mean the model and a unit before a model whose name ends in that unit", async () => {
    expect(await columnsOf(["a", "a (s)"], "time a (s),time a (s) (min)")).toEqual([
      "time a <- time a (s), s",
      "time a (s) <- time a (s) (min), min",
    ]);
  });

  test("name the model of the same letters, and else the only one in letters of another case", async () => {
    expect(await columnsOf(["A", "a", "b"], "time a (s),time A (s),B time (s)")).toEqual([
      "time a <- time a (s), s",
      "time A <- time A (s), s",
      "time b <- B time (s), s",
    ]);
    const given = "time A=time A (s), time a=time a (s)";
    expect(await columnsOf(["A", "a"], "time a (s),time A (s)", given)).toEqual([
      "time A <- time A (s), s",
      "time a <- time a (s), s",
    ]);
  });
});
