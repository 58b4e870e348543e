import { positionalWeights } from "../order-of-work.js";
import type { Rule } from "./rule.js";

/** Own time plus the times of all direct and indirect followers, each counted once. */
export const positionalWeight: Rule = {
  name: "positional-weight",
  ranks: "task time plus the times of all its followers",
  source: "Helgeson and Birnie, Journal of Industrial Engineering 12 (1961)",
  score: ({ times, before }) => Array.from(positionalWeights({ times, before, limit: 1 })),
  reads: { as: "time", lowFirst: false },
};
