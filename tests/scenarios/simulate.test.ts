import { readFileSync } from "node:fs";
import readSheets from "read-excel-file/node";
import stringWidth from "string-width";
import { describe, expect, it } from "vitest";
import type { Context } from "../../src/commands/context.js";
import { registerSimulate } from "../../src/commands/simulate.js";
import { runLinepoise } from "../tools/run-linepoise.js";

const example = (name: string) => readFileSync(new URL(`../../examples/${name}`, import.meta.url), "utf8");
const files = { "line.yaml": example("wheels.line.yaml"), "plan.yaml": example("wheels.plan.yaml") };
const args = ["simulate", "line.yaml", "plan.yaml", "--hours", "8"];

describe("A terminal of so many columns holds every line of a simulation:", () => {
  it.each([60, 80, 200])("%i", async (terminal) => {
    const { stdout, status } = await runLinepoise({ args, files, terminal, env: { NO_COLOR: "1" } });
    expect(status).toBe(0);
    expect(stdout.split("\n").filter((line) => stringWidth(line) > terminal)).toEqual([]);
  });
});

it("Benches fit a terminal of 60 columns, too", async () => {
  const line = [
    "unit: s",
    "variation: {shape: exponential}",
    'calendar: {shifts: {day: {from: "06:00", to: "14:00"}}}',
    "benches: {wheels: {tasks: build, shifts: 2, space: 200}}",
    "tasks: {build: 100, fit: {time: 60, after: build}}",
  ].join("\n");
  const plan = "stations: [{id: S1, tasks: [fit]}]\nbenches: [{id: wheels, tasks: [build]}]\n";
  const { stdout } = await runLinepoise({
    args,
    files: { "line.yaml": line, "plan.yaml": `format: linepoise-plan/1\n${plan}` },
    terminal: 60,
    env: { NO_COLOR: "1" },
  });
  expect(stdout).toContain("STOCK OF WHEELS");
  expect(stdout.split("\n").filter((each) => stringWidth(each) > 60)).toEqual([]);
});

it("Ctrl-C ends a simulation with the replications until then", async () => {
  let press: (() => void) | null = null;
  const { stdout, status } = await runLinepoise({
    args: [...args, "--replications", "100000"],
    files,
    onStart: (pressInterrupt) => {
      press = pressInterrupt;
    },
    // The work asks for the time when it begins.
    now: () => {
      press?.();
      press = null;
      return 0;
    },
  });
  expect(stdout).toMatch(/ {2}Stopped after 1 of 100,000 replications\. /u);
  expect(status).toBe(130);
});

it("A plan that breaks a rule of the line is told, with status 1", async () => {
  const wrong = files["plan.yaml"]
    .replace("[lay-spokes]", "[lace-wheel]")
    .replace("W2, tasks: [lace-wheel]", "W2, tasks: [lay-spokes]");
  const { stderr, status } = await runLinepoise({ args, files: { ...files, "plan.yaml": wrong } });
  expect(stderr).toContain("lay-spokes");
  expect(status).toBe(1);
});

it("The stations are a table of CSV with a row each", async () => {
  const { stdout } = await runLinepoise({ args: [...args, "--format", "csv"], files });
  const [head, ...rows] = stdout.split("\r\n");
  expect(head).toBe("id,busy,starved,blocked,down,overrun");
  expect(rows.slice(0, 4).map((row) => row.split(",")[0])).toEqual(["W1", "W2", "W3", "W4"]);
});

const csvOf = async (...more: string[]) => {
  const { stdout } = await runLinepoise({ args: [...args, "--format", "csv", ...more], files });
  return stdout.split("\r\n").map((row) => row.split(","));
};

