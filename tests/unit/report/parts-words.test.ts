import { expect, it } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";

it("A parts list tells of figures in brackets only where it shows one: 9 good units of 10 started need 30 bolts, 2 need 6.67", async () => {
  const line = "unit: s\nyield: 90 %\ntasks: {fit: {time: 1, parts: {bolt: 3}}}\n";
  const told = async (units: string) => {
    const plan = "format: linepoise-plan/1\nline: a.line.yaml\nstations: [{id: S1, tasks: [fit]}]\n";
    const { stdout } = await runLinepoise({
      args: ["parts", "a.line.yaml", "a.plan.yaml", "--units", units],
      files: { "a.line.yaml": line, "a.plan.yaml": plan },
    });
    return [/\d+ \(\d/.test(stdout), /brackets/.test(stdout)];
  };
  expect(await told("9")).toEqual([false, false]);
  expect(await told("2")).toEqual([true, true]);
});
