import { readFileSync } from "node:fs";
import stringWidth from "string-width";
import { describe, expect, it } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";
import { readCommandLine, readScenario } from "../../tools/scenario.js";

/** Scenarios that between them show every table of a simulation. */
const SCENARIOS = [
  "a-bench-builds-in-the-evening-what-the-line-takes-in-the-morning",
  "a-station-waits-for-its-parts",
  "what-would-help-a-line-with-a-test",
];

const cases = SCENARIOS.flatMap((name) => {
  const text = readFileSync(new URL(`../../scenarios/${name}.scenario`, import.meta.url), "utf8");
  const { files, runs } = readScenario(text);
  const { command } = runs.find((run) => run.command.startsWith("linepoise simulate"))!;
  return { command, name, files };
});

const simulated = async (command: string, files: Record<string, string>, terminal: number) => {
  const { args } = readCommandLine(command);
  const { stdout } = await runLinepoise({ args: [...args], files, terminal, env: { NO_COLOR: "1" } });
  return stdout;
};

describe.each([40, 50, 80])("on a terminal of %i columns", (terminal) => {
  it.each(cases)("$command of $name is no wider", async ({ command, files }) => {
    const shown = await simulated(command, files, terminal);
    expect(shown).toContain("STATIONS");
    expect(shown.split("\n").filter((row) => stringWidth(row) > terminal)).toEqual([]);
  });
});

describe("the stations of a simulation on a narrow terminal", () => {
  it("have in words what a wider one has in columns", async () => {
    const file = (name: string) =>
      readFileSync(new URL(`../../../examples/${name}`, import.meta.url), "utf8");
    const files = { "l.yaml": file("cargo-bike.line.yaml"), "p.yaml": file("cargo-bike.plan.yaml") };
    const command = "linepoise simulate l.yaml p.yaml --hours 2 --warm-up 1 --replications 2";
    const numbersAt = (shown: string) => {
      const [, table] = /STATIONS\n.*\n([\s\S]*?)\n {2}starved:/u.exec(shown)!;
      return table!.replace(/[a-z,]|\s/gu, "");
    };
    const narrow = await simulated(command, files, 50);
    expect(narrow.replace(/\s+/gu, " ")).toMatch(
      / S1 busy [\d.]+ %, starved [\d.]+ %, blocked [\d.]+ %, down 0 %/u,
    );
    expect(numbersAt(narrow)).toBe(numbersAt(await simulated(command, files, 100)));
  });
});
