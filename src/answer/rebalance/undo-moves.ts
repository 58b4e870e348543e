import { type Cost, costOf, isCheaper } from "../../solve/cost.js";
import { arrangeBlocks, positionsOf } from "../../solve/station/arrange-blocks.js";
import type { BlockPlan, Work } from "../../solve/work.js";
import { costOfPassing, type LabelledStation, type MoveProblem } from "./move-problem.js";

/**
 * Lowers the moves of a plan by putting blocks back where they stand today, alone or against another block, as long as the rules and
 * the ceiling allow it. A start for the exact search, and the answer where that search ends too early.
 *
 * @param labels the label of each station of the plan, ascending, -1 for new ones
 */
export function undoMoves(
  problem: MoveProblem,
  plan: BlockPlan,
  labels: readonly number[],
  ceiling: Cost,
): readonly LabelledStation[] {
  return new Undoing(problem, plan, labels, ceiling).run();
}

class Undoing {
  private readonly floor: Work;
  /** The label of each slot: every station of today and every new one, in order of flow. */
  private readonly slots: readonly number[];
  private at: number[];
  private tries = 0;

  constructor(
    private readonly problem: MoveProblem,
    private readonly plan: BlockPlan,
    private readonly labels: readonly number[],
    private readonly ceiling: Cost,
  ) {
    const { floor, labelAt } = problem;
    if (labelAt !== null) {
      this.slots = Array.from({ length: floor.positions }, (_, position) => labelAt[position] ?? -1);
      this.floor = floor;
      this.at = positionsOf(floor, plan);
      return;
    }
    const { slots, slotOf } = layOutSlots(problem.labels, labels);
    this.slots = slots;
    // Positions are only an order here: as many as there are slots.
    const last = floor.last.map(() => slots.length);
    this.floor = { ...floor, positions: slots.length + 1, last };
    this.at = positionsOf(
      floor,
      plan.map((station, index) => ({ ...station, position: slotOf[index]! })),
    );
  }

  run(): LabelledStation[] {
    for (let isBetter = true; isBetter; ) isBetter = this.improve();
    const plan = arrangeBlocks(this.floor, this.at);
    // Where stations take what others need, only the plan itself may be left.
    if (plan === null || !isCheaper(costOf(plan), this.ceiling, "people"))
      return this.plan.map((station, at) => ({ ...station, label: this.labels[at]! }));
    return plan.map((station) => ({ ...station, label: this.slots[station.position]! }));
  }

  private improve(): boolean {
    for (const block of this.at.keys()) {
      const own = this.ownSlot(block);
      if (own < 0 || own === this.at[block]) continue;
      if (this.tryOut(this.at.with(block, own))) return true;
      for (const [other, slot] of this.at.entries()) {
        if (other === block || slot !== own) continue;
        for (const target of new Set([this.at[block]!, this.ownSlot(other)])) {
          if (target >= 0 && target !== own && this.tryOut(this.at.with(block, own).with(other, target)))
            return true;
        }
      }
    }
    return false;
  }

  /** The slot of most of the block's tasks today, or -1. */
  private ownSlot(block: number): number {
    let [best, most] = [-1, 0];
    for (const [slot, label] of this.slots.entries()) {
      const worth = label < 0 ? 0 : costOfPassing(this.problem, block, label);
      if (worth > most) [best, most] = [slot, worth];
    }
    return best;
  }

  private tryOut(at: number[]): boolean {
    if (this.tries++ > MOST_TRIES || this.costOf(at) >= this.costOf(this.at)) return false;
    const plan = arrangeBlocks(this.floor, at);
    if (plan === null || !isCheaper(costOf(plan), this.ceiling, "people")) return false;
    this.at = at;
    return true;
  }

  private costOf(at: readonly number[]): number {
    const { today, costs } = this.problem;
    let cost = 0;
    for (const [block, slot] of at.entries()) {
      for (const task of this.floor.members[block]!) {
        if (today[task]! >= 0 && today[task] !== this.slots[slot]) cost += costs[task]!;
      }
    }
    return cost;
  }
}

const MOST_TRIES = 20_000;

/** All labels with the new stations between them, and the slot of each station of the plan. */
function layOutSlots(labels: number, used: readonly number[]): { slots: number[]; slotOf: number[] } {
  const slots: number[] = [];
  const slotOf: number[] = [];
  let next = 0;
  for (const label of used) {
    if (label >= 0) while (next < label) slots.push(next++);
    slotOf.push(slots.length);
    slots.push(label);
    if (label >= 0) next = label + 1;
  }
  while (next < labels) slots.push(next++);
  return { slots, slotOf };
}
