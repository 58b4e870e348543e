import type { Rule } from "./rule.js";

/** Own time plus the times of all direct and indirect followers, each counted once. */
export const positionalWeight: Rule = {
  name: "positional-weight",
  ranks: "task time plus the times of all its followers",
  source: "Helgeson and Birnie, Journal of Industrial Engineering 12 (1961)",
  score: ({ times, followers }) =>
    times.map((own, task) => followers.list(task).reduce((sum, later) => sum + times[later]!, own)),
  reads: { as: "time", lowFirst: false },
};
