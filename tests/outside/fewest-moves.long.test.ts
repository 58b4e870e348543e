import highsModule, { type Highs } from "highs";
import { describe, expect, it } from "vitest";
import { rebalanceLine } from "../../src/answer/rebalance/rebalance-line.js";
import { paceOf } from "../tools/line-of.js";
import { moveCase, solveMoves } from "../tools/move-cases.js";
import { RULED_KINDS, ruledMoveCase } from "../tools/ruled-move-cases.js";
import { fewestMovesProgramme } from "./fewest-moves-programme.js";

/** The package is typed as CommonJS but loads as a module whose default export is the loader itself. */
const loadHighs = highsModule as unknown as () => Promise<Highs>;
const highs = await loadHighs();
/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 240_000;

describe("an integer programme, solved by another solver, moves as many tasks as the exact search", () => {
  it.each([
    ["of 5 to 9 tasks with the fewest people", 1, 90, 5, 9, 0, 1],
    ["of 6 to 9 tasks with one person more than needed", 1001, 35, 6, 9, 1, 1],
    ["of 10 to 13 tasks with the fewest people", 2001, 20, 10, 13, 0, 1],
    ["of 18 to 20 tasks with the fewest people", 3001, 3, 18, 20, 0, 1],
    ["of 6 to 10 tasks, some of them dearer to move", 4001, 40, 6, 10, 0, 5],
    ["of 6 to 9 tasks, some of them dear to move, with one person more", 5001, 20, 6, 9, 1, 40],
  ])(
    "on lines %s",
    async (_, first, count, least, most, more, dearest) => {
      const counts = new Set<number>();
      for (let seed = first; seed < first + count; seed++) {
        const given = moveCase(seed, least, most, dearest);
        const { people, moves } = await solveMoves(given, more);
        expect(moves.ended).toBe("proved");
        const solution = highs.solve(fewestMovesProgramme(given, people), { random_seed: 1 });
        expect(solution.Status).toBe("Optimal");
        const all = given.costs.reduce((sum, each) => sum + each, 0);
        expect(moves.bound).toBe(all + Math.round(solution.ObjectiveValue));
        counts.add(moves.bound);
      }
      // Cases that need no move, or all the same number, would show little.
      expect(counts.size).toBeGreaterThan(1);
    },
    LONGEST_TEST,
  );
});

/** What the cheapest moves to a plan with so many people cost; null where there is no such plan. */
function leastPoints(
  given: ReturnType<typeof ruledMoveCase>,
  people: number,
  mostMoves: number,
): number | null {
  const programme = fewestMovesProgramme(given, people, { ...given, mostMoves });
  const { Status, ObjectiveValue } = highs.solve(programme, { random_seed: 1 });
  if (Status === "Infeasible") return null;
  expect(Status).toBe("Optimal");
  return given.costs.reduce((sum, each) => sum + each, 0) + Math.round(ObjectiveValue);
}

describe("an integer programme, solved by another solver, finds as cheap moves as a rebalance for each number of people", () => {
  it.each(RULED_KINDS.map((name, kind) => [name, kind] as const))(
    "on lines %s",
    async (_, kind) => {
      const counts = new Set<number>();
      let within = 0;
      for (let seed = 1; seed <= 50; seed++) {
        const given = ruledMoveCase(seed, kind);
        const options = { nodes: 1_000_000, strictLimit: false, keep: [], checkpoint: () => null };
        const pace = paceOf(given.cycle);
        const { tradeOffs } = await rebalanceLine(given.line, pace, null, given.plan, {
          ...options,
          maxMoves: null,
        });
        expect(tradeOffs.length === 0).toBe(
          leastPoints(given, given.seconds.length, Number.POSITIVE_INFINITY) === null,
        );
        if (tradeOffs.length === 0) continue;
        expect(leastPoints(given, tradeOffs[0]!.people - 1, Number.POSITIVE_INFINITY)).toBeNull();
        for (const { people, cost, outcome } of tradeOffs) {
          expect(outcome).toBe("proved");
          expect(cost).toBe(leastPoints(given, people, Number.POSITIVE_INFINITY));
        }
        counts.add(tradeOffs[0]!.cost);
        const maxMoves = seed % 3;
        const { chosen } = await rebalanceLine(given.line, pace, null, given.plan, { ...options, maxMoves });
        if (chosen === null) {
          expect(leastPoints(given, given.seconds.length, maxMoves)).toBeNull();
          continue;
        }
        within++;
        expect([chosen.cost, chosen.moves.length <= maxMoves]).toEqual([
          leastPoints(given, chosen.people, maxMoves),
          true,
        ]);
        expect(leastPoints(given, chosen.people - 1, maxMoves)).toBeNull();
      }
      expect(counts.size).toBeGreaterThan(2);
      expect(within).toBeGreaterThan(10);
    },
    LONGEST_TEST,
  );
});
