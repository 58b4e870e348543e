import { describe, expect, it } from "vitest";
import { readCsv } from "../../../src/table/read-csv.js";
import { writeCsv } from "../../../src/table/write-csv.js";
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
    expect((await numbersRead()).sort()).toEqual(sorted);
  });

  it("are never the start of a formula unless that is asked for", () => {
    const csv = { delimiter: ",", decimals: "." } as const;
    expect(writeCsv([[{ text: "=1+1" }]], { ...csv, guard: true })).toBe("'=1+1\r\n");
    expect(writeCsv([[{ text: "=1+1" }]], { ...csv, guard: false })).toBe("=1+1\r\n");
  });

  it("have a row for each place, then kits and totals, and the caution at the end", async () => {
    const { stdout } = await runLinepoise({
      args: ["parts", "a.line.yaml", "a.plan.yaml", "--format", "csv"],
      files: {
        "a.line.yaml": [
          "unit: s",
          "demand: 100 per shift",
          "calendar: {shifts: {day: {length: 8 h}}}",
          "models: {city: 3, cargo: 1}",
          'part-list: {"=M6x20": {name: "Screw; long, \\"M6\\"", pack: 30, from: Store, unit: piece}, 007: {}}',
          "tasks:",
          '  one: {time: 60, parts: {"=M6x20": 4}}',
          '  two: {time: {city: "-", cargo: 90}, after: one, parts: {007: 1}}',
          "",
        ].join("\n"),
        "a.plan.yaml":
          "format: linepoise-plan/1\nline: a.line.yaml\nstations: [{id: T, tasks: [one, two]}]\n",
      },
    });
    const screw = `'=M6x20,"Screw; long, ""M6"""`;
    expect(stdout.split("\r\n").map((row) => row.replace(/"A balanced.*/u, "..."))).toEqual([
      "place,kind,part,name,quantity,quantity before rounding,unit,pack,packs,packs before rounding,a pack lasts (s),containers,from",
      "T,tables,007,,25,25,,,,,,,",
      `T,tables,${screw},400,400,piece,30,14,13.333333,2160,,Store`,
      "T,kit of cargo,007,,,1,,,,,,,",
      `T,kit of cargo,${screw},,4,piece,,,,,,`,
      `T,kit of city,${screw},,4,piece,,,,,,`,
      ",total,007,,25,25,,,,,,,",
      `,total,${screw},400,400,piece,30,14,,,,`,
      ",caution,,...",
      "",
    ]);
  });
});
