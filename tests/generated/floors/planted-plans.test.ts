import { describe, expect, it } from "vitest";
import { findPace } from "../../../src/commands/find-pace.js";
import { readPlan } from "../../../src/plan/file/read-plan.js";
import { crewOf } from "../../../src/plan/plan.js";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import { type PlantedFloor, plantFloor } from "../../tools/floors/plant-floor.mjs";
import { plantMachines } from "../../tools/floors/plant-machines.mjs";
import { lineOf } from "../../tools/line-of.js";

// The floors are drawn by tests/tools/floors, which knows nothing of the reader, the search or the verifier.

const SIZES = [
  { fewest: 8, most: 14 },
  { fewest: 40, most: 60 },
  { fewest: 90, most: 110 },
];
const SEEDS = Array.from({ length: 60 }, (_, at) => at + 1);

function expectPlanToHold(floor: PlantedFloor): void {
  const line = lineOf(floor.line);
  const found = findPace(line, {});
  const { plan, findings } = readPlan("plan.yaml", floor.plan, line);
  if (!found.ok || plan === null) throw new Error(`${floor.name}: ${JSON.stringify(findings)}`);
  expect(verifyPlan(line, found.pace, plan, false), floor.name).toEqual([]);
  const people = plan.stations.reduce((sum, each) => sum + each.places * crewOf(line, each), 0);
  expect(people, `people of ${floor.name}`).toBe(floor.people);
}

describe("planted lines with machines", () => {
  it.each([1, 2])("have a planted plan that keeps every rule, crews of at most %i", (maxCrew) => {
    for (const seed of SEEDS.slice(0, 8)) {
      const terms = { seed, size: 60, machines: 8, maxCrew };
      const planted = plantMachines(terms);
      expectPlanToHold(planted);
      const count = (pattern: RegExp) => planted.line.match(pattern)?.length;
      expect([count(/^ {2}t\d+:/gmu), count(/machine-time:/gu)], planted.name).toEqual([60, 8]);
      expect(plantMachines(terms)).toEqual(planted);
    }
  });
});

describe("planted floors", () => {
  it.each(SIZES)("of $fewest to $most tasks have a planted plan that keeps every rule", (size) => {
    for (const seed of SEEDS) expectPlanToHold(plantFloor({ seed, ...size }));
  });

  it("have every rule of the shop floor among them, again and again", () => {
    const texts = SEEDS.map((seed) => plantFloor({ seed }).line);
    const rules = {
      models: /^models:/mu,
      "a model without a task": /short: "-"/u,
      sides: /side: (?:left|right|either)/u,
      "a second place": /max-places: 2/u,
      "skills of stations": /^ {2}- .*skills:/mu,
      "skills of people": /^people:/mu,
      "a test": /test: \{fail/u,
      "work of some units": /every: 5/u,
      "two people": /people: 2/u,
      "a wait": /wait: \d+ s/u,
      "stations between": /stations: \d/u,
      "tasks together": /^together:/mu,
      "tasks apart": /^apart:/mu,
      "a fixed task": /, station: /u,
      "a first station": /not-before:/u,
      "a last station": /not-after:/u,
      "a counted hoist": /hoist: \d/u,
      "a rig that stands": /equipment: \[rig/u,
      "a reserve": /^plan-to: 95 %/mu,
    };
    for (const [rule, pattern] of Object.entries(rules)) {
      const count = texts.filter((text) => pattern.test(text)).length;
      expect(count, rule).toBeGreaterThanOrEqual(6);
    }
  });

  it("are the same for the same seed, and others for another", () => {
    expect(plantFloor({ seed: 7 })).toEqual(plantFloor({ seed: 7 }));
    expect(new Set(SEEDS.map((seed) => plantFloor({ seed }).line.split("tasks:")[1])).size).toBe(
      SEEDS.length,
    );
  });
});
