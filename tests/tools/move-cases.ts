import type { Line } from "../../src/line/line.js";
import { topologicalOrder } from "../../src/line/precedence.js";
import { type Cost, costOf, PEOPLE_FIRST } from "../../src/solve/cost.js";
import { fewestMoves } from "../../src/solve/fewest-moves.js";
import { layOutWork } from "../../src/solve/lay-out-work.js";
import { runSearchBelow } from "../../src/solve/search/run-search.js";
import { paceOf, shortLine } from "./line-of.js";

/** A small line with today's station of every task, and what it is to be rebalanced to; times in seconds. */
export interface MoveCase {
  readonly line: Line;
  readonly seconds: readonly number[];
  readonly cycle: number;
  readonly labels: number;
  /** For each task its station today, from 0. */
  readonly today: readonly number[];
  /** What it costs to move each task. */
  readonly costs: readonly number[];
}

/** Numbers of a linear congruential sequence (Park & Miller 1988), the same in every run. */
export function drawFrom(seed: number): (below: number) => number {
  let state = (seed % 2147483646) + 1;
  return (below) => {
    state = (state * 48271) % 2147483647;
    return state % below;
  };
}

/** A case with arrows along the numbers of its tasks; today's plan fills stations in an order of work up to an older cycle. */
export function moveCase(seed: number, least: number, most: number, dearest = 1): MoveCase {
  const draw = drawFrom(seed);
  for (let warm = 0; warm < 5; warm++) draw(10);
  const size = least + draw(most - least + 1);
  const seconds = Array.from({ length: size }, () => 4 + draw(22));
  const rows = seconds.map((each, task) => {
    const before = Array.from({ length: task }, (_, other) => other).filter(() => draw(size) < 2);
    return `t${task + 1} ${each} ${before.map((other) => `t${other + 1}`).join(" ")}`.trim();
  });
  const line = shortLine(rows);
  const older = 30 + draw(30);
  const today: number[] = [];
  let [label, load] = [0, 0];
  for (const task of topologicalOrder(line.before)) {
    const own = secondsOf(line, task);
    if (load + own > older) [label, load] = [label + 1, 0];
    load += own;
    today[task] = label;
  }
  const cycle = Math.max(...seconds, older - 12 + draw(25));
  return {
    line,
    seconds: line.tasks.map((_, task) => secondsOf(line, task)),
    cycle,
    labels: label + 1,
    today,
    costs: today.map(() => 1 + draw(dearest)),
  };
}

const secondsOf = (line: Line, task: number): number => Number(line.tasks[task]!.load.num) / 1e6;

/** The fewest people of the case, and the fewest moves with so many and `more`. */
export async function solveMoves({ line, cycle, labels, today, costs }: MoveCase, more: number) {
  const limits = { pace: paceOf(cycle), strictLimit: false, slowest: null, free: false };
  const work = layOutWork(line, limits);
  const any: Cost = { people: Number.MAX_SAFE_INTEGER, stations: Number.MAX_SAFE_INTEGER };
  const best = await runSearchBelow(work, any, PEOPLE_FIRST, { nodes: 1e6, memory: 1e5 }, () => null);
  const people = costOf(best.plan!).people + more;
  const homes = work.members.map((tasks) =>
    tasks.map((task) => ({ label: today[task]!, cost: costs[task]! })),
  );
  const most = costs.reduce((sum, each) => sum + each, 0);
  const from = { labels, homes, labelAt: null, mostMoves: most };
  const below = { people, stations: people + 1 };
  const moves = await fewestMoves(work, from, below, null, { nodes: 5e6, most }, () => null);
  return { people, moves };
}
