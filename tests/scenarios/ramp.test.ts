import { readFileSync } from "node:fs";
import stringWidth from "string-width";
import { describe, expect, it } from "vitest";
import { runLinepoise } from "../tools/run-linepoise.js";

const example = (name: string) => readFileSync(new URL(`../../examples/${name}`, import.meta.url), "utf8");
const files = { "line.yaml": example("basket.line.yaml"), "plan.yaml": example("basket.plan.yaml") };
const args = ["ramp", "line.yaml", "plan.yaml", "--units", "20000"];

describe("A terminal of so many columns holds every line of a ramp:", () => {
  it.each([60, 80, 200])("%i", async (terminal) => {
    const { stdout, status } = await runLinepoise({ args, files, terminal, env: { NO_COLOR: "1" } });
    expect(status).toBe(0);
    expect(stdout.split("\n").filter((line) => stringWidth(line) > terminal)).toEqual([]);
  });
});

it("Colour adds nothing to a ramp but colour", async () => {
  const plain = await runLinepoise({ args, files, terminal: 100, env: { NO_COLOR: "1" } });
  const coloured = await runLinepoise({ args, files, terminal: 100, env: {} });
  expect(coloured.stdout).not.toBe(plain.stdout);
  // biome-ignore lint/suspicious/noControlCharactersInRegex: colours are what is taken out
  expect(coloured.stdout.replace(/\u001b\[\d+m/gu, "")).toBe(plain.stdout);
});

it("A table for a spreadsheet has a row for each unit that is shown, with station times in seconds", async () => {
  const { stdout, status } = await runLinepoise({
    args: ["ramp", "line.yaml", "plan.yaml", "--units", "3", "--each", "--format", "csv"],
    files,
  });
  expect(status).toBe(1);
  const rows = stdout.split("\r\n");
  expect(rows.slice(0, 4)).toEqual([
    "unit,day,cycle of the plan (s),slowest station,stations over the pace,extra people,B1 (s),B2 (s),B3 (s),B4 (s),B5 (s)",
    "1,1,1093.882651,B3,4,15.874299,367.579704,1034.996475,1089.882651,582.536698,125.545237",
    "2,1,875.906121,B3,4,12.294294,323.14759,827.99718,871.906121,495.156193,109.413451",
    expect.stringMatching(/^3,1,/u),
  ]);
  expect(rows.filter((row) => row.startsWith("caution,"))).toHaveLength(2);
});

it("Each unit and each day is shown where that is asked for", async () => {
  const some = await runLinepoise({ args: [...args.slice(0, 4), "3000", "--json"], files });
  const each = await runLinepoise({ args: [...args.slice(0, 4), "3000", "--json", "--each"], files });
  const [few, all] = [some, each].map(({ stdout }) => JSON.parse(stdout));
  expect(all.byUnit.map((row: { unit: number }) => row.unit)).toEqual(
    Array.from({ length: 3000 }, (_, at) => at + 1),
  );
  expect(few.byUnit.length).toBeLessThan(15);
  expect(few.byDay).toEqual(all.byDay);
  expect({ ...few, byUnit: [] }).toEqual({ ...all, byUnit: [] });
});

it("One unit takes a day and more work in words of its own", async () => {
  const { stdout } = await runLinepoise({ args: [...args.slice(0, 4), "1"], files });
  expect(stdout.replace(/\s+/gu, " ")).toContain(
    "The pace is not met with one unit: B3 takes 1,093.883 s for the last one, and the line cycle is 155.527 s. It will be by unit 600, when the times are settled. The unit takes 1 day, and 44 min more work than at the file's times.",
  );
});

it("Ctrl-C ends a long batch with what is worked out until then", async () => {
  const slow = files["line.yaml"].replace("time-at: 600", "time-at: 1000000");
  let press: (() => void) | null = null;
  const { stdout, status } = await runLinepoise({
    args: ["ramp", "line.yaml", "plan.yaml", "--units", "1000000"],
    files: { ...files, "line.yaml": slow },
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
  expect(stdout).toContain(
    "  Stopped after 63 of 1,000,000 units. The pace is not met within 63 units: B3 takes",
  );
  expect(status).toBe(130);
});

it("A plan that breaks a rule of the line is told, with status 1", async () => {
  const wrong = files["plan.yaml"].replace("[cut-slats, bend-hoops]", "[bend-hoops, cut-slats]");
  const { stdout, stderr, status } = await runLinepoise({ args, files: { ...files, "plan.yaml": wrong } });
  expect(stdout).toContain("The plan fails with 1 error; all figures are of its stations as they stand.");
  expect(stderr).toContain("bend-hoops");
  expect(status).toBe(1);
});
