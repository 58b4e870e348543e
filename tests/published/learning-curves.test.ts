import { describe, expect, it } from "vitest";
import { citation, readWorkedExamples } from "../tools/read-worked-examples.js";
import { runLinepoise } from "../tools/run-linepoise.js";

const examples = readWorkedExamples()["learning-curves"];
type Example = (typeof examples)[number];

interface RampJson {
  readonly byUnit: readonly { readonly stations: readonly { readonly seconds: number }[] }[];
  readonly batch: { readonly workSeconds: number };
}

/** A line of one task of which `first` minutes are those of the first unit, after some units that were built before. */
async function rampOf({ by, share, first }: Example, units: number, built = 0): Promise<RampJson> {
  const learning = `{share: ${share}, by: ${by}, time-at: 1, least: 0 %, built: ${built}}`;
  const run = await runLinepoise({
    args: [
      "ramp",
      "line.yaml",
      "plan.yaml",
      "--units",
      String(units),
      "--each",
      "--cycle",
      "1 min",
      "--json",
    ],
    files: {
      "line.yaml": `unit: min\nlearning: ${learning}\ntasks: {weave: ${first}}\n`,
      "plan.yaml": "format: linepoise-plan/1\nstations: [{id: S1, tasks: [weave]}]\n",
    },
  });
  expect(run.stderr).toBe("");
  return JSON.parse(run.stdout) as RampJson;
}

const numbered = (of: Readonly<Record<string, number>> = {}) =>
  Object.entries(of).map(([unit, value]) => [Number(unit), value] as const);

describe("times of units come out as in", () => {
  it.each(examples.map((each) => [`${each.id}: ${citation(each.source)}`, each] as const))(
    "%s",
    async (_, example) => {
      const { expected, tolerance } = example;
      const [units, totals, means] = [expected.units, expected.totals, expected.means].map(numbered);
      const all = [...units!, ...totals!, ...means!].map(([unit]) => unit);
      const near = (value: number, published: number) =>
        expect(Math.abs(value - published)).toBeLessThan(tolerance);
      if (all.length > 0) {
        const { byUnit } = await rampOf(example, Math.max(...all));
        const minutes = byUnit.map(({ stations: [station] }) => station!.seconds / 60);
        const totalOf = (count: number) => minutes.slice(0, count).reduce((sum, each) => sum + each, 0);
        for (const [unit, time] of units!) near(minutes[unit - 1]!, time);
        for (const [unit, total] of totals!) near(totalOf(unit), total);
        for (const [unit, mean] of means!) near(totalOf(unit) / unit, mean);
      }
      for (const { from, to, total } of expected.blocks ?? []) {
        const { batch } = await rampOf(example, to - from + 1, from - 1);
        near(batch.workSeconds / 60, total);
      }
    },
  );
});
