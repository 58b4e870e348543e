import type { Rule } from "./rule.js";

/** The task that most others wait for, directly or not, comes first. */
export const mostFollowers: Rule = {
  name: "most-followers",
  ranks: "number of all its followers",
  source: "Tonge, A Heuristic Program for Assembly Line Balancing (1961)",
  score: ({ times, followers }) => times.map((_, task) => followers.list(task).length),
  reads: { as: "count", lowFirst: false },
};
