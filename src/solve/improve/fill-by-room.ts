import { NOWHERE, type PartialPlan } from "./partial-plan.js";

/** When a block may bring further people to a station in use: wherever the station may have them, or only where it would be late else. */
export type Opening = "when-it-fits" | "when-due";

/**
 * Fills stations one after another, the block with the least room to be late first. A block that finds no station in time is left
 * out, and those after it go on as if it stood somewhere between. Gives null now and then.
 *
 * @param latest the position, with parts of it, at which the work of each block should begin
 */
export function* fillByRoom(plan: PartialPlan, latest: ArrayLike<number>, opening: Opening): Generator<null> {
  const { work } = plan;
  let open = [...work.loads.keys()].sort((one, two) => latest[one]! - latest[two]! || one - two);
  let asked = plan.tries;
  for (let position = 0; position < work.positions && open.length > 0; position++) {
    const mayStart = (block: number) =>
      work.before[block]!.every((each) => plan.at[each] !== NOWHERE || work.last[each]! < position) &&
      plan.roomOf(block).from <= position;
    const join = (block: number) => {
      if (!mayStart(block)) return false;
      const closed = plan.joined(block, position);
      if (closed === null) return false;
      const brings = closed.places * closed.crew - plan.peopleAt(position);
      const isDue = latest[block]! < position + 1;
      if (opening === "when-due" && !isDue && brings > 0 && plan.blocksAt(position).length > 0) return false;
      plan.put(block, position, closed);
      return true;
    };
    while (open.some(join)) open = open.filter((block) => plan.at[block] === NOWHERE);
    open = open.filter((block) => plan.at[block] === NOWHERE && work.last[block]! > position);
    if (plan.tries - asked < STRETCH) continue;
    asked = plan.tries;
    yield null;
  }
}

/** Ways tried between two looks at the clock. */
const STRETCH = 2_000;
