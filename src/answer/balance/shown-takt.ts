import type { Line } from "../../line/line.js";
import { leastCarriers } from "../../plan/figures/carriers.js";
import { unitsToStart } from "../../plan/figures/units-tested.js";
import { ceiling, divide, type Ratio } from "../../time/ratio.js";
import type { TaktSum } from "../../time/takt.js";
import { type TestFacts, testFacts } from "./shown-balance.js";

/** The whole sum of a pace with what tests make of it. */
export interface ShownTakt extends TestFacts {
  readonly line: Line;
  readonly takt: TaktSum;
  /** Units to start in the period of the demand, and whole ones. */
  readonly toStart: Ratio;
  readonly wholeToStart: bigint;
  /** Of a line that moves together where failures and scrap take carriers; null where each good unit takes one. */
  readonly carriers: TaktCarriers | null;
}

/** At least so many carriers for a good unit, and how often one comes then, in microseconds. */
export interface TaktCarriers {
  readonly perGoodUnit: Ratio;
  readonly every: Ratio;
}

export function shownTakt(line: Line, takt: TaktSum): ShownTakt {
  const toStart = unitsToStart(line, takt.terms.demand.units);
  const tests = testFacts(line, takt.pace.lineCycle);
  const perGoodUnit = leastCarriers(line);
  const carriers = perGoodUnit && { perGoodUnit, every: divide(takt.pace.lineCycle, perGoodUnit) };
  return { line, takt, carriers, toStart, wholeToStart: ceiling(toStart), ...tests };
}
