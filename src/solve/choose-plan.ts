import type { Line } from "../line/line.js";
import { cycleOfPlan } from "../plan/figures/cycle.js";
import { smoothness } from "../plan/figures/smoothness.js";
import { postsOf } from "../plan/post.js";
import type { Pace } from "../time/pace.js";
import { compare } from "../time/ratio.js";
import { costOf, isCheaper, PEOPLE_FIRST } from "./cost.js";
import { toPlan } from "./to-plan.js";
import type { BlockPlan, Work } from "./work.js";

/** What a method came to; no plan where it found none. */
export interface Candidate {
  readonly method: string;
  readonly plan: BlockPlan | null;
}

export interface ChosenPlan extends Candidate {
  readonly plan: BlockPlan;
}

/** The first of the cheapest, of the fastest of those, and of the smoothest of those. */
export function choosePlan(
  line: Line,
  pace: Pace,
  work: Work,
  candidates: readonly Candidate[],
): ChosenPlan | null {
  let best: ChosenPlan | null = null;
  for (const { method, plan } of candidates) {
    if (plan !== null && (best === null || isBetter(line, pace, work, plan, best.plan)))
      best = { method, plan };
  }
  return best;
}

function isBetter(line: Line, pace: Pace, work: Work, one: BlockPlan, two: BlockPlan): boolean {
  if (isCheaper(costOf(one), costOf(two), PEOPLE_FIRST)) return true;
  if (isCheaper(costOf(two), costOf(one), PEOPLE_FIRST)) return false;
  const [ofOne, ofTwo] = [one, two].map((plan) => postsOf(line, pace, toPlan(line, work, plan)));
  const [cycle, other] = [cycleOfPlan(ofOne!), cycleOfPlan(ofTwo!)];
  const slower = compare(cycle, other);
  return slower !== 0 ? slower < 0 : smoothness(ofOne!, cycle) < smoothness(ofTwo!, other);
}
