import type { Pace } from "../time/pace.js";
import { divide, larger, multiply, ONE, type Ratio, ratio, ZERO } from "../time/ratio.js";
import type { Line } from "./line.js";
import { visitsPerGoodUnit } from "./visits.js";

/**
 * How often a good unit passes a station with these tasks: the most visits of any of them, never below 1. A unit that is tested again, or
 * that is scrapped later and so replaced, is moved and positioned each time.
 *
 * @param share of the units that come to the station at all, which visits are means over all of
 */
export function passesOf(line: Line, tasks: readonly number[], share: Ratio = ONE): Ratio {
  return tasks.map((task) => divide(visitsAt(line, task), share)).reduce(larger, ONE);
}

/** What a good unit loses to handling at a station with these tasks = handling x passes, in microseconds. */
export function handlingAt(
  line: Line,
  { handling }: Pick<Pace, "handling">,
  tasks: readonly number[],
  share: Ratio = ONE,
): Ratio {
  if (handling === 0) return ZERO;
  const passes = passesOf(line, tasks, share);
  return passes === ONE ? ratio(handling) : multiply(ratio(handling), passes);
}

/** Asked for with every station that is looked at. */
function visitsAt(line: Line, task: number): Ratio {
  let known = VISITS.get(line);
  if (known === undefined) {
    known = line.tasks.map((each) => visitsPerGoodUnit(line, each));
    VISITS.set(line, known);
  }
  return known[task]!;
}

const VISITS = new WeakMap<Line, readonly Ratio[]>();
