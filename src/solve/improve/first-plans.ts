import { type Cost, costOf } from "../floor/floor-state.js";
import { PeopleBound } from "../floor/people-bound.js";
import type { BlockPlan, Work } from "../work.js";
import { fillByRoom, type Opening } from "./fill-by-room.js";
import { latestPositions } from "./latest-positions.js";
import { NOWHERE, PartialPlan } from "./partial-plan.js";
import { PlanImprover } from "./plan-improver.js";

/** Plans before anything is proved: filled by least room to be late, repaired, then improved. */
export class FirstPlans {
  private readonly plan: PartialPlan;
  private readonly improver: PlanImprover;

  constructor(
    private readonly work: Work,
    limits: { readonly nodes: number },
    private readonly startFrom: readonly number[] | null = null,
  ) {
    this.plan = new PartialPlan(work);
    const least: Cost = new PeopleBound(work).of([...work.loads.keys()]);
    this.improver = new PlanImprover(work, this.plan, limits.nodes, least);
  }

  get nodes(): number {
    return this.plan.tries;
  }

  get best(): BlockPlan | null {
    return this.improver.best;
  }

  /** The partial plan with the most work placed, and the blocks that have no station in it. */
  get partial(): { readonly positionOf: readonly number[]; readonly left: readonly number[] } {
    const positionOf = [...this.improver.fullest];
    return { positionOf, left: [...positionOf.keys()].filter((block) => positionOf[block] === NOWHERE) };
  }

  *stretches(): Generator<null> {
    const { work, plan, improver } = this;
    const floor = work.kinds.length - 1;
    const latest = latestPositions(work, plan.reach, floor > 0 ? floor : work.positions);
    let best: { at: Int32Array; left: number; people: number } | null = null;
    for (const opening of ["free", "due"] as Opening[]) {
      plan.clear();
      fillByRoom(plan, latest, opening);
      const left = work.size - plan.placed;
      if (process.env.DBG) console.log(opening, left, plan.people, plan.stations);
      if (best === null || left < best.left || (left === best.left && plan.people < best.people))
        best = { at: plan.at.slice(), left, people: plan.people };
      yield null;
    }
    plan.clear();
    for (const [block, at] of best!.at.entries()) if (at >= 0) plan.put(block, at, plan.joined(block, at)!);
    yield* improver.complete();
    if (process.env.DBG) console.log("complete", plan.tries, improver.best && costOf(improver.best));
    yield* improver.improve();
  }
}
