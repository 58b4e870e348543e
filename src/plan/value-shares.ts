import { KINDS_OF_WORK, type KindOfWork, type Line } from "../line/line.js";
import { add, compare, divide, multiply, type Ratio, ratio, ZERO } from "../time/ratio.js";

export interface ValueShare {
  /** null: the file does not say. */
  readonly kind: KindOfWork | null;
  /** Of the work content, 0 to 1; all shares together are 1. */
  readonly share: Ratio;
}

/** How the person-time of one unit divides by kind of work, in the order of the kinds, "not said" last; null without any work. */
export function valueShares(line: Line): ValueShare[] | null {
  const kinds = [...KINDS_OF_WORK, null];
  const work = kinds.map((kind) =>
    line.tasks
      .filter((task) => task.kind === kind)
      .map(({ load, people }) => multiply(load, ratio(people)))
      .reduce(add, ZERO),
  );
  const all = work.reduce(add, ZERO);
  if (compare(all, ZERO) === 0) return null;
  return kinds.map((kind, at) => ({ kind, share: divide(work[at]!, all) }));
}
