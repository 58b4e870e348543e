import type { Stations } from "../solve/problem.js";
import type { LeastLimitAnswer } from "../solve/search/least-limit.js";
import type { BenchmarkRow } from "./benchmark-row.js";
import type { LeastCase } from "./least-case.js";

/**
 * What is wrong with an answer to a row, in words, or null. Shares nothing with the solver: counts tasks, walks the
 * arrows, adds the times as big integers, and compares with what was published.
 */
export function judgeRow(row: BenchmarkRow, stations: Stations, proved: boolean): string | null {
  return judgeTasks(row, stations) ?? judgeLoads(row, stations) ?? judgeNumber(row, stations.length, proved);
}

function judgeTasks({ problem }: BenchmarkRow, stations: Stations): string | null {
  const order = stations.flat();
  const turn = new Map(order.map((task, at) => [task, at]));
  if (turn.size !== order.length) return "a task stands twice in the plan";
  for (const [task, before] of problem.before.entries()) {
    if (!turn.has(task)) return `task ${task + 1} is missing from the plan`;
    const late = before.find((earlier) => turn.get(earlier)! > turn.get(task)!);
    if (late !== undefined) return `task ${late + 1} must come before task ${task + 1}`;
  }
  return order.length > problem.before.length ? "the plan has a task that the line does not have" : null;
}

function judgeLoads({ problem }: BenchmarkRow, stations: Stations): string | null {
  for (const [at, tasks] of stations.entries()) {
    if (tasks.length === 0) return `station ${at + 1} is empty`;
    const load = tasks.reduce((sum, task) => sum + BigInt(problem.times[task]!), 0n);
    if (load > BigInt(problem.limit)) return `station ${at + 1} holds ${load}, more than ${problem.limit}`;
  }
  return null;
}

function judgeNumber({ published }: BenchmarkRow, stations: number, proved: boolean): string | null {
  if (published === null) return null;
  if (stations < published.lower) return `${stations} stations, fewer than the published ${published.lower}`;
  if (proved && stations > published.upper)
    return `${stations} stations as proved, published are ${published.upper}`;
  return null;
}

/**
 * What is wrong with the answer to a case, in words, or null: checks the plan as for any row of the benchmark, and the two
 * limits against each other and against what was published.
 */
export function judgeLeastCase(
  { name, times, before, stations, lower, upper }: LeastCase,
  answer: LeastLimitAnswer,
): string | null {
  const { limit, bound, ended } = answer;
  const row = { name, problem: { times, limit, before }, published: null };
  const fault = judgeRow(row, answer.stations, false);
  if (fault !== null) return fault;
  if (answer.stations.length > stations) return `${answer.stations.length} stations, more than ${stations}`;
  if (limit < lower) return `a cycle of ${limit}, shorter than the published ${lower}`;
  if (bound > upper) return `a bound of ${bound}, above the published ${upper}`;
  if (bound > limit) return `a bound of ${bound}, above the cycle of ${limit}`;
  return ended === "proved" && bound < limit ? `proved with a bound of ${bound} below ${limit}` : null;
}
