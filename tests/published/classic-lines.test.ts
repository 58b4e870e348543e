import { describe, expect, it } from "vitest";
import { fewestStations } from "../../src/solve/search/fewest-stations.js";
import { readClassicLines, readOptima, toProblem } from "../tools/read-classic-lines.js";
import { faultsOf, fillPlainly } from "./plain-stations.js";

/** Partial plans a search may look at: enough to prove nearly every row, few enough to run every day. */
const NODES = 500_000;

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 120_000;

/** Rows that the search leaves open within NODES; every other row is proved. */
const OPEN = new Set(["wee-magazine 47", "wee-magazine 54", "bartholdi-2 85"]);

const lines = readClassicLines();
const optima = readOptima();

/** Source: A. Scholl, Data of Assembly Line Balancing Problems, TH Darmstadt, 1993; optima as in shared/README.md. */
describe.each([...lines.keys()])("the classic line %s", (name) => {
  const rows = optima.filter(({ line }) => line === name);

  it.each(rows)(
    "needs $stations stations at $limit",
    async (row) => {
      const problem = toProblem(lines.get(name)!, row.limit);
      const answer = await fewestStations(problem, fillPlainly(problem), { nodes: NODES }, () => null);
      expect(faultsOf(problem, answer.stations)).toEqual([]);
      expect(answer.bound.stations).toBeLessThanOrEqual(row.stations);
      if (row.status === "proven") expect(answer.stations.length).toBeGreaterThanOrEqual(row.stations);
      if (!OPEN.has(`${name} ${row.limit}`)) {
        expect([answer.ended, answer.stations.length]).toEqual(["proved", row.stations]);
      }
    },
    LONGEST_TEST,
  );
});
