import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { everyBlock } from "../../../src/benches/every-block.js";
import { judgeBlock } from "../../../src/benches/why-not.js";
import { smallLines } from "../search/small-lines.js";
import { everySetAway, lineOfProblem } from "./every-set.js";

const CASES = { numRuns: 200, seed: 4021 };

/** Lines of up to 12 tasks of which one or more are marked as working on the base unit. */
const markedLines = smallLines(12).chain((problem) =>
  fc.record({
    problem: fc.constant(problem),
    marked: fc.uniqueArray(fc.nat(problem.times.length - 1), { minLength: 1, maxLength: 3 }),
  }),
);

const sorted = (
  blocks: readonly { readonly tasks: readonly number[]; readonly joinsAt: readonly number[] }[],
) => blocks.map(({ tasks, joinsAt }) => `${tasks.join(" ")} -> ${joinsAt.join(" ")}`).sort();

describe("Of all sets of tasks of a line with up to 12 tasks", () => {
  it("exactly those are blocks that are closed, off the base unit and join at one task", () => {
    const counts = { blocks: 0 };
    fc.assert(
      fc.property(markedLines, ({ problem, marked }) => {
        const expected = everySetAway(problem, marked).filter(({ joinsAt }) => joinsAt.length === 1);
        const { blocks, isWhole } = everyBlock(lineOfProblem(problem, marked), false);
        counts.blocks += blocks.length;
        expect(isWhole).toBe(true);
        expect(sorted(blocks)).toEqual(sorted(expected));
      }),
      CASES,
    );
    expect(counts.blocks).toBeGreaterThan(100);
  });

  it("exactly those are blocks that join anywhere, where several joins are allowed", () => {
    fc.assert(
      fc.property(markedLines, ({ problem, marked }) => {
        const { blocks } = everyBlock(lineOfProblem(problem, marked), true);
        expect(sorted(blocks)).toEqual(sorted(everySetAway(problem, marked)));
      }),
      CASES,
    );
  });

  it("every other one is refused with a reason, and none of the blocks is", () => {
    const several = fc.boolean();
    fc.assert(
      fc.property(markedLines, several, fc.nat(), ({ problem, marked }, joinsAtSeveral, draw) => {
        const line = lineOfProblem(problem, marked);
        const bits = 1 + (draw % (2 ** problem.times.length - 1));
        const tasks = [...problem.times.keys()].filter((task) => (bits & (1 << task)) !== 0);
        const blocks = sorted(everyBlock(line, joinsAtSeveral).blocks);
        const { hindrances, joinsAt } = judgeBlock(line, tasks, joinsAtSeveral);
        expect(hindrances.length === 0).toBe(blocks.includes(sorted([{ tasks, joinsAt }])[0]!));
        for (const { arrow } of hindrances) {
          if (arrow !== null) expect(problem.before[arrow[1]]).toContain(arrow[0]);
        }
      }),
      { ...CASES, numRuns: 300 },
    );
  });
});

describe("A line with more blocks than are looked at", () => {
  it("has so many and says that there are more", () => {
    const parts = Array.from({ length: 12 }, (_, at) => at);
    const problem = { limit: 60, times: [...parts.map(() => 5), 9], before: [...parts.map(() => []), parts] };
    const { blocks, isWhole } = everyBlock(lineOfProblem(problem, [12]), false, 100);
    expect([blocks.length, isWhole]).toEqual([100, false]);
  });
});
