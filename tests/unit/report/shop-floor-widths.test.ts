import { readFileSync } from "node:fs";
import stringWidth from "string-width";
import { describe, expect, it } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";
import { readCommandLine, readScenario } from "../../tools/scenario.js";

/** Scenarios that between them show every part of a balance that a plain line does not have. */
const SCENARIOS = [
  "a-floor-with-everything-on-it",
  "a-job-on-every-tenth-unit",
  "a-lift-of-two-people-counts-twice",
  "a-machine-is-loaded-and-runs-within-the-cycle",
  "a-quarter-is-worked-again",
  "a-task-over-the-limit-of-one-station-only",
  "glue-that-sets-is-no-work",
  "models-are-weighted-by-their-shares",
  "places-are-counted-as-people",
  "rules-that-no-plan-keeps",
  "scrap-at-a-test-slows-only-what-comes-before",
  "the-average-fits-and-the-order-does-not",
  "the-right-side-waits-for-the-left",
  "walking-counts",
];

const cases = SCENARIOS.flatMap((name) => {
  const text = readFileSync(new URL(`../../scenarios/${name}.scenario`, import.meta.url), "utf8");
  const { files, runs } = readScenario(text);
  const commands = runs.map(({ command }) => command).filter((command) => !command.includes("--json"));
  return commands.map((command) => ({ command, name, files }));
});

describe.each([50, 80, 200])("on a terminal of %i columns", (terminal) => {
  it.each(cases)("$command of $name is no wider", async ({ command, files }) => {
    const args = [...readCommandLine(command).args];
    const { stdout } = await runLinepoise({ args, files, terminal, env: { NO_COLOR: "1" } });
    const tooWide = stdout.split("\n").filter((row) => stringWidth(row) > terminal);
    // What names a place in a file is never broken: an editor jumps to it.
    expect(tooWide.filter((row) => !/^\S+\.yaml:/u.test(row))).toEqual([]);
  });
});

describe("a station of several people on a narrow terminal", () => {
  it("says so beside its tasks, where a wide one has columns for it", async () => {
    const line =
      "line: x\nunit: s\nmax-places: 2\ntasks: {press: 100, lift: {time: 30, people: 2, after: press}}\n";
    const show = async (terminal: number) => {
      const args = ["balance", "line.yaml", "--cycle", "60"];
      const run = await runLinepoise({
        args,
        files: { "line.yaml": line },
        terminal,
        env: { NO_COLOR: "1" },
      });
      return run.stdout.split("\n");
    };
    const narrow = await show(60);
    expect(narrow.find((row) => row.startsWith("  S1"))).toContain("press (2 people at 2");
    expect(narrow.find((row) => row.startsWith("  S2"))).toContain("lift (2 people)");
    expect(narrow.find((row) => row.startsWith("  station"))).not.toContain("people");
    expect((await show(100)).find((row) => row.startsWith("  station"))).toMatch(/people {2}places/u);
  });
});
