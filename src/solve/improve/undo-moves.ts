import { type Cost, costOf, isCheaper, PEOPLE_FIRST } from "../cost.js";
import { labelsOf, leastMovesTo } from "../moves-of-plan.js";
import { arrangeBlocks, positionsOf } from "../station/arrange-blocks.js";
import type { BlockPlan, Today, Work } from "../work.js";
import { PartialPlan } from "./partial-plan.js";

/**
 * Lowers the moves of a plan by putting blocks back where they stand today, alone or against another block, as long as the rules and
 * the ceiling allow it. Asks only the stations that a try touches, so that a try costs the same on a long line.
 */
export function undoMoves(work: Work, today: Today, plan: BlockPlan, ceiling: Cost): BlockPlan {
  return new Undoing(work, today, plan, ceiling).run();
}

class Undoing {
  private readonly floor: Work;
  /** The label of each slot: every station of today and every new one, in order of flow. */
  private readonly slots: readonly number[];
  private readonly slotOf = new Map<number, number>();
  private readonly under: PartialPlan;

  constructor(
    work: Work,
    private readonly today: Today,
    private plan: BlockPlan,
    private readonly ceiling: Cost,
  ) {
    const { labelAt } = today;
    const labels = labelsOf(today, plan);
    if (work.isPositional) {
      const labelOf = new Map(plan.map(({ position }, at) => [position, labels[at]!]));
      this.slots = Array.from(
        { length: work.positions },
        (_, position) => labelAt?.[position] ?? labelOf.get(position) ?? NONE,
      );
      this.floor = work;
    } else {
      const { slots, slotOf } = layOutSlots(today.labels, labels);
      this.slots = slots;
      // Positions are only an order here: as many as there are slots.
      const last = work.last.map(() => slots.length);
      this.floor = { ...work, positions: slots.length + 1, last };
      this.plan = plan.map((station, index) => ({ ...station, position: slotOf[index]! }));
    }
    for (const [slot, label] of this.slots.entries()) if (label >= 0) this.slotOf.set(label, slot);
    this.under = new PartialPlan(this.floor);
  }

  run(): BlockPlan {
    const { under, floor, ceiling, today } = this;
    if (!under.stand(positionsOf(floor, this.plan))) return this.asGiven();
    for (let isBetter = true; isBetter; ) isBetter = this.improve();
    const plan = under.placed < floor.size ? null : arrangeBlocks(floor, [...under.at]);
    // Where stations take what others need, only the plan itself may be left.
    if (plan === null || !isCheaper(costOf(plan), ceiling, PEOPLE_FIRST)) return this.asGiven();
    const found = this.inRow(plan);
    const given = this.asGiven();
    return leastMovesTo(today, found) < leastMovesTo(today, given) ? found : given;
  }

  private asGiven(): BlockPlan {
    return this.inRow(this.plan);
  }

  private inRow(plan: BlockPlan): BlockPlan {
    return this.floor.isPositional ? plan : plan.map((each, position) => ({ ...each, position }));
  }

  /** One look at every block that is away; whether any came home. */
  private improve(): boolean {
    const { at } = this.under;
    let isBetter = false;
    for (const block of at.keys()) {
      if (this.under.tries > MOST_TRIES) return false;
      const own = this.ownSlot(block);
      if (own < 0 || own === at[block]) continue;
      if (this.tryOut([[block, own]]) || this.exchange(block, own)) isBetter = true;
    }
    return isBetter;
  }

  private exchange(block: number, own: number): boolean {
    const { under } = this;
    const slot = under.at[block]!;
    for (const other of [...under.blocksAt(own)]) {
      for (const target of new Set([slot, this.ownSlot(other)])) {
        if (target < 0 || target === own) continue;
        if (
          this.tryOut([
            [block, own],
            [other, target],
          ])
        )
          return true;
      }
    }
    return false;
  }

  /** The slot of most of the block's tasks today, or -1. */
  private ownSlot(block: number): number {
    let [best, most] = [NONE, 0];
    for (const { label, cost } of this.today.homes[block]!)
      if (cost > most && this.slotOf.has(label)) [best, most] = [this.slotOf.get(label)!, cost];
    return best;
  }

  /** Lets the blocks stand elsewhere where that moves less, all rules hold and the plan stays below the ceiling. */
  private tryOut(moves: readonly (readonly [block: number, slot: number])[]): boolean {
    const { under } = this;
    let gain = 0;
    for (const [block, slot] of moves)
      gain += this.costAt(block, under.at[block]!) - this.costAt(block, slot);
    if (gain <= 0) return false;
    const before = moves.map(([block]) => under.at[block]!);
    for (const [block] of moves) under.remove(block);
    const stands = moves.every(([block, slot]) => under.tryPut(block, slot));
    if (stands && isCheaper({ people: under.people, stations: under.stations }, this.ceiling, PEOPLE_FIRST))
      return true;
    for (const [block] of moves) if (under.at[block]! >= 0) under.remove(block);
    for (const [index, [block]] of moves.entries()) under.tryPut(block, before[index]!);
    return false;
  }

  private costAt(block: number, slot: number): number {
    let cost = 0;
    for (const home of this.today.homes[block]!) if (home.label !== this.slots[slot]) cost += home.cost;
    return cost;
  }
}

const NONE = -1;
/** Ways to join a station that are tried. */
const MOST_TRIES = 40_000;

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
