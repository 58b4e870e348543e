import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { loadChart } from "../../../src/answer/charts/load-chart.js";
import { lineBeside } from "../../../src/benches/bench-of-plan.js";
import { findPace } from "../../../src/commands/find-pace.js";
import { readPlan } from "../../../src/plan/file/read-plan.js";
import { measureStations } from "../../../src/plan/measure.js";
import { compare, divide, larger, multiply, ZERO } from "../../../src/time/ratio.js";
import { plantFloor } from "../../tools/floors/plant-floor.mjs";
import { lineOf } from "../../tools/line-of.js";

const folder = fileURLToPath(new URL("../../../shared/floors/", import.meta.url));
const read = (name: string) => readFileSync(`${folder}${name}`, "utf8");

const given = Array.from({ length: 20 }, (_, at) => ({
  name: `f${at + 1}`,
  line: read(`f${at + 1}.line.yaml`),
  plan: read(`f${at + 1}.plan.yaml`),
}));
const drawn = Array.from({ length: 40 }, (_, at) => {
  return { ...plantFloor({ seed: at + 1, fewest: 20, most: 40 }), name: `floor ${at + 1}` };
});

describe("The load chart of a floor with sides, places, crews, models and machines", () => {
  it.each([...given, ...drawn])("reaches as far as its station times: $name", (floor) => {
    const line = lineOf(floor.line);
    const { plan } = readPlan("plan.yaml", floor.plan, line);
    const found = findPace(line, {});
    if (plan === null || !found.ok) throw new Error("the floor does not read");
    const beside = lineBeside(found.line, plan);
    const { rows, longest } = loadChart(beside, found.pace, plan);
    const measured = measureStations(beside, found.pace, plan);
    expect(rows.length).toBe(measured.length);
    for (const [at, { id, lanes, timeShare, load, limitShare }] of rows.entries()) {
      const { stationTime, workingTime, tasks } = measured[at]!;
      const ends = lanes
        .filter(({ of }) => of.kind !== "machines")
        .map(({ bars }) => bars.at(-1)?.to ?? ZERO)
        .reduce(larger, ZERO);
      expect(compare(ends, divide(stationTime, workingTime)), id).toBe(0);
      expect(compare(ends, timeShare), id).toBe(0);
      expect(compare(timeShare, multiply(load, limitShare)), id).toBe(0);
      expect(compare(timeShare, longest)).toBeLessThanOrEqual(0);
      const shown = new Set(lanes.flatMap(({ bars }) => bars.map(({ task }) => task)));
      for (const task of tasks)
        expect(shown.has(task) || compare(beside.tasks[task]!.load, ZERO) === 0, id).toBe(true);
    }
  });
});
