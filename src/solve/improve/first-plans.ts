import { PeopleBound } from "../bounds/people-bound.js";
import type { Cost } from "../cost.js";
import type { BlockPlan, Work } from "../work.js";
import { fillByRoom } from "./fill-by-room.js";
import { latestStartsInStretches } from "./latest-starts.js";
import { PartialPlan, type Snapshot } from "./partial-plan.js";
import { PlanImprover } from "./plan-improver.js";

export interface FirstPlansLimits {
  /** Ways for a block to join a station that are tried; the first filling goes to its end. */
  readonly nodes: number;
  /** No plan costs less, so one that does not cost more is not improved. */
  readonly least?: Cost;
}

/** A plan of some of the blocks, and those that have no station in it. */
export interface UnfinishedPlan {
  readonly plan: BlockPlan;
  readonly left: readonly number[];
}

/**
 * Whole plans before anything is proved: stations filled by the least room to be late, made whole and improved by ejection. Or a given
 * plan is made to keep the rules, and improved. The answer depends on the work, the limits and the given plan alone.
 */
export class FirstPlans {
  private readonly plan: PartialPlan;
  private readonly improver: PlanImprover;
  private readonly least: Cost;

  /** @param startFrom the position of each block in a plan that stands; -1 where it has none */
  constructor(
    private readonly work: Work,
    private readonly limits: FirstPlansLimits,
    private readonly startFrom: readonly number[] | null = null,
  ) {
    this.plan = new PartialPlan(work);
    this.improver = new PlanImprover(this.plan, () => this.nodes >= limits.nodes);
    this.least = limits.least ?? new PeopleBound(work).of([...work.loads.keys()]);
  }

  get nodes(): number {
    return this.plan.tries + this.improver.turns;
  }

  /** The plan with the fewest people, then the fewest stations, so far. */
  get best(): BlockPlan | null {
    return this.improver.best;
  }

  /** Where no whole plan is found: the partial plan with the most work placed. */
  get unfinished(): UnfinishedPlan {
    const { plan } = this;
    plan.restore(this.improver.fullest);
    return { plan: plan.plan(), left: plan.left() };
  }

  /** Goes on until no plan can be cheaper, the nodes are used up or nothing more is found; gives null now and then. */
  *stretches(): Generator<null> {
    const { work, improver, startFrom } = this;
    if (work.size === 0) return;
    if (startFrom !== null) {
      yield* this.stand(startFrom);
      yield* improver.complete(REPAIR_TURNS);
    }
    if (improver.best === null) {
      yield* this.fill();
      yield* improver.complete(Number.POSITIVE_INFINITY);
    }
    yield* improver.improve(this.least);
  }

  /** Each block where the given plan has it, as long as that breaks no rule. */
  private *stand(positionOf: readonly number[]): Generator<null> {
    if (this.plan.stand(positionOf)) return;
    this.plan.clear();
    for (const [block, position] of positionOf.entries()) {
      if (position >= 0 && position < this.work.positions) this.plan.tryPut(block, position);
      if (block % BLOCKS_AT_ONCE === BLOCKS_AT_ONCE - 1) yield null;
    }
  }

  /** Leaves the plan filled in the way that leaves out the fewest blocks, then takes the fewest people. */
  private *fill(): Generator<null> {
    const { plan, work } = this;
    const floor = work.kinds.length - 1;
    const latest = yield* latestStartsInStretches(work, floor > 0 ? floor : work.positions);
    let best: { readonly snapshot: Snapshot; readonly left: number; readonly people: number } | null = null;
    for (const opening of ["when-it-fits", "when-due"] as const) {
      if (best !== null && this.nodes >= this.limits.nodes) break;
      plan.clear();
      yield* fillByRoom(plan, latest, opening);
      const left = work.size - plan.placed;
      if (best === null || left < best.left || (left === best.left && plan.people < best.people))
        best = { snapshot: plan.snapshot(), left, people: plan.people };
      yield null;
    }
    plan.restore(best!.snapshot);
  }
}

/** Blocks that are put between two looks at the clock. */
const BLOCKS_AT_ONCE = 500;
/** Turns in which a given plan is made to keep the rules; then stations are filled anew. */
const REPAIR_TURNS = 5_000;
