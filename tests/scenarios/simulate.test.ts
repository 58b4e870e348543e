import { readFileSync } from "node:fs";
import stringWidth from "string-width";
import { describe, expect, it } from "vitest";
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

it.each([
  ["--format", "csv"],
  ["--format", "svg"],
  ["--out", "stations.xlsx"],
])("What would help is not dropped: %s %s has no room for it", async (option, value) => {
  const { stderr, status } = await runLinepoise({ args: [...args, "--what-helps", option, value], files });
  expect(stderr).toMatch(/^error: --what-helps: /u);
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
