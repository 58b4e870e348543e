import { readdirSync, readFileSync } from "node:fs";
import stringWidth from "string-width";
import { describe, expect, it } from "vitest";
import { runLinepoise } from "../tools/run-linepoise.js";
import { readCommandLine, readScenario } from "../tools/scenario.js";

const folder = new URL(".", import.meta.url);
/** Every command of the scenarios that asks for blocks and prints for people. */
const runs = readdirSync(folder)
  .filter((name) => name.endsWith(".scenario"))
  .sort()
  .map((name) => readScenario(readFileSync(new URL(name, folder), "utf8")))
  .flatMap(({ files, runs: all }) => all.map(({ command }) => ({ files, ...readCommandLine(command) })))
  .filter(({ args }) => args[0] === "off-line" && !args.includes("--json"));

describe.each([50, 80, 200])("On a terminal of %i columns", (columns) => {
  it("no line of an off-line answer is wider, and nothing is cut off", async () => {
    expect(runs.length).toBeGreaterThan(8);
    for (const { args, files } of runs) {
      const { stdout } = await runLinepoise({
        args: [...args],
        files,
        terminal: columns,
        env: { NO_COLOR: "1" },
      });
      expect(stdout.split("\n").filter((line) => stringWidth(line) > columns)).toEqual([]);
      expect(stdout).not.toContain("…");
    }
  });
});
