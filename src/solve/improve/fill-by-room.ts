import type { PartialPlan } from "./partial-plan.js";

/** When a block may bring further people to a station that is already in use. */
export type Opening = "free" | "due";

/**
 * Fills stations one after another, the block with the least room to be late first. A block that finds no station in time is left
 * out, and those after it go on as if it stood somewhere between: what remains is for a repair.
 *
 * @param latest the position by which each block should stand
 */
export function fillByRoom(plan: PartialPlan, latest: ArrayLike<number>, opening: Opening): void {
  const { work } = plan;
  const order = [...work.loads.keys()].sort((one, two) => latest[one]! - latest[two]! || one - two);
  const isOpen = (block: number) => plan.at[block]! < 0;
  for (let position = 0; position < work.positions && plan.placed < work.size; position++) {
    const mayStart = (block: number) =>
      work.first[block]! <= position &&
      work.last[block]! >= position &&
      work.before[block]!.every((earlier) => !isOpen(earlier) || work.last[earlier]! < position) &&
      plan.roomOf(block).from <= position;
    for (;;) {
      const joins = order.some((block) => {
        if (!isOpen(block) || !mayStart(block)) return false;
        const closed = plan.joined(block, position);
        if (closed === null) return false;
        const isLarger =
          plan.blocksAt(position).length > 0 && closed.places * closed.crew > plan.peopleAt(position);
        if (isLarger && opening === "due" && latest[block]! >= position + 1) return false;
        plan.put(block, position, closed);
        return true;
      });
      if (!joins) break;
    }
  }
}
