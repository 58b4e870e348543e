import { KINDS_OF_WORK, type KindOfWork, type Line } from "../../line/line.js";
import { compare, divide, type Ratio, ZERO } from "../../time/ratio.js";
import { personTime } from "./person-time.js";

export interface ValueShare {
  /** null: the file does not say. */
  readonly kind: KindOfWork | null;
  /** Of the work content, 0 to 1; all shares together are 1. */
  readonly share: Ratio;
}

/** How the person-time of one unit divides by kind of work, in the order of the kinds, "not said" last; null without any work. */
export function valueShares(line: Line): ValueShare[] | null {
  const kinds = [...KINDS_OF_WORK, null];
  const all = [...line.tasks.keys()];
  const work = kinds.map((kind) =>
    personTime(
      line,
      all.filter((task) => line.tasks[task]!.kind === kind),
    ),
  );
  const whole = personTime(line, all);
  if (compare(whole, ZERO) === 0) return null;
  return kinds.map((kind, at) => ({ kind, share: divide(work[at]!, whole) }));
}
