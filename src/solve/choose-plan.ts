import type { Line } from "../line/line.js";
import { cycleOfPlan } from "../plan/figures/cycle.js";
import { smoothness } from "../plan/figures/smoothness.js";
import { postsOf } from "../plan/post.js";
import type { Pace } from "../time/pace.js";
import { compare, type Ratio } from "../time/ratio.js";
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

/** Chooses the first of the cheapest, of the fastest of those, and of the smoothest of those; each plan is measured once. */
export class PlanChoice {
  private readonly known = new Map<BlockPlan, Measured>();

  constructor(
    private readonly line: Line,
    private readonly pace: Pace,
    private readonly work: Work,
  ) {}

  among(candidates: readonly Candidate[]): ChosenPlan | null {
    let best: ChosenPlan | null = null;
    for (const { method, plan } of candidates)
      if (plan !== null && (best === null || this.isBetter(plan, best.plan))) best = { method, plan };
    return best;
  }

  private isBetter(one: BlockPlan, two: BlockPlan): boolean {
    if (isCheaper(costOf(one), costOf(two), PEOPLE_FIRST)) return true;
    if (isCheaper(costOf(two), costOf(one), PEOPLE_FIRST)) return false;
    const [ofOne, ofTwo] = [this.measure(one), this.measure(two)];
    const slower = compare(ofOne.cycle, ofTwo.cycle);
    return slower !== 0 ? slower < 0 : ofOne.smoothness < ofTwo.smoothness;
  }

  private measure(plan: BlockPlan): Measured {
    let measured = this.known.get(plan);
    if (measured === undefined) {
      const { line, pace, work } = this;
      const posts = postsOf(line, pace, toPlan(line, work, plan));
      const cycle = cycleOfPlan(posts);
      measured = { cycle, smoothness: smoothness(posts, cycle) };
      this.known.set(plan, measured);
    }
    return measured;
  }
}

interface Measured {
  readonly cycle: Ratio;
  readonly smoothness: ReturnType<typeof smoothness>;
}
