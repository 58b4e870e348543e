import { readFile } from "node:fs/promises";
import { describe, expect, it } from "vitest";
import { runLinepoise } from "../tools/run-linepoise.js";

const DEMO = await readFile("examples/cargo-bike.line.yaml", "utf8");

/** Part of the work of the demo, for commands that balance it many times. */
const PART = `line: Cargo bike
unit: s
demand: 165 per day
calendar: {shifts: {early: {length: 8 h}}}
tasks:
  load-frame: {time: 95, on-base: true}
  lace-wheels: 90
  true-wheels: {time: 95, after: lace-wheels}
  fit-wheels: {time: 76, after: [load-frame, true-wheels]}
  fit-brakes: {time: 64, after: fit-wheels}
  bleed-brakes: {time: 83, after: fit-brakes}
  seat-cells: 95
  wire-pack: {time: 90, after: seat-cells}
  fit-battery: {time: 41, after: [load-frame, wire-pack]}
  adjust-gears: {time: 58, after: fit-wheels}
  torque-check: {time: 45, after: [fit-battery, bleed-brakes]}
  read-result: {time: 33, after: [adjust-gears, torque-check]}
  box-up: {time: 72, after: read-result}
options:
  wheels-off-line: {off-line: [[lace-wheels, true-wheels]]}
  busier: {demand: 180 per day}
`;

/** A line with other tests: what is tested, and how its entry reads then. */
function withTests(line: string, tests: Readonly<Record<string, string>>): string {
  return Object.entries(tests).reduce((text, [task, test]) => {
    const row = text.split("\n").find((each) => each.startsWith(`  ${task}:`))!;
    const own = row.replace(/, test: \{[^}]*\}/, "").replace(/\}\s*$/, `, test: {${test}}}`);
    return text.replace(row, own);
  }, line);
}

const TWO = {
  "read-result": "fail: 4.13 %, repair: 12 min, return-to: adjust-gears",
  "bleed-brakes": "fail: 2.37 %, repair: 60, return-to: bleed-brakes",
};
const THREE = {
  "read-result": "fail: 4.1 %, repair: 12 min, return-to: adjust-gears",
  "bleed-brakes": "fail: 2.3 %, repair: 60, return-to: bleed-brakes",
  "torque-check": "fail: 1.7 %, repair: 60, return-to: torque-check",
};

const run = (line: string, args: readonly string[], files: Readonly<Record<string, string>> = {}) =>
  runLinepoise({ args, files: { "line.yaml": line, ...files } });

async function planOf(line: string): Promise<string> {
  const { status, files } = await run(line, [
    "balance",
    "line.yaml",
    "--write",
    "plan.yaml",
    "--nodes",
    "2000",
  ]);
  expect(status).toBe(0);
  return files["plan.yaml"]!;
}

describe.each([
  ["two tests of 4.13 % and 2.37 %", TWO],
  ["three tests of 4.1 %, 2.3 % and 1.7 %", THREE],
])("%s", (_, tests) => {
  const line = withTests(PART, tests);

  it("have a balance on a line of 38 tasks with a roller bench", async () => {
    const { status, stdout } = await run(withTests(DEMO, tests), ["balance", "line.yaml", "--nodes", "2000"]);
    expect([status, stdout === ""]).toEqual([0, false]);
  });

  it.each([
    ["balance", ["balance", "line.yaml", "--nodes", "2000"]],
    ["balance by one method", ["balance", "line.yaml", "--method", "positional-weight", "--explain"]],
    ["a fixed number of stations", ["balance", "line.yaml", "--stations", "6", "--nodes", "2000"]],
    ["blocks off the line", ["off-line", "line.yaml", "--nodes", "2000"]],
    ["options side by side", ["compare", "line.yaml", "--nodes", "2000"]],
    ["a curve of people", ["staff", "line.yaml", "--demand", "160..170/10 per day", "--nodes", "2000"]],
  ])("have an answer: %s", async (_what, args) => {
    const { status, stdout } = await run(line, args);
    expect([status, stdout === ""]).toEqual([0, false]);
  });

  it("have a plan that `check` lets pass and `rebalance` moves on from", async () => {
    const files = { "plan.yaml": await planOf(line) };
    expect((await run(line, ["check", "line.yaml", "plan.yaml"], files)).status).toBe(0);
    const args = ["rebalance", "line.yaml", "--from", "plan.yaml", "--demand", "180 per day"];
    const moved = await run(line, [...args, "--nodes", "2000"], files);
    expect(moved.status).toBe(0);
  });
});

