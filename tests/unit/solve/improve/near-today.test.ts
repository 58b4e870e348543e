import { describe, expect, it } from "vitest";
import { leastMoves } from "../../../../src/solve/bounds/least-moves.js";
import { type Cost, costOf, isCheaper, PEOPLE_FIRST } from "../../../../src/solve/cost.js";
import { fewestMoves } from "../../../../src/solve/fewest-moves.js";
import { NearToday } from "../../../../src/solve/improve/near-today.js";
import { layOutWork } from "../../../../src/solve/lay-out-work.js";
import { leastMovesTo } from "../../../../src/solve/moves-of-plan.js";
import { arrangeBlocks, positionsOf } from "../../../../src/solve/station/arrange-blocks.js";
import type { Today, Work } from "../../../../src/solve/work.js";
import { paceOf, shortLine } from "../../../tools/line-of.js";
import { drawFrom, moveCase } from "../../../tools/move-cases.js";

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 120_000;

/** A layered line of 5 tasks a layer, today filled in the order of its tasks up to 36 s, asked for at another cycle. */
function layered(size: number, cycle: number): { work: Work; today: Today; people: number } {
  const draw = drawFrom(size);
  const seconds = Array.from({ length: size }, () => 3 + draw(15));
  const rows = seconds.map((each, task) => {
    const first = (Math.floor(task / 5) - 1) * 5;
    const before = first < 0 ? [] : [first + draw(5), first + draw(5)];
    return `t${task + 1} ${each} ${[...new Set(before)].map((other) => `t${other + 1}`).join(" ")}`.trim();
  });
  const limits = { pace: paceOf(cycle), strictLimit: false, slowest: null, free: false };
  const work = layOutWork(shortLine(rows), limits);
  let [label, load] = [0, 0];
  const homes = work.members.map(([task]) => {
    if (load + seconds[task!]! > 36) [label, load] = [label + 1, 0];
    load += seconds[task!]!;
    return [{ label, cost: 1 }];
  });
  const all = seconds.reduce((sum, each) => sum + each, 0);
  return {
    work,
    today: { labels: label + 1, homes, labelAt: null, mostMoves: 1e9 },
    people: Math.ceil(all / cycle) + 1,
  };
}

function near({ work, today }: { work: Work; today: Today }, ceiling: Cost, nodes: number) {
  const search = new NearToday(work, today, ceiling, 1e9, 0);
  for (const _ of search.widen(nodes));
  return search;
}

describe("plans near today's", { timeout: LONGEST_TEST }, () => {
  it.each([
    [100, 32],
    [100, 42],
    [300, 32],
    [300, 42],
  ])("keep the arrows and the limit, and move few of %i tasks at %i s", (size, cycle) => {
    const given = layered(size, cycle);
    const { work, today, people } = given;
    const ceiling = { people: people + 1, stations: 0 };
    const { plan, cost, nodes } = near(given, ceiling, 30_000);
    expect(arrangeBlocks(work, positionsOf(work, plan!))).not.toBeNull();
    expect(isCheaper(costOf(plan!), ceiling, PEOPLE_FIRST)).toBe(true);
    expect(leastMovesTo(today, plan!)).toBe(cost);
    const bound = leastMoves(work, today, ceiling);
    expect(bound).toBeLessThanOrEqual(cost);
    // A plan that knows nothing of today's moves two thirds of the tasks.
    expect(cost).toBeLessThan(size / 2);
    expect(nodes).toBeLessThan(40_000);
  });

  it("need no move where today's plan does", () => {
    const given = layered(60, 36);
    expect(near(given, { people: given.today.labels + 1, stations: 0 }, 10_000).cost).toBe(0);
  });

  it("are mostly the best of all plans on lines of up to nine tasks", async () => {
    let [best, all] = [0, 0];
    for (let seed = 7001; seed <= 7060; seed++) {
      const { line, cycle, labels, today: at, costs } = moveCase(seed, 6, 9, 3);
      const limits = { pace: paceOf(cycle), strictLimit: false, slowest: null, free: false };
      const work = layOutWork(line, limits);
      const homes = work.members.map((tasks) =>
        tasks.map((task) => ({ label: at[task]!, cost: costs[task]! })),
      );
      const today = { labels, homes, labelAt: null, mostMoves: 1e9 };
      const ceiling = { people: labels + 1, stations: 0 };
      const proved = await fewestMoves(work, today, ceiling, null, { nodes: 1e6, most: 1e6 }, () => null);
      expect(proved.ended).toBe("proved");
      if (proved.plan === null) continue;
      const { plan, cost } = near({ work, today }, ceiling, 10_000);
      all++;
      if (plan !== null) expect(cost).toBeGreaterThanOrEqual(proved.bound);
      if (cost === proved.bound) best++;
    }
    expect(all).toBeGreaterThan(20);
    expect(best / all).toBeGreaterThan(0.9);
  });
});
