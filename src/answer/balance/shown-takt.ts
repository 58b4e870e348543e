import type { Line } from "../../line/line.js";
import { unitsToStart } from "../../plan/figures/units-tested.js";
import { ceiling, type Ratio } from "../../time/ratio.js";
import type { TaktSum } from "../../time/takt.js";
import { type TestFacts, testFacts } from "./shown-balance.js";

/** The whole sum of a pace with what tests make of it. */
export interface ShownTakt extends TestFacts {
  readonly line: Line;
  readonly takt: TaktSum;
  /** Units to start in the period of the demand, and whole ones. */
  readonly toStart: Ratio;
  readonly wholeToStart: bigint;
}

export function shownTakt(line: Line, takt: TaktSum): ShownTakt {
  const toStart = unitsToStart(line, takt.terms.demand.units);
  const tests = testFacts(line, takt.pace.lineCycle);
  return { line, takt, toStart, wholeToStart: ceiling(toStart), ...tests };
}
