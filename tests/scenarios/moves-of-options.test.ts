import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { runLinepoise } from "../tools/run-linepoise.js";

const example = (name: string) => readFileSync(new URL(`../../examples/${name}`, import.meta.url), "utf8");
const files = {
  "cargo-bike.line.yaml": example("cargo-bike.line.yaml"),
  "last-season.plan.yaml": example("last-season.plan.yaml"),
};

async function compare(...more: readonly string[]): Promise<string> {
  const args = [
    "compare",
    "cargo-bike.line.yaml",
    "--from",
    "last-season.plan.yaml",
    "--nodes",
    "20000",
    ...more,
  ];
  const { stdout, status } = await runLinepoise({ args, files, terminal: 120, env: { NO_COLOR: "1" } });
  expect(status).toBe(0);
  return stdout;
}

/** Milliseconds after which the test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 120_000;

const lineWith = (text: string, start: string): string =>
  text.split("\n").find((line) => line.trimStart().startsWith(start))!;

it(
  "An option whose moves are not proved the fewest says so in every form; one that is proved gives the number",
  async () => {
    const text = await compare();
    expect(lineWith(text, "moves from today")).toMatch(
      /^ {2}moves from today +10 ✓ +at most 14 +\+4 +13 +\+3$/u,
    );
    expect(text.replaceAll(/\s+/gu, " ")).toContain(
      "one buffer stock and at most 14 moves from today's plan",
    );
    expect(lineWith(await compare("--format", "markdown"), "| moves")).toBe(
      "| moves from today | **10** ✓ | at most 14 (+4) | 13 (+3) |",
    );
    expect(lineWith(await compare("--format", "csv"), "moves").trimEnd()).toBe(
      "moves from today,tasks,10,best,14,4,at most,13,3,",
    );
    const { options } = JSON.parse(await compare("--json"));
    expect(
      options.map((each: Record<string, Record<string, unknown>>) => [
        each.figures!.moves,
        each.movesOutcome,
      ]),
    ).toEqual([
      [10, "proved"],
      [14, "found"],
      [13, "proved"],
    ]);
  },
  LONGEST_TEST,
);
