import stringWidth from "string-width";
import { describe, expect, it } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";
import { WHEEL } from "../answer/compare/compared.js";

/** A line with two blocks that may leave it, and options of every kind. */
const LINE = [
  "line: Cargo bike",
  "unit: s",
  "demand: 165 per day",
  "calendar: {shifts: {early: {length: 7.5 h}}}",
  "tasks:",
  "  load-frame: {time: 75, on-base: true, lift: 19 kg}",
  "  seat-cells: 40",
  "  wire-pack: {time: 65, after: seat-cells}",
  "  lace-wheels: 80",
  "  true-wheels: {time: 95, after: lace-wheels}",
  "  mount-box: {time: 70, after: [load-frame, wire-pack]}",
  "  fit-wheels: {time: 60, after: [mount-box, true-wheels]}",
  "  box-up: {time: 45, after: fit-wheels, lift: 42 kg, caution: Hoist only}",
].join("\n");
const OPTIONS = [
  "options:",
  "  wheels-off-line: {off-line: [[lace-wheels, true-wheels]]}",
  "  battery-off-line: {off-line: [[seat-cells, wire-pack]]}",
  "  +busier: {demand: 180 per day}",
  "  東京 tables: {tables: {people: 5, walking: 2 min}}",
  "rates: {person-hour: 32, bench-hour: 2, overtime: 150 %, currency: EUR}",
  "",
].join("\n");
const files = { "line.yaml": `${LINE}\n${OPTIONS}` };

const run = async (args: readonly string[], more: object = {}) => {
  const ran = await runLinepoise({ args: ["compare", "line.yaml", ...args], files, ...more });
  expect(ran.status, ran.stderr).toBe(0);
  return ran.stdout;
};

interface Option {
  readonly name: string;
  readonly plan: { readonly stations: readonly unknown[] } | null;
  readonly figures: Readonly<Record<string, number | null>>;
}
const optionsOf = (text: string) => (JSON.parse(text) as { options: Option[] }).options;

