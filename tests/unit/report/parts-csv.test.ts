import { describe, expect, it } from "vitest";
import { withoutMark } from "../../../src/import-tables/read-neighbours.js";
import { csvText } from "../../../src/report/csv/csv.js";
import { readCsv } from "../../../src/table/read-csv.js";
import { runLinepoise } from "../../tools/run-linepoise.js";

const NUMBERS = [
  "=M6x20",
  "-washer",
  "+5V lead",
  "@tag",
  "1-2",
  "007",
  "1e3",
  '3/4" bolt',
  "a;b",
  "a,b",
  "東京ライト",
  "'quoted'",
];

const line = [
  "unit: s",
  `tasks: {fit: {time: 1, parts: {${NUMBERS.map((each) => `${JSON.stringify(each)}: 1`).join(", ")}}}}`,
  "",
].join("\n");
const plan = "format: linepoise-plan/1\nline: a.line.yaml\nstations: [{id: S1, tasks: [fit]}]\n";

/** The column of part numbers as our own reader of tables takes it. */
async function numbersRead(...options: string[]): Promise<string[]> {
  const { stdout } = await runLinepoise({
    args: ["parts", "a.line.yaml", "a.plan.yaml", "--units", "2", "--format", "csv", ...options],
    files: { "a.line.yaml": line, "a.plan.yaml": plan },
  });
  const { table } = readCsv("parts.csv", new TextEncoder().encode(stdout), {});
  return table!.rows.flatMap((row) => (row[1]!.text === "station" ? [row[2]!.text] : []));
}

describe("Part numbers in a table for spreadsheets", () => {
  it("are read back as they are, guarded or not", async () => {
    const sorted = [...NUMBERS].sort();
    expect((await numbersRead("--no-guard")).sort()).toEqual(sorted);
    expect((await numbersRead()).map(withoutMark).sort()).toEqual(sorted.map(withoutMark).sort());
  });

  it("are never the start of a formula unless that is asked for", async () => {
    const cells = await numbersRead();
    expect(cells.filter((cell) => /^[=+\-@]/u.test(cell))).toEqual([]);
    expect(csvText([[{ text: "=1+1" }]])).toBe("'=1+1\r\n");
    expect(csvText([[{ text: "=1+1" }]], false)).toBe("=1+1\r\n");
  });
});
