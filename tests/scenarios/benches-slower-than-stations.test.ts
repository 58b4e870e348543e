import { expect, it } from "vitest";
import { runLinepoise } from "../tools/run-linepoise.js";

it("Where a bench is slower than every station, the table of stations marks none and says so", async () => {
  const show = (lace: number) =>
    runLinepoise({
      args: ["show", "own.line.yaml", "own.plan.yaml"],
      files: {
        "own.line.yaml": `unit: s\ndemand: 60 per hour\ntasks: {lace: ${lace}, a: {time: 40, after: lace}, b: {time: 30, after: a}}\n`,
        "own.plan.yaml":
          "format: linepoise-plan/1\nstations: [{id: S1, tasks: [a]}, {id: S2, tasks: [b]}]\nbenches: [{id: wheels, tasks: [lace]}]\n",
      },
    });
  const slow = (await show(50)).stdout;
  expect(slow).toContain("bench wheels is slower than every station");
  expect(slow).not.toContain("* the slowest station");
  const quick = (await show(35)).stdout;
  expect(quick).toMatch(/^ {2}S1 \* [\s\S]*^ {2}\* the slowest station$/mu);
  expect(quick).not.toContain("slower than every station");
});
