import { expect, it } from "vitest";
import { runLinepoise } from "../tools/run-linepoise.js";

it("The chart of a bench tells what handing over takes, so that its times and those of the plan agree", async () => {
  const files = {
    "own.line.yaml":
      "unit: s\ndemand: 60 per hour\nbenches: {wheels: {tasks: [lace, rim], hand-over: 3 s, stations: 2}}\ntasks: {lace: 20, rim: {time: 15, after: lace}, a: {time: 40, after: rim}}\n",
    "own.plan.yaml":
      "format: linepoise-plan/1\nstations: [{id: S1, tasks: [a]}]\nbenches: [{id: W1, tasks: [lace]}, {id: W2, tasks: [rim]}]\n",
  };
  const show = async (...args: readonly string[]) =>
    (await runLinepoise({ args: ["show", "own.line.yaml", "own.plan.yaml", ...args], files })).stdout;
  // 15 s of work and 3 s of handing over, at the last station of the bench alone.
  expect((await show()).replaceAll(/ +/gu, " ")).toContain("W2 rim 1 1 18 s 60 s");
  const handed = "Handing its parts over to the line takes 3 s more, which is not drawn.";
  const told = await show("--station", "W2");
  expect(told).toContain("A unit stands 15 s.");
  expect(told.replaceAll(/\s+/gu, " ")).toContain(handed);
  expect(JSON.parse(await show("--station", "W2", "--json")).handOverSeconds).toBe(3);
  for (const other of ["W1", "S1"]) {
    expect((await show("--station", other)).replaceAll(/\s+/gu, " ")).not.toContain("Handing");
    expect(JSON.parse(await show("--station", other, "--json")).handOverSeconds).toBeNull();
  }
});
