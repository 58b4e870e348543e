import highsModule, { type Highs } from "highs";
import { describe, expect, it } from "vitest";
import { fewestStations } from "../../src/solve/search/fewest-stations.js";
import { fillPlainly } from "../published/plain-stations.js";
import { readClassicLines, readOptima, toProblem } from "../tools/read-classic-lines.js";
import { stationProgramme } from "./station-programme.mjs";

/** The package is typed as CommonJS but loads as a module whose default export is the loader itself. */
const loadHighs = highsModule as unknown as () => Promise<Highs>;
const highs = await loadHighs();
/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 120_000;

const lines = readClassicLines();
const chosen = readOptima().filter(({ line }) => lines.get(line)!.times.length <= 45);

/** Lines: A. Scholl, Data of Assembly Line Balancing Problems, TH Darmstadt, 1993. */
describe("an integer programme, solved by another solver, needs as many stations as the exact search", () => {
  it.each(chosen)(
    "$line at $limit",
    async ({ line, limit }) => {
      const problem = toProblem(lines.get(line)!, limit);
      const first = fillPlainly(problem);
      const answer = await fewestStations(problem, first, { nodes: 500_000 }, () => null);
      expect(answer.ended).toBe("proved");

      const solution = highs.solve(stationProgramme(problem, first.length)!, { random_seed: 1 });
      expect(solution.Status).toBe("Optimal");
      expect(answer.stations.length).toBe(Math.round(solution.ObjectiveValue));
    },
    LONGEST_TEST,
  );
});
