import { describe, expect, it } from "vitest";
import { fewestStations } from "../../src/solve/search/fewest-stations.js";
import { readClassicLines, readLeastCycles, toProblem } from "../tools/read-classic-lines.js";
import { faultsOf, fillPlainly } from "./plain-stations.js";

const NODES = 20_000;

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 120_000;

const lines = readClassicLines();
const cases = readLeastCycles();

/** Source: A. Scholl, Data of Assembly Line Balancing Problems, TH Darmstadt, 1993; intervals as in shared/README.md. */
describe.each([...new Set(cases.map(({ line }) => line))])(
  "the classic line %s with a fixed number of stations",
  (name) => {
    const rows = cases.filter(({ line }) => line === name);
    const longest = Math.max(...lines.get(name)!.times);

    it.each(rows)(
      "fits $stations stations at $upper and at nothing below $lower",
      async ({ stations, lower, upper }) => {
        const roomy = toProblem(lines.get(name)!, upper);
        const answer = await fewestStations(roomy, fillPlainly(roomy), { nodes: NODES }, () => null);
        expect(faultsOf(roomy, answer.stations)).toEqual([]);
        expect(answer.bound.stations).toBeLessThanOrEqual(stations);
        if (answer.ended === "proved") expect(answer.stations.length).toBeLessThanOrEqual(stations);

        if (lower <= longest) return;
        const tight = toProblem(lines.get(name)!, lower - 1);
        const above = await fewestStations(tight, fillPlainly(tight), { nodes: NODES }, () => null);
        expect(faultsOf(tight, above.stations)).toEqual([]);
        expect(above.stations.length).toBeGreaterThan(stations);
      },
      LONGEST_TEST,
    );
  },
);
