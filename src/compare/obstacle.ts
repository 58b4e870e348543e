import type { OptionAnswer } from "./option-answer.js";

/** The first reason why an option has no plan, which the verdict names; null where it has one, and where it was not worked out. */
export function obstacleOf({ outcome, posts, findings }: OptionAnswer): string | null {
  if (outcome === "stopped" || posts.length > 0) return null;
  return findings.find(({ severity }) => severity === "error")?.message ?? null;
}
