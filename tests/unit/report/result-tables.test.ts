import { parse } from "csv-parse/sync";
import readSheets from "read-excel-file/node";
import { describe, expect, test } from "vitest";
import { sheetOfJson } from "../../../src/report/sheet/sheet-of-json.js";
import type { Sheet } from "../../../src/table/sheet.js";
import { writeWorkbook } from "../../../src/table/write-workbook.js";
import { readPage } from "../../readme/read-page.js";
import { runLinepoise } from "../../tools/run-linepoise.js";

/* Tables are read by libraries that share nothing with those that write them: csv-parse and read-excel-file. */

const examples = Object.fromEntries(
  ["cargo-bike.line.yaml", "cargo-bike.plan.yaml", "last-season.plan.yaml", "cargo-bike.readings.csv"].map(
    (name) => [name, readPage(`examples/${name}`)],
  ),
);
const LINE = "cargo-bike.line.yaml";

/** A bench of work that is balanced at once, and its plan for another demand. */
const SMALL = `unit: s
demand: 400 per day
calendar: {shifts: {early: {length: 8 h}}}
tasks:
  base: {time: 30, on-base: true, caution: Use the hoist, lift: 19 kg}
  lace: 25
  true: {time: 20, after: lace}
  join: {time: 35, after: [base, true]}
  pack: {time: 28, after: join}
`;
const planned = await runLinepoise({
  args: ["balance", "small.yaml", "--demand", "700 per day", "--write", "plan.yaml"],
  files: { "small.yaml": SMALL },
});
const files = { ...examples, "small.yaml": SMALL, "plan.yaml": planned.files["plan.yaml"]! };

const run = (...args: string[]) => runLinepoise({ args, files });

const COMMANDS: readonly (readonly [string, string, readonly string[]])[] = [
  ["balance", "stations", ["balance", "small.yaml"]],
  ["show", "stations", ["show", LINE, "cargo-bike.plan.yaml"]],
  ["staff", "rows", ["staff", "small.yaml", "--demand", "300..400/50"]],
  ["off-line", "blocks", ["off-line", "small.yaml"]],
  ["rebalance", "moves", ["rebalance", "small.yaml", "--from", "plan.yaml"]],
  ["study", "elements", ["study", "cargo-bike.readings.csv", "--unit", "s", "--leave-out", "*"]],
];

describe("every table of a result", () => {
  test.each(COMMANDS)(
    "of %s has a row for each of its %s, with the figures of JSON",
    async (_, list, args) => {
      const { stdout: csv } = await run(...args, "--format", "csv");
      const document = JSON.parse((await run(...args, "--json")).stdout) as Record<string, unknown>;
      const entries = document[list] as Record<string, unknown>[];
      // Rows of unequal length make the parser throw.
      const [heads, ...rows] = parse(csv) as string[][];
      const body = rows.filter(([first]) => !first!.startsWith("caution"));
      expect(body).toHaveLength(entries.length);
      for (const [at, entry] of entries.entries())
        for (const [key, value] of Object.entries(entry)) {
          if (typeof value !== "number" && typeof value !== "string") continue;
          const words = key.replace(/[A-Z]/gu, (sign) => ` ${sign.toLowerCase()}`);
          const bare = words.replace(/(?:^| )seconds(?= |$)/u, "").trim();
          const head = bare === words ? words : `${bare || "time"} (s)`;
          const cell = body[at]![heads!.indexOf(head)];
          expect(typeof value === "number" ? Number(cell) : cell).toBe(value);
        }
      expect(csv.includes("A balanced plan is not a safety assessment")).toBe(document.caution !== undefined);
    },
  );

  test("of takt is a row for each figure", async () => {
    const { stdout } = await run("takt", LINE, "--format", "csv");
    expect(stdout).toContain("pace takt (s),165.454545\r\n");
  });

  test("of check is a row for each finding, beside the file and its outcome", async () => {
    const { stdout, status } = await run("check", LINE, "*.plan.yaml", "--cycle", "100 s", "--format", "csv");
    const [heads, ...rows] = parse(stdout) as string[][];
    expect([status, heads!.slice(0, 4)]).toEqual([1, ["file", "outcome", "rule", "severity"]]);
    expect(rows.filter(([, outcome]) => outcome === "wrong").length).toBeGreaterThan(1);
  });

  test("takes the habits of a spreadsheet", async () => {
    const { stdout } = await run(
      "show",
      LINE,
      "cargo-bike.plan.yaml",
      "--format",
      "csv",
      "--decimals",
      "comma",
    );
    const [heads, first] = parse(stdout, { delimiter: ";" }) as string[][];
    expect(first![heads!.indexOf("limit (s)")]).toBe("142,4734");
  });
});

describe("a file", () => {
  test("that ends in .csv takes the table, and any other the text", async () => {
    const args = ["show", LINE, "cargo-bike.plan.yaml", "--out"];
    expect((await run(...args, "a.csv")).files["a.csv"]).toMatch(/^id,tasks,/u);
    expect((await run(...args, "a.txt")).files["a.txt"]).toContain("12 stations");
    expect((await run(...args, "b.csv", "--json")).files["b.csv"]).toMatch(/^\{/u);
  });

  test("that ends in .xlsx is a workbook whose numbers are numbers", async () => {
    expect((await run("show", LINE, "cargo-bike.plan.yaml", "--out", "a.xlsx")).files["a.xlsx"]).toMatch(
      /^PK/u,
    );
    const { stdout } = await run("show", LINE, "cargo-bike.plan.yaml", "--json");
    const sheet = sheetOfJson(stdout, ["stations"]);
    const bytes = await writeWorkbook("stations", sheet);
    const data = (await readSheets(Buffer.from(bytes)))[0]!.data;
    const asWritten = (rows: Sheet) =>
      rows.map((row) =>
        row.map((cell) => (cell === null ? null : "number" in cell ? Number(cell.number) : cell.text)),
      );
    expect(data).toEqual(asWritten(sheet));
  });

  test("is refused where its form and its name, or habits and another form, do not go together", async () => {
    const errors = async (...args: string[]) => {
      const { status, stderr } = await run("takt", LINE, ...args);
      return [status, stderr];
    };
    expect(await errors("--json", "--out", "a.xlsx")).toEqual([2, expect.stringContaining("is a workbook")]);
    expect(await errors("--decimals", "comma")).toEqual([2, expect.stringContaining("--format csv")]);
    expect(await errors("--format", "csv", "--json")).toEqual([
      2,
      expect.stringContaining("exclude each other"),
    ]);
  });
});