describe("tests whose loads have no common unit", () => {
  it("show station times of true loads: 83 s of bleeding brakes are 83 / 0.9763 = 85.014852 s a good unit", async () => {
    const text = [
      "line: bikes",
      "unit: s",
      "tasks:",
      "  bleed-brakes: {time: 83, test: {fail: 2.37 %, repair: 60, return-to: bleed-brakes}}",
      "  gears: {time: 71, after: bleed-brakes, test: {fail: 4.13 %, repair: 60, return-to: gears}}",
      "  lights: {time: 55, after: gears, test: {fail: 1.79 %, repair: 60, return-to: lights}}",
      "",
    ].join("\n");
    const { stdout } = await run(text, ["balance", "line.yaml", "--cycle", "90", "--json"]);
    const answer = JSON.parse(stdout);
    // 71 / 0.9587 = 74.058621; 55 / 0.9821 = 56.002444
    const times = answer.stations.map(({ seconds }: { seconds: number }) => seconds);
    expect(times).toEqual([85.014852, 74.058621, 56.002444]);
    expect([answer.outcome, answer.bound.stations]).toEqual(["proved", 3]);
    expect(answer.measures.cycleOfPlanSeconds).toBe(85.014852);
    // bleed-brakes alone takes that, whatever the rounding of sums.
    expect([answer.level.outcome, answer.level.boundSeconds]).toEqual(["proved", 85.014852]);
  });

  it("say how close the shortest cycle is known, where sums of rounded loads decide", async () => {
    const row = (id: string, time: number, fail: number, after: string) =>
      `  ${id}: {time: ${time}, test: {fail: ${fail} %, repair: 60, return-to: ${id}}${after}}`;
    const text = [
      "line: bikes",
      "unit: s",
      "tasks:",
      row("a", 40, 3.13, ""),
      row("b", 41, 2.37, ", after: a"),
      row("c", 42, 1.79, ", after: b"),
      row("d", 43, 4.13, ", after: c"),
      "",
    ].join("\n");
    const { status, stdout } = await run(text, ["balance", "line.yaml", "--cycle", "100", "--json"]);
    const answer = JSON.parse(stdout);
    expect([status, answer.outcome, answer.level.outcome]).toEqual([0, "proved", "found"]);
    // c and d: 42 / 0.9821 + 43 / 0.9587 = 87.617907 s
    expect(answer.measures.cycleOfPlanSeconds).toBe(87.617907);
    expect(answer.level.boundSeconds).toBe(87.617907);
    const note = answer.findings.find(({ rule }: { rule: string }) => rule === "rounded-times");
    expect(note.message).toContain("counted to one part in 100,000,000,000,000");
  });
});

describe("four tests of 3, 7, 2.3 and 1.7 %, each back to the first task", () => {
  const line = [
    "line: bikes",
    "unit: s",
    "tasks:",
    "  a: {time: 60, test: {fail: 3 %, repair: 60, return-to: a}}",
    "  b: {time: 50, after: a, test: {fail: 7 %, repair: 60, return-to: a}}",
    "  c: {time: 40, after: b, test: {fail: 2.3 %, repair: 60, return-to: a}}",
    "  d: {time: 30, after: c, test: {fail: 1.7 %, repair: 60, return-to: a}}",
    "",
  ].join("\n");

  it.each([[[]], [["--nodes", "300"]], [["--nodes", "1"]]])(
    "end at three stations with %s",
    async (limit) => {
      const { status, stdout } = await run(line, [
        "balance",
        "line.yaml",
        "--stations",
        "3",
        "--json",
        ...limit,
      ]);
      const { measures, search } = JSON.parse(stdout);
      expect([status, measures.stations]).toEqual([0, 3]);
      if (limit.length > 0) expect(search.nodes).toBeLessThanOrEqual(Number(limit[1]) + 10);
    },
  );

  it("end at once when interrupted, under a rule as well", async () => {
    const ruled = line.replace("tasks:", "apart: [[a, d]]\ntasks:");
    for (const text of [line, ruled]) {
      const args = ["balance", "line.yaml", "--stations", "2", "--nodes", "1000000"];
      const { status } = await runLinepoise({
        args,
        files: { "line.yaml": text },
        onStart: (press) => press(),
      });
      expect([0, 130]).toContain(status);
    }
  });
});

it("Loads of a common step are counted although the working time, at which a task over it is cut, has none of it", async () => {
  const tasks = [
    "a: 30",
    ...[0.1, 0.1, 3].map((scrap, at) => `t${at}: {time: 10, test: {scrap: ${scrap} %}}`),
  ];
  const line = `unit: s\ntasks:\n${tasks.map((each) => `  ${each}\n`).join("")}  last: {time: 10, after: [a, t0, t1, t2]}\n`;
  const args = ["balance", "a.line.yaml", "--cycle", "20.000001 s"];
  const { stdout, stderr, status } = await runLinepoise({ args, files: { "a.line.yaml": line } });
  expect(stdout + stderr).toContain("no station can hold it");
  expect(status).toBe(1);
});
