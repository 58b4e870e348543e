import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { addTask, hasTask } from "../../../src/solve/search/bit-sets.js";
import { type Instance, layOut } from "../../../src/solve/search/instance.js";
import { SumsAhead } from "../../../src/solve/search/sums-ahead.js";
import { smallLines } from "./small-lines.js";

/** The tasks of `mask`, when those of `placed` are done: each waits only for tasks of either. */
function canStand({ before, size }: Instance, mask: number, placed: number): boolean {
  for (let task = 0; task < size; task++)
    if ((mask >>> task) & 1 && before[task]!.some((earlier) => (((mask | placed) >>> earlier) & 1) === 0))
      return false;
  return true;
}

/** By number of the first task that counts: what the loads of a station come to from there on. */
function sumsByLoads(instance: Instance, placed: number): Set<number>[] {
  const { size, times, limit } = instance;
  const sums = Array.from({ length: size + 1 }, () => new Set<number>());
  for (let mask = 0; mask < 1 << size; mask++) {
    if ((mask & placed) !== 0 || !canStand(instance, mask, placed)) continue;
    const timeFrom = (from: number) =>
      times.reduce((sum, each, task) => sum + ((mask >>> task) & 1 && task >= from ? each : 0), 0);
    if (timeFrom(0) > limit) continue;
    for (let from = 0; from <= size; from++) sums[from]!.add(timeFrom(from));
  }
  return sums;
}

/** Some tasks and all before them. */
function closeBackwards({ followers, words, size }: Instance, drawn: readonly boolean[]): number {
  let placed = 0;
  for (let task = 0; task < size; task++) {
    const leads = (later: number) => drawn[later] === true && hasTask(followers, task * words, later);
    if (drawn[task] === true || [...Array(size).keys()].some(leads)) placed |= 1 << task;
  }
  return placed;
}

const drawnSets = fc.array(fc.boolean(), { maxLength: 3 });

describe("the sums that the tasks ahead can come to (Bellman 1957)", () => {
  it("include what any load of the station comes to from any task on", () => {
    fc.assert(
      fc.property(smallLines(8), drawnSets, fc.integer({ min: 0, max: 70 }), (problem, drawn, width) => {
        const instance = layOut(problem);
        const placed = closeBackwards(instance, drawn);
        const set = new Int32Array(instance.words);
        for (let task = 0; task < instance.size; task++) if ((placed >>> task) & 1) addTask(set, 0, task);
        const sums = new SumsAhead(instance);
        sums.start(set, 0);
        for (const [from, loads] of sumsByLoads(instance, placed).entries())
          for (const sum of loads) {
            expect(sums.reach(from, sum, sum)).toBe(true);
            const most = Math.min(instance.limit, sum + width);
            expect(sums.reach(from, Math.max(0, sum - width), most)).toBe(true);
          }
      }),
      { seed: 7 },
    );
  });

  it("are those of the last set alone, whatever sets came before it", () => {
    const lines = fc.array(fc.integer({ min: 1, max: 40 }), { minLength: 4, maxLength: 6 });
    // Without arrows any tasks may be done: rows are kept as far as the last tasks are the same.
    const sets = fc.array(fc.array(fc.boolean(), { minLength: 6, maxLength: 6 }), {
      minLength: 3,
      maxLength: 8,
    });
    fc.assert(
      fc.property(lines, sets, (times, drawn) => {
        const instance = layOut({ times, limit: 100, before: times.map(() => []) });
        const sums = new SumsAhead(instance);
        for (const done of drawn) {
          const set = new Int32Array(instance.words);
          for (let task = 0; task < instance.size; task++) if (done[task]) addTask(set, 0, task);
          sums.start(set, 0);
          const anew = new SumsAhead(instance);
          anew.start(set, 0);
          for (let from = 0; from <= instance.size; from++)
            for (let sum = 1; sum <= instance.limit; sum++)
              expect(sums.reach(from, sum, sum)).toBe(anew.reach(from, sum, sum));
        }
      }),
      { seed: 71, numRuns: 200 },
    );
  });

  it("are all subset sums, and nothing else, where no arrow is in the way", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 90 }), { minLength: 1, maxLength: 8 }), (times) => {
        const instance = layOut({ times, limit: 100, before: times.map(() => []) });
        const sums = new SumsAhead(instance);
        sums.start(new Int32Array(instance.words), 0);
        for (const [from, loads] of sumsByLoads(instance, 0).entries())
          for (let least = 0; least <= instance.limit; least++)
            for (const most of [least, Math.min(instance.limit, least + 40)])
              expect(sums.reach(from, least, most)).toBe(
                [...loads].some((sum) => sum >= least && sum <= most),
              );
      }),
      { seed: 7 },
    );
  });
});
