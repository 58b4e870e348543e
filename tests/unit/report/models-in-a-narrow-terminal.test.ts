import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";

const twoModels = readFileSync(new URL("../../../examples/two-models.line.yaml", import.meta.url), "utf8");

it("shows stations by model in 50 columns without breaking a number from its unit, and no line longer", async () => {
  const files = { "line.yaml": twoModels };
  const env = { NO_COLOR: "1" };
  const { stdout } = await runLinepoise({ args: ["balance", "line.yaml"], files, env, terminal: 50 });
  const table = stdout.slice(stdout.indexOf("MODELS"), stdout.indexOf("Shares are of the working time"));
  const lines = table.split("\n");
  expect(lines.filter((line) => line.length > 50)).toEqual([]);
  expect(lines.filter((line) => /^\s*(?:s|%|,)/u.test(line) && !/station/u.test(line))).toEqual([]);
  expect(table).toContain(
    "  S2       70.4 s, 86.5 %       16.625 s  16.625 s\n           cargo 98 s, 120.4 %\n",
  );
});
