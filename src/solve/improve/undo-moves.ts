import { type Cost, costOf, isCheaper, PEOPLE_FIRST } from "../cost.js";
import { labelsOf, leastMovesTo } from "../moves-of-plan.js";
import { arrangeBlocks, positionsOf } from "../station/arrange-blocks.js";
import type { BlockPlan, Today, Work } from "../work.js";

/**
 * Lowers the moves of a plan by putting blocks back where they stand today, alone or against another block, as long as the rules and
 * the ceiling allow it. A start for the exact search, and the answer where that search ends too early.
 */
export function undoMoves(work: Work, today: Today, plan: BlockPlan, ceiling: Cost): BlockPlan {
  return new Undoing(work, today, plan, ceiling).run();
}

class Undoing {
  private readonly floor: Work;
  /** The label of each slot: every station of today and every new one, in order of flow. */
  private readonly slots: readonly number[];
  private at: number[];
  private tries = 0;

  constructor(
    work: Work,
    private readonly today: Today,
    private readonly plan: BlockPlan,
    private readonly ceiling: Cost,
  ) {
    const { labelAt } = today;
    const labels = labelsOf(today, plan);
    if (work.isPositional) {
      const labelOf = new Map(plan.map(({ position }, at) => [position, labels[at]!]));
      this.slots = Array.from(
        { length: work.positions },
        (_, position) => labelAt?.[position] ?? labelOf.get(position) ?? -1,
      );
      this.floor = work;
      this.at = positionsOf(work, plan);
      return;
    }
    const { slots, slotOf } = layOutSlots(today.labels, labels);
    this.slots = slots;
    // Positions are only an order here: as many as there are slots.
    const last = work.last.map(() => slots.length);
    this.floor = { ...work, positions: slots.length + 1, last };
    this.at = positionsOf(
      work,
      plan.map((station, index) => ({ ...station, position: slotOf[index]! })),
    );
  }

  run(): BlockPlan {
    for (let isBetter = true; isBetter; ) isBetter = this.improve();
    const plan = arrangeBlocks(this.floor, this.at);
    // Where stations take what others need, only the plan itself may be left.
    if (plan === null || !isCheaper(costOf(plan), this.ceiling, PEOPLE_FIRST)) return this.plan;
    const found = this.floor.isPositional ? plan : plan.map((each, position) => ({ ...each, position }));
    return leastMovesTo(this.today, found) < leastMovesTo(this.today, this.plan) ? found : this.plan;
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
      const worth = this.today.homes[block]!.find((home) => home.label === label)?.cost ?? 0;
      if (worth > most) [best, most] = [slot, worth];
    }
    return best;
  }

  private tryOut(at: number[]): boolean {
    if (this.tries++ > MOST_TRIES || this.costOf(at) >= this.costOf(this.at)) return false;
    const plan = arrangeBlocks(this.floor, at);
    if (plan === null || !isCheaper(costOf(plan), this.ceiling, PEOPLE_FIRST)) return false;
    this.at = at;
    return true;
  }

  private costOf(at: readonly number[]): number {
    let cost = 0;
    for (const [block, slot] of at.entries())
      for (const home of this.today.homes[block]!) if (home.label !== this.slots[slot]) cost += home.cost;
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
