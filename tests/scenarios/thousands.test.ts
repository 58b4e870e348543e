import { expect, it } from "vitest";
import { runLinepoise } from "../tools/run-linepoise.js";

it("Thousands get a comma in units to start, in packs of a sheet and in the output of an error", async () => {
  const files = {
    "own.line.yaml":
      "unit: s\ndemand: 9600 per shift\ncalendar: {shifts: {day: {length: 8 h}}}\nyield: 99 %\npart-list: {nut: {pack: 12000}}\ntasks: {a: {time: 2, parts: {nut: 4}}, b: {time: 2, after: a}}\n",
    "own.plan.yaml": "format: linepoise-plan/1\nstations: [{id: S1, tasks: [a]}, {id: S2, tasks: [b]}]\n",
  };
  const ask = async (...args: readonly string[]) =>
    (await runLinepoise({ args: [args[0]!, "own.line.yaml", ...args.slice(1)], files })).stdout;
  expect(await ask("takt")).toMatch(/to start +9,697 /u);
  // 9,696.97 x 4 = 38,787.88 nuts.
  expect(await ask("sheets", "own.plan.yaml", "--format", "markdown")).toContain("4 (3.23) of 12,000");
  // 28,800 s / 2 s x 99 % = 14,256.
  expect(await ask("check", "own.plan.yaml", "--demand", "15000 per shift")).toContain(
    "14,256 good units a shift instead of 15,000",
  );
});
