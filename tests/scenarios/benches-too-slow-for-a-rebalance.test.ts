import { expect, it } from "vitest";
import { runLinepoise } from "../tools/run-linepoise.js";

const LINE =
  "unit: s\ndemand: 60 per hour\nbenches: {wheels: {tasks: [lace]}}\ntasks: {lace: 50, a: {time: 20, after: lace}, b: {time: 20, after: a}, c: {time: 40, after: b}}\n";
const PLAN = `${[
  "format: linepoise-plan/1",
  "stations: [{id: S1, tasks: [a, b]}, {id: S2, tasks: [c]}]",
  "benches: [{id: wheels, tasks: [lace]}]",
].join("\n")}\n`;

const run = (plan: string, ...args: readonly string[]) =>
  runLinepoise({ args, files: { "own.line.yaml": LINE, "today.plan.yaml": plan } });

it("A bench that stays slower than the new pace is told, where check fails the new plan for it", async () => {
  // 3,600 / 50 = 72 units an hour is the most that the bench makes.
  for (const [demand, isSlow] of [
    [72, false],
    [73, true],
  ] as const) {
    const asked = ["--demand", `${demand} per hour`];
    const to = [
      "rebalance",
      "own.line.yaml",
      "--from",
      "today.plan.yaml",
      "--write",
      "new.plan.yaml",
      ...asked,
    ];
    const { status, stderr, files } = await run(PLAN, ...to);
    const checked = await run(files["new.plan.yaml"]!, "check", "own.line.yaml", "today.plan.yaml", ...asked);
    expect([demand, status, checked.status]).toEqual([demand, 0, isSlow ? 1 : 0]);
    expect(stderr.includes("bench wheels takes 50 s a unit and has 49.315 s at this pace")).toBe(isSlow);
    expect(stderr.includes("[bench-too-slow]")).toBe(isSlow);
  }
});

it("Of several demands those at which a bench stays too slow are told, each once", async () => {
  const { stderr } = await run(
    PLAN,
    "rebalance",
    "own.line.yaml",
    "--from",
    "today.plan.yaml",
    "--demand",
    "70, 73 per hour",
  );
  expect(stderr.match(/\[bench-too-slow\]/gu)).toHaveLength(1);
  expect(stderr).toContain("at 73 per hour: bench wheels takes 50 s a unit");
});
