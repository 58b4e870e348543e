import fc from "fast-check";
import { expect, it } from "vitest";
import { readLine } from "../../src/line/read-line.js";
import { balance } from "../../src/solve/balance.js";
import { paceFromCycle } from "../../src/time/pace.js";
import { CYCLE, cheapestKeepingPace, keepPaceCases, keepPaceFile } from "../tools/keep-pace-cases.js";

const OPTIONS = {
  method: "best",
  strictLimit: false,
  level: false,
  explain: false,
  nodes: 100_000,
  checkpoint: () => null,
} as const;

it("Stations that keep the pace with a chance are as few as in the best of all plans", async () => {
  const ways = { plan: 0, none: 0 };
  await fc.assert(
    fc.asyncProperty(keepPaceCases, async (given) => {
      const { line, findings } = readLine("line.yaml", keepPaceFile(given));
      expect(line, JSON.stringify(findings)).not.toBeNull();
      const { outcome, plan } = await balance(line!, paceFromCycle(Number(CYCLE) * 1_000_000), OPTIONS);
      const best = cheapestKeepingPace(given);
      ways[best === null ? "none" : "plan"]++;
      const people = plan?.stations.reduce((sum, { places, crew }) => sum + places * crew, 0);
      const found = plan === null ? null : [people, plan.stations.length];
      expect([outcome, found]).toEqual([best === null ? "infeasible" : "proved", best]);
    }),
    { seed: 18, numRuns: 100 },
  );
  expect(Math.min(ways.plan, ways.none)).toBeGreaterThan(5);
});
