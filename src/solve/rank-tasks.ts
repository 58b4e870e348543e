import type { RankedTasks, Rule } from "./rules/rule.js";

export interface Ranking {
  readonly rule: Rule;
  /** One score a task. */
  readonly scores: readonly number[];
  /** Task numbers, the first to be placed first. */
  readonly order: readonly number[];
}

/** Ranks by a rule's scores; ties: longer task time, then natural order of ids (the smaller number). */
export function rankTasks(rule: Rule, tasks: RankedTasks): Ranking {
  const scores = rule.score(tasks);
  const order = scores
    .map((_, task) => task)
    .sort((one, two) => scores[two]! - scores[one]! || tasks.times[two]! - tasks.times[one]! || one - two);
  return { rule, scores, order };
}
