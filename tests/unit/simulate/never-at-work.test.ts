import { expect, it } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";

const PLAN = "format: linepoise-plan/1\nline: l.yaml\nstations: [{id: S1, tasks: [a]}]\n";
const ARGS = ["simulate", "l.yaml", "p.yaml", "--hours", "0.01 h", "--replications", "1", "--warm-up", "0"];
const run = (more: string, every: number) =>
  runLinepoise({
    args: ARGS,
    files: {
      "l.yaml": `unit: s\nmodels: {x: 1, y: 1}\n${more}\ntasks:\n  a: {time: {x: 9, y: "-"}, every: ${every}}\n`,
      "p.yaml": PLAN,
    },
  });

it("A line on which no unit ever has work is refused, as its units would leave it without end", async () => {
  const { status, stdout, stderr } = await run("sequence: [x, y]", 2);
  expect([status, stdout]).toEqual([2, ""]);
  expect(stderr).toContain("no unit has any work");
});

it.each([
  ["sequence: [y, x]", 2],
  ["sequence: [x, y]", 3],
  ["sequence: [x, y]\nhandling: 1", 2],
])("%s and every %i have work for some unit, or handling", async (more, every) => {
  expect((await run(more, every)).status).toBe(0);
});
