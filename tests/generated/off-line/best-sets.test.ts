import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { answerOffLine } from "../../../src/answer/off-line/answer-off-line.js";
import { RANKS, type Rank } from "../../../src/answer/off-line/rank-order.js";
import type { StationProblem } from "../../../src/solve/problem.js";
import { paceOf } from "../../tools/line-of.js";
import { bruteForce } from "../search/brute-force.js";
import { smallLines } from "../search/small-lines.js";
import { type EverySet, everySetAway, lineOfProblem, problemWithout } from "./every-set.js";

const CASES = { numRuns: 120, seed: 733 };
const ORDERS: readonly (readonly Rank[])[] = [
  RANKS,
  ["stations", "people", "stock"],
  ["stock", "people", "stations"],
];

const markedLines = fc.record({
  problem: smallLines(9),
  marks: fc.array(fc.nat(), { minLength: 1, maxLength: 2 }),
  order: fc.constantFrom(...ORDERS),
});

/** What a choice of blocks comes to, each at a bench of its own with the same limit as a station. */
function costOf(
  problem: StationProblem,
  sets: readonly EverySet[],
): Record<Rank, number> & { people: number } {
  const stations = bruteForce(
    problemWithout(
      problem,
      sets.flatMap(({ tasks }) => tasks),
    ),
  );
  const places = sets.map(({ tasks }) =>
    Math.max(1, Math.ceil(tasks.reduce((sum, task) => sum + problem.times[task]!, 0) / problem.limit)),
  );
  return { people: places.reduce((sum, each) => sum + each, stations), stations, stock: sets.length };
}

const isDisjoint = (one: readonly number[], two: readonly number[]) =>
  one.every((task) => !two.includes(task));

/** Every choice of so many blocks of which no two share a task. */
function* families(sets: readonly EverySet[], size: number, from = 0): Generator<EverySet[]> {
  if (size === 0) {
    yield [];
    return;
  }
  for (let at = from; at < sets.length; at++) {
    for (const rest of families(sets, size - 1, at + 1)) {
      if (rest.every(({ tasks }) => isDisjoint(tasks, sets[at]!.tasks))) yield [sets[at]!, ...rest];
    }
  }
}

describe("On lines of up to 9 tasks with a base unit, in any order of the ranks", () => {
  it("every block has the figures of brute force, and the best choice of 1, 2 and 3 benches is the best of all", async () => {
    const seen = { blocks: 0, pairs: 0 };
    await fc.assert(
      fc.asyncProperty(markedLines, async ({ problem, marks, order }) => {
        const marked = [...new Set(marks.map((each) => each % problem.times.length))];
        const line = lineOfProblem(problem, marked);
        const answer = await answerOffLine(line, paceOf(problem.limit), null, {
          ranks: order,
          benches: 3,
          joinsAtSeveral: false,
          asked: null,
          nodes: 100_000,
          strictLimit: false,
          checkpoint: () => null,
        });
        const away = everySetAway(problem, marked).filter(({ joinsAt }) => joinsAt.length === 1);
        const figures = answer.blocks!.map(({ bench, plan }) => [bench.tasks, plan!.people, plan!.stations]);
        const expected = away.map((set) => {
          const { people, stations } = costOf(problem, [set]);
          return [set.tasks, people, stations];
        });
        const byTasks = (rows: unknown[][]) => rows.map((row) => JSON.stringify(row)).sort();
        expect(byTasks(figures)).toEqual(byTasks(expected));
        seen.blocks += away.length;

        const inOrder = (cost: Record<Rank, number>) => order.map((rank) => cost[rank]);
        const least = [1, 2, 3].flatMap((size) => {
          const costs = [...families(away, size)].map((family) => inOrder(costOf(problem, family)));
          if (size === 2) seen.pairs += costs.length;
          if (costs.length === 0) return [];
          return [costs.reduce((one, two) => (isLess(two, one) ? two : one))];
        });
        const found = answer.sets!.map(({ plan, isBest }) => {
          expect(isBest).toBe(true);
          return inOrder({ people: plan.people!, stations: plan.stations!, stock: plan.stockPoints });
        });
        expect(found).toEqual(least);
      }),
      CASES,
    );
    expect(seen.blocks).toBeGreaterThan(30);
    expect(seen.pairs).toBeGreaterThan(30);
  });
});

function isLess(one: readonly number[], two: readonly number[]): boolean {
  const at = one.findIndex((each, index) => each !== two[index]);
  return at >= 0 && one[at]! < two[at]!;
}
