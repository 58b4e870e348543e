import { describe, expect, it } from "vitest";
import { leastMoves } from "../../../../src/solve/bounds/least-moves.js";
import type { Cost } from "../../../../src/solve/cost.js";
import { fewestMoves } from "../../../../src/solve/fewest-moves.js";
import { layOutWork } from "../../../../src/solve/lay-out-work.js";
import { leastMovesTo } from "../../../../src/solve/moves-of-plan.js";
import type { Today, Work } from "../../../../src/solve/work.js";
import { paceOf, shortLine } from "../../../tools/line-of.js";
import { moveCase } from "../../../tools/move-cases.js";

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 120_000;

/** A line at a cycle in seconds, with today's station of every task and what each costs to move. */
function given(rows: string[], cycle: number, at: number[], costs = at.map(() => 1)) {
  const limits = { pace: paceOf(cycle), strictLimit: false, slowest: null, free: false };
  const work = layOutWork(shortLine(rows), limits);
  const homes = work.members.map(([task]) => [{ label: at[task!]!, cost: costs[task!]! }]);
  const today: Today = { labels: Math.max(...at) + 1, homes, labelAt: null, mostMoves: 1e9 };
  return { work, today };
}

const below = (people: number): Cost => ({ people, stations: people + 1 });
const least = ({ work, today }: { work: Work; today: Today }, people: number) =>
  leastMoves(work, today, below(people));

describe("the least that moves cost by sums of single stations", () => {
  it("is one task at each station that holds too much, two where one does not make room", () => {
    // S1 20 + 10 + 10 at 30: one leaves. S2 12 + 12 + 12 + 12 at 30: two leave.
    const line = given(["a 20", "b 10", "c 10", "d 12", "e 12", "f 12", "g 12"], 30, [0, 0, 0, 1, 1, 1, 1]);
    expect(least(line, 4)).toBe(3);
  });

  it("takes two cheap tasks for a dear one that would do alone", () => {
    // 20 + 6 + 6 at 25: the 20 alone (cost 9), or both 6 (cost 2 each): 7 too much, so one 6 is not enough.
    expect(least(given(["a 20", "b 6", "c 6"], 25, [0, 0, 0], [9, 2, 2]), 2)).toBe(4);
  });

  it("is all tasks of the smallest stations where there will be fewer of them", () => {
    // Four stations of 30, 20 + 10, 10 and 5 + 5 at 60 s, two people: the two with the fewest tasks, 1 and 1, are given up.
    const line = given(["a 30", "b 20", "c 10", "d 10", "e 5", "f 5"], 60, [0, 1, 1, 2, 3, 3]);
    expect(least(line, 2)).toBe(2);
  });

  it("fills up every station where nothing may be idle", () => {
    // Four stations of 20 + 10 at 40 s, three people: 120 s of work, so none has anything idle. One is given up, two tasks; the others lack
    // 10 s each, so one task at the least comes to each of the three: 3, where what leaves is only 2.
    const rows = ["a 20", "b 10", "c 20", "d 10", "e 20", "f 10", "g 20", "h 10"];
    expect(least(given(rows, 40, [0, 0, 1, 1, 2, 2, 3, 3]), 3)).toBe(3);
    // With one person more nobody has to move.
    expect(least(given(rows, 40, [0, 0, 1, 1, 2, 2, 3, 3]), 4)).toBe(0);
  });

  it("sees that whole seconds cannot fill a limit between them", () => {
    // Six tasks of 10 s at 25.5 s: a person takes 20 s, so three people have nothing idle.
    const rows = ["a 10", "b 10", "c 10", "d 10", "e 10", "f 10"];
    // One of four is given up; stations of 1 task lack 10 s.
    expect(least(given(rows, 25.5, [0, 0, 1, 1, 2, 3]), 3)).toBe(1);
  });
});

describe("no plan costs less than that", { timeout: LONGEST_TEST }, () => {
  it.each([
    ["moves of the same cost", 1],
    ["dear and cheap moves", 5],
  ])("on generated lines with %s", async (_, dearest) => {
    let met = 0;
    for (let seed = 6001; seed <= 6080; seed++) {
      const { line, cycle, labels, today: at, costs } = moveCase(seed, 4, 7, dearest);
      const limits = { pace: paceOf(cycle), strictLimit: false, slowest: null, free: false };
      const work = layOutWork(line, limits);
      const homes = work.members.map((tasks) =>
        tasks.map((task) => ({ label: at[task]!, cost: costs[task]! })),
      );
      const today = { labels, homes, labelAt: null, mostMoves: 1e9 };
      for (let people = 1; people <= labels; people++) {
        const bound = leastMoves(work, today, below(people));
        const fewest = everyPlan(work, today, people);
        if (fewest === null) continue;
        expect(bound).toBeLessThanOrEqual(fewest);
        if (bound === fewest) met++;
        const limited = { nodes: 1e6, most: 1e6 };
        const answer = await fewestMoves(work, today, below(people), null, limited, () => null);
        expect([answer.ended, answer.bound]).toEqual(["proved", fewest]);
      }
    }
    // A bound that is never met would say little.
    expect(met).toBeGreaterThan(40);
  });
});

/** The fewest moves over all plans of a plain line with so many people: each task at every station that the arrows leave it. */
function everyPlan(work: Work, today: Today, people: number): number | null {
  const limit = work.kinds[0]!.limits[0]!;
  let best: number | null = null;
  const at: number[] = [];
  const loads = Array.from({ length: people }, () => 0);
  const leaf = () => {
    const stations = loads.map((_, position) => ({
      position,
      blocks: [...at.keys()].filter((block) => at[block] === position),
      places: 1,
      crew: 1,
    }));
    const cost = leastMovesTo(today, stations);
    best = Math.min(best ?? cost, cost);
  };
  const place = (block: number) => {
    if (block === work.size) return leaf();
    const first = Math.max(0, ...work.before[block]!.map((each) => at[each]!));
    for (let station = first; station < people; station++) {
      if (loads[station]! + work.loads[block]! > limit) continue;
      at[block] = station;
      loads[station]! += work.loads[block]!;
      place(block + 1);
      loads[station]! -= work.loads[block]!;
    }
    at.length = block;
  };
  place(0);
  return best;
}
