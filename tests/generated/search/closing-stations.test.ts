import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { GroupLoops } from "../../../src/solve/search/group-loops.js";
import { Groups } from "../../../src/solve/search/groups.js";
import { type Instance, layOut } from "../../../src/solve/search/instance.js";
import { Joins, NOBODY } from "../../../src/solve/search/joins.js";
import { StationCloser } from "../../../src/solve/search/station-closer.js";
import { bruteForce } from "./brute-force.js";
import { smallLines } from "./small-lines.js";

/** One task a station; numbers of an instance ascend along arrows. */
const oneTaskEach = ({ times }: Instance): number[][] => [...times.keys()].map((task) => [task]);

/** Takes away groups that nothing left leads to; what remains in the end runs in a loop. */
function haveLoop(groups: readonly (readonly number[])[], { before }: Instance): boolean {
  let left = groups;
  for (;;) {
    const waits = (group: readonly number[]) =>
      left.some(
        (other) => other !== group && group.some((task) => before[task]!.some((one) => other.includes(one))),
      );
    const next = left.filter(waits);
    if (next.length === left.length) return next.length > 0;
    left = next;
  }
}

const inUse = ({ members }: Groups): number[][] => members.filter((tasks) => tasks.length > 0);

/** Lines with groups as they come up while stations are closed, and some numbers to draw tasks by. */
const groupedLines = fc
  .record({
    problem: smallLines(12),
    turns: fc.nat(20),
    draws: fc.array(fc.nat(11), { minLength: 4, maxLength: 4 }),
  })
  .filter(({ problem }) => problem.times.length > 1)
  .map(({ problem, turns, draws }) => {
    const instance = layOut(problem);
    const closer = new StationCloser(instance, oneTaskEach(instance));
    closer.run(turns);
    const groups = new Groups(instance, closer.best);
    return { instance, groups, drawn: draws.map((draw) => draw % instance.size) };
  });

describe("closing stations (Nagata & Bräysy 2009)", () => {
  it("gives a valid plan with no fewer stations than the optimum, the same every time", () => {
    fc.assert(
      fc.property(smallLines(10), fc.integer({ min: 1, max: 60 }), (problem, turns) => {
        fc.pre(problem.times.length > 1);
        const instance = layOut(problem);
        const [one, two] = [0, 0].map(() => {
          const closer = new StationCloser(instance, oneTaskEach(instance));
          while (closer.nodes < turns && closer.best.length > 1) closer.run(turns - closer.nodes);
          return closer.best;
        });
        expect(two).toEqual(one);
        const order = one!.flat();
        expect([...order].sort((a, b) => a - b)).toEqual([...instance.times.keys()]);
        for (const tasks of one!) {
          expect(tasks.reduce((sum, task) => sum + instance.times[task]!, 0)).toBeLessThanOrEqual(
            instance.limit,
          );
        }
        for (const [task, earlier] of instance.before.entries()) {
          for (const other of earlier) expect(order.indexOf(other)).toBeLessThan(order.indexOf(task));
        }
        expect(one!.length).toBeGreaterThanOrEqual(bruteForce(problem));
      }),
      { seed: 7, numRuns: 300 },
    );
  });

  it("lets a task join a group exactly where that makes no loop, whoever leaves the group", () => {
    fc.assert(
      fc.property(groupedLines, ({ instance, groups, drawn: [task] }) => {
        if (groups.members[groups.groupOf[task!]!]!.length > 1) groups.isolate(task!);
        const joins = new Joins(instance, groups);
        joins.lookFrom(task!);
        for (const [group, tasks] of groups.members.entries()) {
          if (tasks.length === 0 || tasks[0] === task) continue;
          const others = inUse(groups).filter(([first]) => first !== task && first !== tasks[0]);
          const leavers = [NOBODY, ...tasks].flatMap((one) =>
            [NOBODY, ...tasks].map((two) => [one, two] as const),
          );
          for (const [one, two] of leavers.filter(
            ([first, second]) => first !== second || first === NOBODY,
          )) {
            const stay = tasks.filter((each) => each !== one && each !== two);
            const alone = [one, two].filter((each) => each !== NOBODY).map((each) => [each]);
            const makesLoop = haveLoop([...others, [...stay, task!], ...alone], instance);
            expect(joins.allow(group, one, two)).toBe(!makesLoop);
          }
        }
      }),
      { seed: 7, numRuns: 200 },
    );
  });

  it("sees every loop that a swap or a move of tasks makes, and no other", () => {
    fc.assert(
      fc.property(groupedLines, ({ instance, groups, drawn: [one, two] }) => {
        const [first, second] = [groups.groupOf[one!]!, groups.groupOf[two!]!];
        fc.pre(first !== second);
        const loops = new GroupLoops(instance, groups);
        groups.sort();
        groups.swap(one!, two!);
        expect(loops.runThrough(first, second)).toBe(haveLoop(inUse(groups), instance));
        groups.swapBack(one!, two!);
        if (groups.members[first]!.length < 2) return;
        groups.move(one!, second);
        expect(loops.runThrough(first, second)).toBe(haveLoop(inUse(groups), instance));
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});
