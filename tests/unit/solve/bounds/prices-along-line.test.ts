import { describe, expect, it } from "vitest";
import { PricesAlongLine } from "../../../../src/solve/bounds/prices-along-line.js";
import type { Cost } from "../../../../src/solve/cost.js";
import { fewestMoves } from "../../../../src/solve/fewest-moves.js";
import { layOutWork } from "../../../../src/solve/lay-out-work.js";
import { labelsOf } from "../../../../src/solve/moves-of-plan.js";
import { type Today, turnWork, type Work } from "../../../../src/solve/work.js";
import { paceOf } from "../../../tools/line-of.js";
import { moveCase } from "../../../tools/move-cases.js";

const PARTS = 2 ** 16;

function drawn(seed: number, dearest: number) {
  const { line, cycle, labels, today: at, costs } = moveCase(seed, 4, 8, dearest);
  const limits = { pace: paceOf(cycle), strictLimit: false, slowest: null, free: false };
  const work = layOutWork(line, limits);
  const homes = work.members.map((tasks) => tasks.map((task) => ({ label: at[task]!, cost: costs[task]! })));
  const today: Today = { labels, homes, labelAt: null, mostMoves: 1e9 };
  return { work, today, labels };
}

function priced(work: Work, today: Today, ceiling: Cost, known: number): PricesAlongLine {
  const prices = new PricesAlongLine(work, today, ceiling);
  for (const _ of prices.raise(known, 100_000));
  return prices;
}

describe("what moves at the least by prices", () => {
  it("is a sum that can be done again from the prices, and no plan moves less, nor its first stations what is said of them", async () => {
    let met = 0;
    for (let seed = 7001; seed <= 7024; seed++) {
      const { work, today, labels } = drawn(seed, seed % 2 === 0 ? 1 : 4);
      for (let people = 2; people <= labels; people++) {
        const ceiling = { people: people + 1, stations: 0 };
        const { plan, bound, ended } = await fewestMoves(
          work,
          today,
          ceiling,
          null,
          { nodes: 1e6, most: 1e6 },
          () => null,
        );
        expect(ended).toBe("proved");
        if (plan === null) continue;
        const prices = priced(work, today, ceiling, bound);
        expect(prices.bound).toBe(
          Math.max(0, Math.ceil(boundAgain(work, today, people, prices.prices) / PARTS)),
        );
        expect(prices.bound).toBeLessThanOrEqual(bound);
        if (bound > 0 && prices.bound === bound) met++;
        const kept = labelsOf(today, plan);
        let [worth, next] = [0, 0];
        for (const [at, { blocks }] of plan.entries()) {
          worth += prices.worthAt(blocks, kept[at]!);
          if (kept[at]! >= 0) next = kept[at]! + 1;
          expect(prices.leastWith(worth, at + 1, at + 1, next)).toBeLessThanOrEqual(bound);
        }
        // With every station filled, it is what the plan moves.
        expect(prices.leastWith(worth, plan.length, people, today.labels)).toBe(bound);
        const turned = turnWork({ ...work, today });
        expect(prices.turned(turned, turned.today!).bound).toBe(prices.bound);
      }
    }
    expect(met).toBeGreaterThan(5);
  });

  it("does not count a dear task as more than the most, so that sums stay exact", () => {
    const { work, today } = drawn(7001, 1);
    const homes = today.homes.map((own) => own.map((home) => ({ ...home, cost: 1e9 })));
    const prices = priced(work, { ...today, homes }, { people: 3, stations: 0 }, 1e9);
    expect(prices.bound).toBeLessThanOrEqual(1_000 * work.size);
    expect([...prices.prices].every(Number.isSafeInteger)).toBe(true);
  });
});

/** The sum anew, by every set of blocks at every station: in parts of a move. */
function boundAgain(work: Work, today: Today, people: number, prices: Float64Array): number {
  const { size, loads, before, after } = work;
  const limit = work.kinds[0]!.limits[0]!;
  const alone = work.kinds[0]!.alone[0]!;
  const along = (next: Work["before"], block: number): Set<number> => {
    const all = new Set([block]);
    for (const each of all) for (const more of next[each]!) all.add(more);
    return all;
  };
  const stationsFor = (blocks: Set<number>) =>
    Math.max(1, Math.ceil([...blocks].reduce((sum, each) => sum + Math.min(limit, loads[each]!), 0) / limit));
  const stations = Math.min(people, size);
  const mayStand = (block: number, at: number) =>
    stationsFor(along(before, block)) <= at + 1 && stationsFor(along(after, block)) <= stations - at;
  const sets = Array.from({ length: 2 ** size }, (_, set) =>
    [...loads.keys()].filter((block) => (set >> block) & 1),
  ).filter(
    (set) =>
      set.reduce((sum, block) => sum + loads[block]!, 0) <= limit ||
      (set.length === 1 && loads[set[0]!]! <= alone),
  );
  const worth = (set: readonly number[], label: number) =>
    set.reduce((sum, block) => {
      const [home] = today.homes[block]!;
      return sum + prices[block]! - (home!.label === label ? 0 : PARTS * home!.cost);
    }, 0);
  const most = (at: number, next: number): number => {
    if (at === stations) return 0;
    const here = sets.filter((set) => set.every((block) => mayStand(block, at)));
    const bestUnder = (label: number) => Math.max(...here.map((set) => worth(set, label)));
    let best = bestUnder(-1) + known(at + 1, next);
    for (let label = next; label < today.labels; label++)
      if (here.some((set) => set.some((block) => today.homes[block]![0]!.label === label)))
        best = Math.max(best, bestUnder(label) + known(at + 1, label + 1));
    return best;
  };
  const memory = new Map<string, number>();
  const known = (at: number, next: number): number => {
    const key = `${at} ${next}`;
    if (!memory.has(key)) memory.set(key, most(at, next));
    return memory.get(key)!;
  };
  return prices.reduce((sum, each) => sum + each, 0) - known(0, 0);
}
