import type { Rule } from "./rule.js";

/** The longest task that is available and fits comes first. */
export const largestCandidate: Rule = {
  name: "largest-candidate",
  ranks: "own task time",
  source: "Moodie and Young, Journal of Industrial Engineering 16 (1965)",
  score: ({ times }) => [...times],
  reads: { as: "time", lowFirst: false },
};
