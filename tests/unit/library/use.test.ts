import { describe, expect, it } from "vitest";
import * as library from "../../../src/library.js";
import { runLinepoise } from "../../tools/run-linepoise.js";
import { LINE_TEXT, PLAN_TEXT, smallLine, smallPlan } from "./small-line.js";

const {
  balance,
  check,
  compare,
  findingsText,
  importTasks,
  offLine,
  order,
  parts,
  ramp,
  rebalance,
  sheets,
  readLine,
  readPlan,
  simulate,
  staff,
  study,
  takt,
  UsageError,
} = library;

/** A name that is missing here breaks programs: within a major version names are added only. */
it("has these names, and no others without a decision", () => {
  expect(Object.keys(library).sort()).toEqual([
    "UsageError",
    "balance",
    "check",
    "compare",
    "exportTasks",
    "findingsText",
    "importTasks",
    "jsonText",
    "offLine",
    "order",
    "parts",
    "planText",
    "ramp",
    "readLine",
    "readPlan",
    "rebalance",
    "rebalanceSeveral",
    "sheets",
    "show",
    "simulate",
    "staff",
    "study",
    "takt",
  ]);
});

describe("what users write", () => {
  it("never throws: the faults of a line are findings, whose text is that of the command line", async () => {
    const text = LINE_TEXT.replace("time: 40", "tme: 40").replace(
      "after: [axle, true]",
      "after: [axel, true]",
    );
    const { line, findings } = readLine(text, { file: "line.yaml" });
    expect(line).toBe(null);
    const { stderr } = await runLinepoise({ args: ["takt", "line.yaml"], files: { "line.yaml": text } });
    expect(findingsText(findings, { "line.yaml": text })).toBe(stderr);
    // Findings that went through JSON keep their place.
    expect(findingsText(JSON.parse(JSON.stringify(findings)), { "line.yaml": text })).toBe(stderr);
  });

  it.each([
    "",
    "\u0000",
    "{",
    "[1, 2]",
    "tasks: {a: &a [*a]}",
    '{"format": "linepoise/1"}',
    "<html>",
    "a,b\n1,2",
  ])("is refused with findings, whatever the text: %j", (text) => {
    const { line, findings } = readLine(text);
    expect([line, findings.some(({ severity }) => severity === "error")]).toEqual([null, true]);
    const { plan, findings: ofPlan } = readPlan(text, smallLine());
    expect([plan, ofPlan.some(({ severity }) => severity === "error")]).toEqual([null, true]);
  });

  it("is refused where readings are none, and a plan is of another line", async () => {
    expect(await study("")).toMatchObject({ command: "study", outcome: "refused" });
    for (const content of ["", "\u0000", "a;b\n1"]) {
      const table = { file: "x.csv", content };
      expect(await importTasks(table)).toMatchObject({ result: { outcome: "refused" }, lineText: null });
      const { result } = await order(smallLine(), [table]);
      expect(result).toMatchObject({ outcome: "refused" });
    }
    const other = smallLine("unit: s\ndemand: 60 per hour\ntasks: {a: 10, b: 20, c: 30}\n");
    const { result } = await rebalance(other, smallPlan(smallLine()));
    expect(result).toMatchObject({ outcome: "refused", findings: [{ rule: "other-line" }] });
    const own = smallPlan(other, "format: linepoise-plan/1\nstations: [{tasks: [a, b, c]}]\n");
    const checked = await check(other, own, { against: smallPlan(smallLine()) });
    expect(checked).toMatchObject({ outcome: "refused", findings: [{ rule: "other-line" }] });
  });
});

