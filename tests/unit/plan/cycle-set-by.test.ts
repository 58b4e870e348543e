import { expect, it } from "vitest";
import { measurePlan } from "../../../src/plan/measure.js";
import { planOf } from "../../../src/plan/plan.js";
import { toNumber } from "../../../src/time/ratio.js";
import { lineOf, paceOf } from "../../tools/line-of.js";

/** Hands of 20 + 5 + 50 = 75 s, of which the last 50 s are done while a machine runs; the rig is kept 20 + 5 + run. */
const measured = (run: number, ...rows: string[]) => {
  const line = lineOf(
    [
      "unit: s",
      "equipment: {rig: 1}",
      ...rows,
      "tasks:",
      "  hook: {time: 20, equipment: rig}",
      `  run: {time: 5, machine-time: ${run}, equipment: rig, after: hook}`,
      "  wrap: 50",
      "",
    ].join("\n"),
  );
  const { cycleOfPlan, cycleSetBy } = measurePlan(line, paceOf(100), planOf([[0, 1, 2]]));
  return [toNumber(cycleOfPlan) / 1e6, cycleSetBy];
};

it.each([
  ["people, who work 75 s where the machine runs 50 s beside them", 50, "", 75, { kind: "people" }],
  ["how long a unit stands, 20 + 5 + 60 s", 60, "", 85, { kind: "dwell" }],
  [
    "the rig, kept 85 s where a second unit may stand",
    60,
    "holds: 2",
    85,
    { kind: "equipment", name: "rig" },
  ],
  ["people again where that is no longer: 20 + 5 + 50 s", 50, "holds: 2", 75, { kind: "people" }],
] as const)("The cycle of the plan is set by %s", (_, run, row, cycle, by) => {
  expect(measured(run, row)).toEqual([cycle, by]);
});
