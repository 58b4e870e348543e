import { positionalWeights } from "../order-of-work.js";
import type { Rule } from "./rule.js";

/** The task that most others wait for, directly or not, comes first. */
export const mostFollowers: Rule = {
  name: "most-followers",
  ranks: "number of all its followers",
  source: "Tonge, A Heuristic Program for Assembly Line Balancing (1961)",
  // With a time of 1 for every task, its own is all that is not of its followers.
  score: ({ times, before }) =>
    Array.from(positionalWeights({ times: times.map(() => 1), before, limit: 1 }), (weight) => weight - 1),
  reads: { as: "count", lowFirst: false },
};