it("Benches, their stock by the hour, and parts are tables of their own", async () => {
  const beside = {
    "l.yaml": `unit: s
demand: 60 per hour
calendar: {shifts: {day: {from: "06:00", to: "08:00"}}}
part-list: {P1: {pack: 10, replenish: 5 min, safety: 0 %}}
benches: {pre: {tasks: [cut], space: 4}}
tasks: {frame: {time: 60, parts: {P1: 1}, on-base: true}, cut: 30, mount: {time: 50, after: [frame, cut]}}
`,
    "p.yaml": `format: linepoise-plan/1
line: l.yaml
stations: [{id: S1, tasks: [frame]}, {id: S2, tasks: [mount]}]
benches: [{id: pre, tasks: [cut]}]
`,
  };
  const rowsOf = async (table: string) => {
    const args = ["simulate", "l.yaml", "p.yaml", "--hours", "8 h", "--format", "csv", "--table", table];
    const { stdout } = await runLinepoise({ args, files: beside });
    return stdout.split("\r\n").filter((row) => !row.startsWith("caution"));
  };
  // A set takes 30 s, a unit 60 s: half of the time the room is full.
  expect(await rowsOf("benches")).toEqual([
    "id,busy,starved,blocked,sets per hour,units waiting,room,stock mean,stock least,stock greatest,course of",
    expect.stringMatching(/^pre,0\.5,0,0\.5,60,0,4,/),
    "",
  ]);
  const [heads, ...hours] = await rowsOf("stock");
  expect(heads).toMatch(/,from hours,until hours,line,/);
  expect(hours.filter((row) => row.startsWith("pre,"))).toHaveLength(2);
  expect(await rowsOf("parts")).toContain("S1,P1,1,10,0");
});

it("The summary, the course and what would help are tables of their own", async () => {
  const summary = await csvOf("--table", "summary");
  expect(summary.slice(0, 4).map(([figure]) => figure)).toEqual(["figure", "seed", "replications", "hours"]);
  expect(summary.map(([figure]) => figure)).toEqual(
    expect.arrayContaining([
      "good units per hour mean",
      "work in process",
      "pass through (s)",
      "shift demand share",
    ]),
  );
  const course = await csvOf("--table", "course");
  expect(course[0]).toEqual(["until hours", "good units", "wanted", "units in line"]);
  expect(course[10]![0]).toBe("8");
  const changes = await csvOf("--table", "changes", "--what-helps", "--replications", "2");
  expect(changes[0]!.slice(0, 3)).toEqual(["change", "station", "people"]);
  expect(changes.filter(([change]) => change === "buffer").map(([, station]) => station)).toHaveLength(3);
});

it("The room between stations is a table of its own, where there is any", async () => {
  const [heads, first] = await csvOf("--table", "buffers");
  expect(heads).toEqual(["after", "before", "room", "units", "most", "share that waits", "wait (s)"]);
  expect(first!.slice(0, 3)).toEqual(["W1", "W2", "2"]);
});

it("A workbook has each of them on a sheet", async () => {
  const out = ["--out", "days.xlsx", "--what-helps", "--replications", "2", "--hours", "1"];
  let written: Uint8Array | null = null;
  const keeping = (context: Context): Context => ({
    ...context,
    writeText: async (_, content) => {
      written = content as Uint8Array;
    },
  });
  const { status } = await runLinepoise({
    args: ["simulate", "line.yaml", "plan.yaml", ...out],
    files,
    commands: [
      (program, act) => registerSimulate(program, (perform) => act((context) => perform(keeping(context)))),
    ],
  });
  expect(status).toBe(0);
  const sheets = await readSheets(Buffer.from(written!));
  expect(sheets.map(({ sheet }) => sheet)).toEqual(["stations", "summary", "course", "changes", "buffers"]);
  expect(sheets[3]!.data[0]!.slice(0, 2)).toEqual(["change", "station"]);
});

it.each([
  [["--format", "csv", "--what-helps"], "--what-helps: "],
  [["--format", "svg", "--what-helps"], "--what-helps: "],
  [["--format", "csv", "--table", "changes"], "--table changes: "],
  [["--format", "csv", "--table", "stock"], "--table stock: no bench is simulated"],
  [["--table", "course"], "--table goes with "],
])("Nothing that is asked for is dropped: %j", async (options, told) => {
  const { stderr, status } = await runLinepoise({ args: [...args, ...options], files });
  expect(stderr).toContain(`error: ${told}`);
  expect(status).toBe(2);
});

describe("What would take too long is refused before it begins:", () => {
  it.each([
    [["--hours", "1000000"], "Give --hours 243053 or --replications 4 at most"],
    [["--replications", "100000", "--hours", "500"], "Give --hours 46 or --replications 9683 at most"],
    [["--warm-up", "1000000"], "Give --replications 4 at most"],
  ])("%j", async (options, instead) => {
    const { stderr, status } = await runLinepoise({
      args: ["simulate", "line.yaml", "plan.yaml", ...options],
      files,
    });
    expect(stderr).toContain(instead);
    expect(status).toBe(2);
  });
});
