import { readFileSync } from "node:fs";
import stringWidth from "string-width";
import { expect, it } from "vitest";
import { runLinepoise } from "../tools/run-linepoise.js";

const example = (name: string) => readFileSync(new URL(`../../examples/${name}`, import.meta.url), "utf8");

/** Two people of a press whose units stand long, with walking and times of three decimals. */
const PRESS = [
  "unit: s",
  "demand: 200 per day",
  "calendar: {shifts: {day: {length: 8 h}}}",
  "max-crew: 2",
  "learning: {share: 85 %, time-at: 500}",
  "tasks:",
  "  load: {time: 50.125, walking: 4.25}",
  "  press: {time: 20.375, machine-time: 30.5, after: load}",
  "  clean: 45.625",
  "",
].join("\n");
const PRESS_PLAN = [
  "format: linepoise-plan/1",
  "stations:",
  "  - {id: S1, tasks: [load, clean, press], persons: {load: 1, clean: 2, press: 1}}",
  "",
].join("\n");

const SHORT = [
  "unit: s",
  "demand: 60 per hour",
  "learning: {share: 85 %, time-at: 500}",
  "tasks: {a: {time: 20, move-cost: 4}, b: {time: 14, after: a, move-cost: 5}, c: {time: 20, after: b, move-cost: 3}}",
  "",
].join("\n");
const SHORT_PLAN = "format: linepoise-plan/1\nstations: [{id: S1, tasks: [a, b, c]}]\n";

const files = {
  "short.yaml": SHORT,
  "short.plan.yaml": SHORT_PLAN,
  "press.yaml": PRESS,
  "press.plan.yaml": PRESS_PLAN,
  "packing.yaml": example("packing.line.yaml"),
  "packing.plan.yaml": example("packing.plan.yaml"),
  "bike.yaml": example("cargo-bike.line.yaml"),
  "bike.plan.yaml": example("cargo-bike.plan.yaml"),
  "wheels.yaml": example("wheels.line.yaml"),
  "wheels.plan.yaml": example("wheels.plan.yaml"),
};

it.each([
  "show press.yaml press.plan.yaml",
  "parts packing.yaml packing.plan.yaml --units 10",
  "chart bike.yaml bike.plan.yaml",
  "ramp press.yaml press.plan.yaml --units 50000",
  "rebalance short.yaml --from short.plan.yaml --demand 120_per_hour",
  "rebalance short.yaml --from short.plan.yaml --demand 60,120,144_per_hour --people-above 1",
])("On a terminal of 50 columns no line of %s is wider, and nothing is cut off", async (command) => {
  const { status, stdout } = await runLinepoise({
    args: command.split(" ").map((word) => word.replaceAll("_", " ")),
    files,
    terminal: 50,
    env: { NO_COLOR: "1" },
  });
  expect(status).toBeLessThan(2);
  expect(stdout.split("\n").filter((line) => stringWidth(line) > 50)).toEqual([]);
  expect(stdout).not.toContain("…");
});

it.each([
  ["chart bike.yaml bike.plan.yaml", 13],
  ["chart wheels.yaml wheels.plan.yaml", 4],
  ["chart packing.yaml packing.plan.yaml --of order", 0],
  ["chart bike.yaml bike.plan.yaml --of station --station S11", 2],
])(
  "On a terminal of 40 columns %s is no wider, with bars that can be read and every label whole",
  async (command, barsDrawn) => {
    const args = command.split(" ");
    const narrow = await runLinepoise({ args, files, terminal: 40, env: { NO_COLOR: "1" } });
    const wide = await runLinepoise({ args, files });
    expect(narrow.stdout.split("\n").filter((line) => stringWidth(line) > 40)).toEqual([]);
    expect(narrow.stdout).not.toContain("…");
    // Every figure of the wide one is there, and bars are drawn anew.
    for (const figure of wide.stdout.match(/[\d.]+ (?:s|%)/gu) ?? [])
      expect(narrow.stdout.replaceAll(/\s+/gu, " ")).toContain(figure);
    const bars = narrow.stdout.split("\n").filter((line) => /[■/]{8}|[a-z.]{16}/u.test(line));
    expect(bars.length).toBe(barsDrawn);
  },
);

const AUDITED = [
  "unit: s",
  "demand: 200 per day",
  "calendar: {shifts: {day: {length: 8 h}, evening: {length: 7.5 h}}}",
  "rates: {person-hour: 30, currency: EUR}",
  "models: {city: 60 %, cargo: 40 %}",
  "options: {wheels: {off-line: [[lace, fit-rim]], once: 12500}, quick: {handling: 0, demand: 180 per day}}",
  "tasks:",
  "  frame: {time: 130.25, on-base: true}",
  "  lace: {time: 60.5}",
  "  fit-rim: {time: {city: 70, cargo: 90}, after: lace}",
  "  fit-wheels: {time: 55.125, after: [frame, fit-rim]}",
  "  audit: {time: 400, every: 20, after: fit-wheels}",
  "",
].join("\n");

it.each(["compare audited.yaml", "balance audited.yaml"])(
  "On a terminal of 40 columns no line of %s is wider, and no figure is cut",
  async (command) => {
    const args = command.split(" ");
    const narrow = await runLinepoise({
      args,
      files: { "audited.yaml": AUDITED },
      terminal: 40,
      env: { NO_COLOR: "1" },
    });
    expect(narrow.status).toBe(0);
    expect(narrow.stdout).toContain(command.startsWith("compare") ? "QUICK" : "UNITS THAT TAKE LONGER");
    expect(narrow.stdout.split("\n").filter((line) => stringWidth(line) > 40)).toEqual([]);
    expect(narrow.stdout).not.toContain("…");
  },
);