describe("a comparison on a terminal", () => {
  it.each([50, 80, 200])("keeps to %i columns, every option and figure in it", async (terminal) => {
    const text = await run([], { terminal, env: { NO_COLOR: "1" } });
    const lines = text.split("\n");
    expect(lines.filter((line) => stringWidth(line) > terminal)).toEqual([]);
    for (const name of ["as it is", "battery-off-line", "wheels-off-line", "+busier", "東京 tables"]) {
      expect(text.toLowerCase()).toContain(name);
    }
  });

  it("shows one part for each option where two columns have no room", async () => {
    const narrow = await run(["battery-off-line"], { terminal: 40, env: { NO_COLOR: "1" } });
    expect(narrow).toContain("\nAS IT IS\n");
    expect(narrow).toContain("\nBATTERY-OFF-LINE\n");
    expect(narrow).not.toContain("SIDE BY SIDE");
  });

  it("only adds colour: without it the same text remains", async () => {
    const args = ["battery-off-line", "wheels-off-line"];
    const [coloured, plain] = [await run(args, { env: { FORCE_COLOR: "1" } }), await run(args)];
    // biome-ignore lint/suspicious/noControlCharactersInRegex: escapes are what is taken out
    expect(coloured.replaceAll(/\u001b\[\d+m/gu, "")).toBe(plain);
    expect(coloured).not.toBe(plain);
  });
});

describe("options that are named", () => {
  it("are compared with each other, and the line as it is is said to be left out", async () => {
    const named = ["battery-off-line", "wheels-off-line"];
    expect((await run(named)).replace(/\s+/gu, " ")).toContain(
      'differences against battery-off-line; "as it is" is not named, so the line of line.yaml is not among them',
    );
    expect(await run([...named, "as it is", "--format", "markdown"])).not.toContain("not among them");
    expect(await run(["battery-off-line"])).not.toContain("not among them");
  });

  it("keep the cautions of the file that each is from", async () => {
    const other = files["line.yaml"].replace("caution: Hoist only", "caution: Two hoists");
    const text = await run(["other.yaml"], { files: { ...files, "other.yaml": other } });
    expect(text).toMatch(/box-up at S\d+: lift of 42 kg; Hoist only/u);
    expect(text).toMatch(/box-up at S\d+: lift of 42 kg; Two hoists/u);
    expect(text.match(/load-frame at S1: lift/gu)).toHaveLength(1);
  });
});

describe("the figures of an option", () => {
  it("are the same alone and among others", async () => {
    const together = optionsOf(await run(["--json"]));
    for (const { name, plan, figures } of together.slice(1)) {
      const [, alone] = optionsOf(await run([name, "--json"]));
      expect(alone).toMatchObject({ name, plan, figures });
    }
  });

  it("are those of a file with the change written into it", async () => {
    const changed = { ...files, "busier.yaml": files["line.yaml"].replace("165 per day", "180 per day") };
    const [, option, file] = optionsOf(
      await run(["as it is", "+busier", "busier.yaml", "--json"], { files: changed }),
    );
    expect(file!.figures).toEqual(option!.figures);
    expect(file!.plan).toEqual(option!.plan);
    const { stdout } = await runLinepoise({ args: ["balance", "busier.yaml", "--json"], files: changed });
    const {
      format: _,
      command: __,
      caution: ___,
      ...balance
    } = JSON.parse(stdout) as Record<string, unknown>;
    expect(JSON.parse(JSON.stringify(option!.plan))).toEqual(JSON.parse(JSON.stringify(balance)));
  });

  it("do not depend on the order of the file", async () => {
    const lines = OPTIONS.split("\n");
    const turned = [lines[0], ...lines.slice(1, 5).reverse(), ...lines.slice(5)].join("\n");
    expect(await run([], { files: { "line.yaml": `${LINE}\n${turned}` } })).toBe(await run([]));
  });
});

describe("a comparison as a table", () => {
  it("has a row for every figure, with plain numbers in the unit beside them", async () => {
    const file = `${WHEEL}options: {long bench: {off-line: [wheels]}}\n`;
    const csv = await run(["--format", "csv"], { files: { "line.yaml": file } });
    expect(csv.split("\r\n")).toEqual([
      "figure,unit,as it is,as it is: best,long bench,long bench: difference,long bench: best",
      "wanted per shift,units,450,,450,0,",
      "wanted per day,units,450,,450,0,",
      "wanted per hour,units,60,,60,0,",
      "people per shift,people,4,,3,-1,best",
      "people per day,people,4,best,4,0,best",
      "stations on the line,stations,4,,2,-2,best",
      "places on the line,places,4,,2,-2,best",
      "bench places,places,0,best,1,1,",
      '"tables, a kit each",kits,,,,,',
      "line cycle,s,60,,60,0,",
      "cycle of the plan,s,55,,50,-5,best",
      "efficiency at the pace,fraction,0.75,best,0.75,0,best",
      "efficiency at slowest,fraction,0.818182,,0.9,0.081818,best",
      "idle person-hours,h,7.5,best,7.5,0,best",
      "idle hours per day,h,7.5,best,7.5,0,best",
      '"stock, units",units,0,best,166,166,',
      "output per shift,units,490,,540,50,best",
      "output per day,units,490,,540,50,best",
      "overtime per day,h,0,best,0,0,best",
      "labour per unit wanted,min,4,best,4,0,best",
      "cost per unit wanted,,,,,,",
      "moves from today,tasks,,,,,",
      "outcome,,proved,,proved,,",
      expect.stringMatching(/^caution,,"A balanced plan is not a safety assessment\. .* people\.",,,,$/u),
      "",
    ]);
  });

  it("guards names that a spreadsheet would execute, and keeps numbers", async () => {
    const [head, ...rows] = (await run(["+busier", "--format", "csv"])).split("\r\n");
    expect(head).toBe("figure,unit,as it is,as it is: best,'+busier,'+busier: difference,'+busier: best");
    expect(rows.find((row) => row.startsWith("wanted"))).toBe("wanted per shift,units,165,,180,15,");
  });

  it("names each bench, and the cautions of the work, below the Markdown table", async () => {
    const file = `${WHEEL.replace("lace: 40", "lace: {time: 40, caution: Mind the spoke ends}")}options: {long bench: {off-line: [wheels], note: early and late}}\n`;
    const text = await run(["--format", "markdown"], { files: { "line.yaml": file } });
    expect(text.split("\n").filter((line) => line.startsWith("- "))).toEqual([
      "- long bench: frees 1 of 4 people in the busiest shift, leaving 3, but nobody over the day; takes 2 stations off the line; costs 1 bench place and one buffer stock of 166 units.",
      "- long bench: bench wheels: lace, true; joins at fit; 95 s a unit at 1 place, 2 shifts a day, 79.2 % loaded; stock 166 units",
      "- long bench: early and late",
      "- lace at S1 (as it is) or wheels (long bench): Mind the spoke ends",
      "- A balanced plan is not a safety assessment. Lifting, electrical work, machinery, chemicals and paint, brake, roller-bench and pressure tests, work pace, repetition and working hours must meet local codes and be approved by licensed or otherwise qualified people.",
    ]);
  });

  it("has as many cells in every row of the Markdown table", async () => {
    const rows = (await run(["--format", "markdown"])).split("\n").filter((line) => line.startsWith("|"));
    expect(new Set(rows.map((row) => row.split(/(?<!\\)\|/u).length))).toEqual(new Set([8]));
  });
});
