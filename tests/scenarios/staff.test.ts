import { readFileSync } from "node:fs";
import stringWidth from "string-width";
import { describe, expect, it } from "vitest";
import { runLinepoise } from "../tools/run-linepoise.js";

const demo = readFileSync(new URL("../../examples/cargo-bike.line.yaml", import.meta.url), "utf8");
const files = { "cargo-bike.line.yaml": `${demo}\nattendance: 95 %\nrelief: 5 %\n` };
const args = ["staff", "cargo-bike.line.yaml", "--demand", "120..240/40"];

describe("A terminal of so many columns holds every line of the staffing report:", () => {
  it.each([50, 80, 200])("%i", async (terminal) => {
    const { stdout, status } = await runLinepoise({ args, files, terminal, env: { NO_COLOR: "1" } });
    expect(status).toBe(0);
    const lines = stdout.split("\n");
    expect(lines.filter((line) => stringWidth(line) > terminal)).toEqual([]);
    // What is asked of any row stands there, however narrow the terminal.
    for (const head of ["demand", "people", "stations", "efficiency", "proof"]) {
      expect(lines.find((line) => line.startsWith("  demand"))).toContain(head);
    }
  });
});

it("Colour adds nothing to the staffing report but colour", async () => {
  const plain = await runLinepoise({ args, files, terminal: 100, env: { NO_COLOR: "1" } });
  const coloured = await runLinepoise({ args, files, terminal: 100, env: {} });
  expect(coloured.stdout).not.toBe(plain.stdout);
  // biome-ignore lint/suspicious/noControlCharactersInRegex: colours are what is taken out
  expect(coloured.stdout.replace(/\u001b\[\d+m/gu, "")).toBe(plain.stdout);
});

it("A thousand demands have a row each, in an answer of the same bytes each time", async () => {
  const line = "line: Pairs\nunit: s\ndemand: 60 per hour\ntasks: {a: 3, b: 3, c: 3}\n";
  const asked = {
    args: ["staff", "pairs.yaml", "--demand", "1..1000/1", "--json"],
    files: { "pairs.yaml": line },
  };
  const [one, two] = [await runLinepoise(asked), await runLinepoise(asked)];
  expect(one.stdout).toBe(two.stdout);
  const { rows, steps } = JSON.parse(one.stdout);
  // 3,600 s / 9 s = 400 an hour by one person, 600 by two (6 s), 1,200 by three.
  expect(rows).toHaveLength(1000);
  expect(steps.map((step: Record<string, unknown>) => [step.people, step.fromDemand, step.toDemand])).toEqual(
    [
      [1, 1, 400],
      [2, 401, 600],
      [3, 601, 1000],
    ],
  );
});