describe("wrong use is a UsageError that says what is expected", () => {
  const line = smallLine();
  const plan = smallPlan(line);
  const wrong = (options: object) => options as never;
  it.each<[string, () => unknown]>([
    ["a line is expected that readLine gave", () => takt({ ...line })],
    ["a plan is expected that readPlan or an answer gave", () => check(line, { ...plan })],
    ["readLine: the text of a line file is expected", () => readLine(wrong(new Uint8Array()))],
    ['no option is called "demad"; nearest: demand', () => balance(line, wrong({ demad: "200 per day" }))],
    ['demand: "lots" is not a demand', () => takt(line, { demand: "lots" })],
    ["demand: a text is expected, as a line file has it", () => takt(line, wrong({ demand: 200 }))],
    [
      "demand and cycle exclude each other; give one of them",
      () => balance(line, { demand: "200 per day", cycle: "60 s" }),
    ],
    ["cycle: a time above 0 is expected, such as 60 s", () => balance(line, { cycle: "0 s" })],
    ["nodes: a whole number from 1 is expected, not 0", () => balance(line, { nodes: 0 })],
    ["stations: a whole number from 1 to 6 is expected, not 7", () => balance(line, { stations: 7 })],
    [
      "stations and from exclude each other; give one of them",
      () => balance(line, { stations: 2, from: plan }),
    ],
    [
      "method: one of positional-weight, largest-candidate, columns, most-followers, exact, best is expected; nearest: columns, not colums",
      () => balance(line, wrong({ method: "colums" })),
    ],
    [
      'keep: no task of the line is called "boxx"; nearest: box; no task of the line is called "zzzz"',
      () => rebalance(line, plan, { keep: ["boxx", "box", "zzzz"] }),
    ],
    [
      'blocks: no task of the line is called "boxx"; nearest: box; no task of the line is called "zzzz"',
      () => offLine(line, { blocks: [["boxx"], ["box", "zzzz"]] }),
    ],
    [
      "blocks: a list of blocks, each a list of ids is expected",
      () => offLine(line, wrong({ blocks: "box" })),
    ],
    ["rank: a list of texts is expected", () => offLine(line, wrong({ rank: "people" }))],
    ["options: an object is expected, with nodes", () => staff(line, wrong(undefined as never))],
    ["options: an object is expected, with file", () => readLine("", wrong(null as never))],
    ["file: a text is expected, not 3", () => readLine("", wrong({ file: 3 }))],
    ['strictLimit: true or false is expected, not "no"', () => balance(line, wrong({ strictLimit: "no" }))],
    ["signal: an AbortSignal is expected, not 5", () => balance(line, wrong({ signal: 5 }))],
    ["findings: a list of findings is expected", () => findingsText(wrong([{}]))],
    [
      "importTasks: a table is expected, as {file, content}",
      () => importTasks(wrong({ content: "Task,Time (s)\na,3" })),
    ],
    ['options: "wheels" is no option of trailer.line.yaml', () => compare(line, { options: ["wheels"] })],
    [
      "replications: a whole number from 1 to 100000 is expected, not 1.5",
      () => simulate(line, plan, { replications: 1.5 }),
    ],
    ["units: the good units of the batch are expected", () => ramp(line, plan, wrong({}))],
    ["parts: a plan is expected, or the option with tables under `option`", () => parts(line, null)],
    [
      'option: "wheels-off-line" has no `tables`: give a plan of the line instead; no option of trailer.line.yaml has tables',
      () => parts(line, null, { option: "wheels-off-line" }),
    ],
    [
      'station: no station of the plan is called "S9"; nearest: S1, S2',
      () => sheets(line, plan, { station: "S9" }),
    ],
    ["training: no task of this line needs a skill", () => sheets(line, plan, { training: true })],
    ["order: at least one table with the orders of units is expected", () => order(line, [])],
    [
      "importTasks: a table is expected, as text or as bytes",
      () => importTasks({ file: "a.csv", content: wrong([1]) }),
    ],
    ["allowances need allowanceBase", () => study("element,1\na,2\n", { allowances: ["personal 5 %"] })],
  ])("%s", async (message, use) => {
    const error = await Promise.resolve()
      .then(use)
      .catch((thrown: unknown) => thrown);
    expect(error).toBeInstanceOf(UsageError);
    expect((error as Error).message).toContain(message);
  });
});

it("ends with the best so far once a signal is aborted, and throws nothing", async () => {
  const tasks = Array.from({ length: 60 }, (_, at) => `  t${at}: ${17 + ((at * 37) % 41)}\n`).join("");
  const { line } = readLine(`unit: s\ndemand: 30 per hour\ntasks:\n${tasks}`);
  let looks = 0;
  const signal = {
    get aborted() {
      looks += 1;
      return looks > 3;
    },
  };
  const soon = await balance(line!, { signal });
  expect([soon.result.outcome === "refused", soon.plan !== null]).toEqual([false, true]);
  // Whatever still begins then looks once more, and ends.
  expect([looks > 3, looks < 30]).toEqual([true, true]);
  const { result, plan } = await balance(line!, { signal: { aborted: true } });
  expect([result.outcome, plan !== null]).toEqual(["found", true]);
});

it("gives the same objects' contents whatever was asked before, and changes none of its inputs", async () => {
  const [line, again] = [smallLine(), smallLine()];
  const before = JSON.stringify(line);
  await compare(line);
  expect(JSON.stringify(line)).toBe(before);
  expect((await balance(line)).result).toEqual((await balance(again)).result);
  expect(smallPlan(line).text).toBe(PLAN_TEXT);
});
