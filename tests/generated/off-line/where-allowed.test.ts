import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { whereAllowed } from "../../../src/answer/balance/answer-rules.js";
import type { Line } from "../../../src/line/line.js";
import type { Plan } from "../../../src/plan/plan.js";
import { stationIds } from "../../../src/plan/station-numbers.js";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import { layOutWork } from "../../../src/solve/lay-out-work.js";
import type { Work } from "../../../src/solve/work.js";
import { floorCases, paceWith } from "../../tools/floor-random-line.js";

/** Time enough for any station. */
const ENDLESS = paceWith(1_000_000);

/** The tasks at the positions given, as a plan; each list in order of work. */
function planAt(line: Line, positionOf: readonly number[]): Plan {
  const used = [...new Set(positionOf)].sort((one, two) => one - two);
  const stations = used.map((position) => {
    const tasks = [...positionOf.keys()].filter((task) => positionOf[task] === position);
    const crew = Math.max(...tasks.map((task) => line.tasks[task]!.people));
    return { id: stationIds(line, [position])[0]!, tasks, sides: null, persons: null, places: 1, crew };
  });
  return { stations };
}

/** For each task the positions that some plan gives it which the verifier passes: every plan is tried. */
function positionsOfPlans(line: Line, positions: number): number[][] {
  const found = line.tasks.map(() => new Set<number>());
  const positionOf: number[] = [];
  const visit = (task: number): void => {
    if (task === line.tasks.length) {
      if (verifyPlan(line, ENDLESS, planAt(line, positionOf), false).length > 0) return;
      for (const [each, position] of positionOf.entries()) found[each]!.add(position);
      return;
    }
    for (let position = 0; position < positions; position++) {
      positionOf[task] = position;
      visit(task + 1);
    }
    positionOf.length = task;
  };
  visit(0);
  return found.map((all) => [...all].sort((one, two) => one - two));
}

/** Whether two blocks that never share a station have no order: whether both find one is then for a search to say. */
function hasUnordered({ size, before, apart, zones }: Work): boolean {
  const earlier: Set<number>[] = [];
  for (let block = 0; block < size; block++)
    earlier[block] = new Set(before[block]!.flatMap((each) => [each, ...earlier[each]!]));
  return earlier.some((all, block) =>
    earlier.some((_, other) => {
      const isForbidden = zones[other] !== null && zones[block] !== null && zones[other] !== zones[block];
      return other < block && !all.has(other) && (isForbidden || apart[block]!.includes(other));
    }),
  );
}

describe("Where tasks of a line may stand, as --explain shows it", () => {
  it("is where plans of the line put them, were there time enough", () => {
    const cases = floorCases({ fewest: 2, most: 3, hasOnePlace: true });
    fc.assert(
      fc.property(cases, ({ line: drawn }) => {
        // How many of an equipment exist and who the people are says nothing of single stations.
        const line = { ...drawn, equipment: new Map(), people: [], modelOverload: null };
        const problem = layOutWork(line, {
          pace: ENDLESS,
          strictLimit: false,
          slowest: null,
          free: false,
        });
        const allowed = whereAllowed(problem);
        const tried = positionsOfPlans(line, problem.positions);
        const shown = line.tasks.map(
          (_, task) => allowed[problem.members.findIndex((tasks) => tasks.includes(task))]!,
        );
        // Without a plan others may still have stations by what is said of them.
        if (tried.some((positions) => positions.length === 0)) return;
        if (hasUnordered(problem)) {
          for (const [task, positions] of tried.entries())
            expect(shown[task]).toEqual(expect.arrayContaining(positions));
        } else expect(shown).toEqual(tried);
      }),
      { seed: 7, numRuns: 250 },
    );
  });
});
