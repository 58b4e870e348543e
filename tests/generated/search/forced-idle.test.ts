import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ForcedIdle, lookFromBothEnds } from "../../../src/solve/search/forced-idle.js";
import { type Instance, layOut, turnRound } from "../../../src/solve/search/instance.js";
import { leastLimit } from "../../../src/solve/search/least-limit.js";
import { readClassicLines, toProblem } from "../../tools/read-classic-lines.js";
import { smallLines } from "./small-lines.js";

/**
 * By plain dynamic programming over all sets of tasks: what the first 0, 1, 2, ... of `target` stations leave idle at the
 * least, over all plans with so many stations at most, or null where there is no plan.
 */
function leastIdle({ times, limit, before, size }: Instance, target: number): number[] | null {
  const needed = before.map((tasks) => tasks.reduce((set, task) => set | (1 << task), 0));
  const has = (set: number, task: number) => ((set >> task) & 1) === 1;
  const work = (set: number) => times.reduce((sum, own, task) => sum + (has(set, task) ? own : 0), 0);
  const sets = Array.from({ length: 2 ** size }, (_, set) => set).filter((set) =>
    needed.every((tasks, task) => !has(set, task) || (tasks & ~set) === 0),
  );
  const step = (from: number, to: number) => (from & ~to) === 0 && work(to & ~from) <= limit;
  const reached = [new Set([0])];
  for (let station = 1; station <= target; station++)
    reached.push(new Set(sets.filter((to) => [...reached.at(-1)!].some((from) => step(from, to)))));
  if (!reached[target]!.has(2 ** size - 1)) return null;
  let kept = new Set([2 ** size - 1]);
  const least: number[] = [];
  for (let station = target; station >= 0; station--) {
    least[station] = Math.min(...[...kept].map((set) => station * limit - work(set)));
    if (station > 0)
      kept = new Set([...reached[station - 1]!].filter((from) => [...kept].some((to) => step(from, to))));
  }
  return least;
}

describe("what the ends of a line force idle", () => {
  it("is left idle by every plan, and a number of stations ruled out has no plan", () => {
    let [forced, ruledOut] = [0, 0];
    const effort = fc.constantFrom(40, 400, 4000, 400_000);
    fc.assert(
      fc.property(smallLines(7), fc.integer({ min: 1, max: 5 }), effort, (problem, target, steps) => {
        const instances = [layOut(problem), layOut(turnRound(problem))];
        const [front, back] = instances.map((instance) => new ForcedIdle(instance, target));
        for (const _ of lookFromBothEnds(front!, back!, steps));
        const plans = instances.map((instance) => leastIdle(instance, target));
        for (const [at, end] of [front!, back!].entries()) {
          if (end.isRuledOut) expect(plans[at]).toBeNull();
          if (end.isRuledOut) ruledOut++;
          for (const [station, idle] of (plans[at] ?? []).entries()) {
            expect(end.least[station]).toBeLessThanOrEqual(idle);
            if (end.least[station]! > 0) forced++;
          }
        }
      }),
      { seed: 67, numRuns: 1000 },
    );
    expect(forced).toBeGreaterThan(200);
    expect(ruledOut).toBeGreaterThan(50);
  });

  it("proves 9,554 the least cycle of arcus-83 with 8 stations", async () => {
    // The interval published with the cases is 9,528 to 9,554. Three stations leave 158 idle from the front, one 562 from the back:
    // more than the 717 that are to spare at 9,553.
    const { times, before } = toProblem(readClassicLines().get("arcus-83")!, 1);
    const answer = await leastLimit(times, before, 8, { nodes: 100_000 }, () => null);
    expect([answer.limit, answer.bound, answer.ended]).toEqual([9554, 9554, "proved"]);
  });
});
