import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { otherText } from "../../../src/findings/other-text.js";
import { readLineText } from "../../../src/line/read-line-text.js";
import { runLinepoise } from "../../tools/run-linepoise.js";

const LINE = "unit: s\ntasks: {a: 10, b: {time: 20, after: a}}\n";
const PROSE = [
  "# Minutes of the meeting",
  "",
  "We talked about the line: it is too slow. Ann measures the times",
  "of S3 again next week. Bo says that the press is worn out, and that",
  "the torque rig needs a new battery.",
  "- next meeting: Monday",
  "",
].join("\n");
const [LINE_WANTED, PLAN_WANTED] = [
  "a line file in YAML is expected, `linepoise new` prints one to start from [not-a-line]\n",
  "a plan file is expected, as `linepoise balance LINE --write PLAN` makes one [not-a-plan]\n",
];

describe("A file of another kind is told in one sentence", () => {
  it.each([
    ["a page of HTML", "<!DOCTYPE html>\n<html>\n<head>\n<style>\n* { margin: 0 }\n</style>\n</html>\n"],
    ["a file of XML", '<?xml version="1.0"?>\n<svg><g/></svg>\n'],
    ["a page of Markdown", "# Our line\n\nIts file:\n\n```yaml\nunit: s\ntasks: {a: 10}\n```\n"],
    ["prose", PROSE.replace("- next meeting: Monday\n", "")],
  ])("%s", async (what, text) => {
    const files = { "l.yaml": LINE, "x.txt": text };
    const asLine = await runLinepoise({ args: ["balance", "x.txt", "--cycle", "60"], files });
    expect([asLine.status, asLine.stderr]).toEqual([2, `x.txt: this seems to be ${what}; ${LINE_WANTED}`]);
    const asPlan = await runLinepoise({ args: ["show", "l.yaml", "x.txt", "--cycle", "60"], files });
    expect([asPlan.status, asPlan.stderr]).toEqual([2, `x.txt: this seems to be ${what}; ${PLAN_WANTED}`]);
  });

  it.each([
    'Task,Description,Time (s)\na,"Lift it, turn it and set it down.",10\n',
    "Vorgang;Zeit\na;10\nb;20\n",
  ])("a table, %j", async (text) => {
    const files = { "l.yaml": LINE, "x.csv": text };
    const asLine = await runLinepoise({ args: ["balance", "x.csv", "--cycle", "60"], files });
    const makes = "a line file in YAML is expected, `linepoise import` makes one of a table of tasks";
    expect(asLine.stderr).toBe(`x.csv: this seems to be a table in CSV; ${makes} [not-a-line]\n`);
    const asPlan = await runLinepoise({ args: ["show", "l.yaml", "x.csv", "--cycle", "60"], files });
    expect(asPlan.stderr).toBe(`x.csv: this seems to be a table in CSV; ${PLAN_WANTED}`);
  });

  it("a line or a plan where a table is expected", async () => {
    const plan = "format: linepoise-plan/1\nline: l.yaml\nstations: [{id: S1, tasks: [a, b]}]\n";
    const files = { "l.yaml": LINE, "p.yaml": plan, "m.txt": "unit: s\ntasks: # all\n  a: 10\n" };
    const told = async (...args: string[]) => (await runLinepoise({ args, files })).stderr;
    const wanted = "a table is expected here, as CSV or a workbook (.xlsx)";
    const lineTold = `this is a line file; ${wanted}; \`linepoise export\` makes one of it [not-a-table]\n`;
    expect(await told("import", "l.yaml")).toBe(`l.yaml: ${lineTold}`);
    expect(await told("import", "m.txt")).toBe(`m.txt: ${lineTold}`);
    expect(await told("import", "p.yaml")).toBe(`p.yaml: this is a plan file; ${wanted} [not-a-table]\n`);
    expect(await told("order", "l.yaml", "--from", "p.yaml")).toContain("this is a plan file; a table");
    expect(await told("study", "p.yaml")).toContain(
      "this is a plan file; study takes readings of a stopwatch",
    );
  });

  it("an answer of a command", async () => {
    const files = { "x.json": '{\n  "format": "linepoise/1",\n  "command": "balance",\n  "line": "x"\n}\n' };
    const { stderr } = await runLinepoise({ args: ["takt", "x.json"], files });
    expect(stderr).toBe(`x.json: this seems to be JSON that a command printed; ${LINE_WANTED}`);
  });

  it("a PDF or a workbook by its first bytes, where they are no text", async () => {
    const bytes = (...start: number[]) => new Uint8Array([...start, 0xe2, 0xe3, 0xcf, 0xd3]);
    const files = { "x.pdf": bytes(0x25, 0x50, 0x44, 0x46), "x.xlsx": bytes(0x50, 0x4b, 3, 4) };
    const told = async (name: string) => (await runLinepoise({ args: ["takt", name], files })).stderr;
    expect([await told("x.pdf"), await told("x.xlsx")]).toEqual([
      'error: "x.pdf" is not UTF-8 text at byte 0 (0x25, line 1); the file is likely a PDF; text is expected here, as line and plan files are\n',
      'error: "x.xlsx" is not UTF-8 text at byte 0 (0x50, line 1); the file is likely a ZIP file, as workbooks are; text is expected here, as line and plan files are\n',
    ]);
  });

  it("no line or plan of the examples and of the tests of faults is taken for another file", () => {
    for (const folder of ["examples", "tests/faults", "tests/faults/plans"])
      for (const name of readdirSync(folder).filter((each) => each.endsWith(".yaml")))
        expect([name, otherText(readFileSync(`${folder}/${name}`, "utf8"))]).toEqual([name, null]);
  });
});

describe("Text of a megabyte is looked through once, where a look from each of its signs would take minutes", () => {
  it.each([
    ["blank lines before a key", `${"\n".repeat(100_000)}tasks: {a: 10}\n`, null],
    ["blank lines without a key", `unit\n${"\n".repeat(100_000)}x\n`, null],
    ["one word", "x".repeat(1_000_000), null],
    [
      "lines of words behind a long one",
      `${"x".repeat(500_000)}\n${"we talked about the line. \n".repeat(2)}`,
      "prose",
    ],
  ])("%s", (_, text, what) => {
    expect(otherText(text)).toBe(what);
    const { findings } = readLineText("x.yaml", text);
    expect(findings.some(({ rule }) => rule === "not-a-line")).toBe(what !== null);
  });
});
