import type { LeastLimitAnswer } from "../solve/search/least-limit.js";
import { judgeRow } from "./judge-row.js";
import type { LeastCase } from "./least-case.js";

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
