import { readFile } from "node:fs/promises";
import stringWidth from "string-width";
import { describe, expect, test } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";

const study = async (columns: number) => {
  const readings = await readFile(
    new URL("../../../examples/cargo-bike.readings.csv", import.meta.url),
    "utf8",
  );
  const { stdout } = await runLinepoise({
    args: ["study", "r.csv", "--unit", "s", "--leave-out", "*", "--picture", "fit-motor"],
    files: { "r.csv": readings },
    env: { COLUMNS: String(columns) },
  });
  return stdout;
};

describe("a study in a narrow terminal", () => {
  test.each([100, 80, 64, 50, 40])("has no line of more than %d columns", async (columns) => {
    const lines = (await study(columns)).split("\n");
    expect(lines.filter((line) => stringWidth(line) > columns)).toEqual([]);
  });

  test("names the figures that it leaves out, the least asked for first", async () => {
    expect(await study(100)).not.toContain("left out for width");
    expect(await study(80)).toContain("  spread left out for width; see --json\n");
    const narrow = (await study(50)).replace(/\s+/gu, " ");
    expect(narrow).toContain("element readings standard needed");
    expect(narrow).toContain("mean, spread, rating and normal left out for width; see --json");
  });
});
