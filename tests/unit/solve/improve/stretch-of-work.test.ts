import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { findPace } from "../../../../src/commands/find-pace.js";
import { readPlan } from "../../../../src/plan/file/read-plan.js";
import { stationNumbers } from "../../../../src/plan/station-numbers.js";
import { costOf, isCheaper, PEOPLE_FIRST } from "../../../../src/solve/cost.js";
import { fewerMovesByStretch } from "../../../../src/solve/fewer-moves-by-stretch.js";
import { stretchOfWork } from "../../../../src/solve/improve/stretch-of-work.js";
import { undoMoves } from "../../../../src/solve/improve/undo-moves.js";
import { layOutWork } from "../../../../src/solve/lay-out-work.js";
import { leastMovesTo } from "../../../../src/solve/moves-of-plan.js";
import { runSearchBelow } from "../../../../src/solve/search/run-search.js";
import { arrangeBlocks, positionsOf } from "../../../../src/solve/station/arrange-blocks.js";
import type { BlockPlan, Today, Work } from "../../../../src/solve/work.js";
import { lineOf, paceOf } from "../../../tools/line-of.js";
import { moveCase } from "../../../tools/move-cases.js";

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 120_000;

/** A made floor with a plan that was drawn before its rules. */
function floorOf(name: string): { work: Work; plan: BlockPlan; today: Today } {
  const read = (kind: string) => readFileSync(`shared/floors/${name}.${kind}.yaml`, "utf8");
  const line = lineOf(read("line"));
  const found = findPace(line, {});
  const { plan } = readPlan("plan.yaml", read("plan"), line);
  if (!found.ok || plan === null) throw new Error("the floor does not read");
  const work = layOutWork(line, { pace: found.pace, strictLimit: false, slowest: null, free: false });
  const numbers = stationNumbers(line, plan);
  const labelOf = work.members.map(([task]) => plan.stations.findIndex(({ tasks }) => tasks.includes(task!)));
  const stands = arrangeBlocks(
    work,
    labelOf.map((label) => numbers[label]!),
  );
  const today = {
    labels: plan.stations.length,
    homes: labelOf.map((label) => [{ label, cost: 1 }]),
    labelAt: Array.from({ length: work.positions }, (_, position) => numbers.indexOf(position)),
    mostMoves: 1e9,
  };
  return { work, plan: stands!, today };
}

const names = Array.from({ length: 20 }, (_, at) => `f${at + 1}`);

describe("stations next to each other as a work of their own", { timeout: LONGEST_TEST }, () => {
  it.each(names)("keep on floor %s what the whole plan keeps, and give it back as it was", (name) => {
    const { work, plan, today } = floorOf(name);
    for (let from = 0; from < plan.length; from++) {
      for (let to = from; to < Math.min(plan.length, from + 4); to++) {
        const stretch = stretchOfWork(work, today, plan, from, to);
        const own = arrangeBlocks(stretch.work, positionsOf(stretch.work, stretch.plan));
        expect(own, `stations ${from} to ${to}`).not.toBeNull();
        expect(costOf(own!)).toEqual(costOf(plan.slice(from, to + 1)));
        expect(leastMovesTo(stretch.today, stretch.plan)).toBe(0);
        expect(positionsOf(work, stretch.put(stretch.plan))).toEqual(positionsOf(work, plan));
      }
    }
  });

  it("move less only as the whole plan does, with all its rules and within the ceiling", async () => {
    let better = 0;
    for (let seed = 9001; seed <= 9060; seed++) {
      const { line, cycle, labels, today: at, costs } = moveCase(seed, 14, 20, 4);
      const limits = { pace: paceOf(cycle), strictLimit: false, slowest: null, free: false };
      const work = layOutWork(line, limits);
      const homes = work.members.map((tasks) =>
        tasks.map((task) => ({ label: at[task]!, cost: costs[task]! })),
      );
      const today: Today = { labels, homes, labelAt: null, mostMoves: 1e9 };
      const any = { people: 1e6, stations: 1e6 };
      const search = { nodes: 20_000, memory: 100_000 };
      const { plan: balanced } = await runSearchBelow(work, any, PEOPLE_FIRST, search, () => null);
      if (balanced === null) continue;
      const ceiling = { people: costOf(balanced).people + 1, stations: 0 };
      const start = undoMoves(work, today, balanced, ceiling);
      const most = { nodes: 5_000, bound: 0 };
      const { plan } = await fewerMovesByStretch(work, today, ceiling, start, most, () => null);
      expect(arrangeBlocks(work, positionsOf(work, plan))).not.toBeNull();
      expect(isCheaper(costOf(plan), ceiling, PEOPLE_FIRST)).toBe(true);
      expect(leastMovesTo(today, plan)).toBeLessThanOrEqual(leastMovesTo(today, start));
      if (leastMovesTo(today, plan) < leastMovesTo(today, start)) better++;
    }
    expect(better).toBeGreaterThan(20);
  });
});
