import { countOf, thousands } from "../findings/count-of.js";
import type { Finding } from "../findings/finding.js";
import type { Line } from "../line/line.js";
import { findSlowingWaits } from "../plan/check/check-waits.js";
import type { Plan } from "../plan/plan.js";
import { verifyRules } from "../plan/verify-plan.js";
import type { Micros } from "../time/duration.js";
import { type Pace, paceFromCycle } from "../time/pace.js";
import { add, floor, type Ratio, ratio, toNumber } from "../time/ratio.js";
import { longTime } from "../time/show-values.js";
import { MICROS_IN } from "../time/units.js";
import type { BenchesBeside } from "./bench-of-run.js";
import { lengthOf, MOST_VISITS, visitsIn, withWarmUp } from "./choose-length.js";
import { faultsOfRun } from "./lay-out-run.js";
import type { RunsBeside } from "./run-again-and-again.js";
import { shiftOfRun } from "./shift-demand.js";
import { simulateLine } from "./simulate-line.js";
import type { SimulationAnswer, SimulationLength } from "./simulation-answer.js";
import { longestWork } from "./station-work.js";

/** How a run is made; each left out is as the command says. */
export interface RunOptions {
  readonly seed?: number;
  readonly hours?: Micros;
  readonly warmUp?: Micros;
  readonly replications?: number;
  readonly confidence?: Ratio;
  /** Share of the output that half of its interval may be. */
  readonly within?: Ratio;
  readonly whatHelps?: boolean;
}

export const MOST_SEED = 2 ** 31 - 1;
export const MOST_REPLICATIONS = 100_000;
const USUAL_CONFIDENCE = ratio(95, 100);

/** A plan to be run. */
export interface PlanToRun {
  /** Without what benches build. */
  readonly line: Line;
  readonly whole: Line;
  readonly plan: Plan;
  /** Null where nothing gives one. */
  readonly pace: Pace | null;
  /** The benches of the plan at a pace. */
  benchesAt(pace: Pace): BenchesBeside["benches"];
}

/** How options are called where they are given. */
export type OptionNames = Readonly<Record<"hours" | "replications" | "warmUp", string>>;

/**
 * A plan on simulated days, or what keeps it from being simulated; null where the work was ended with nothing to show.
 *
 * @param goesOn asked in the midst of the work, of which replication of so many at most, -1 for trial runs of the warm-up, 0 for the line as it is and then each that might help; false ends it
 */
export async function runPlan(
  { line, whole, plan, pace, benchesAt }: PlanToRun,
  options: RunOptions,
  beside: RunsBeside | null,
  goesOn: (replication: number, of: number, rerun: number) => Promise<boolean>,
): Promise<
  | SimulationAnswer
  | { readonly faults: readonly Finding[] }
  | { readonly tooLong: (names: OptionNames) => string }
  | null
> {
  const lineCycle = pace === null ? null : Number(floor(add(pace.lineCycle, ratio(1, 2))));
  const faults = faultsOfRun(line, plan, lineCycle);
  if (faults.length > 0) return { faults };
  const asked = lengthOf(line, plan, options);
  const visits = visitsIn({ line, plan, lineCycle, ...asked });
  if (asked.replications * visits > MOST_VISITS)
    return { tooLong: (names) => tooLongWords(asked, visits, names) };
  const slowest = () => paceFromCycle(Math.max(1, Math.round(toNumber(longestWork(line, plan)))));
  const benches = benchesAt(pace ?? slowest());
  const ofBenches = benches.length === 0 ? null : { whole, benches };
  const length = await withWarmUp(asked, { line, plan, lineCycle, benches: ofBenches }, (run, runs) =>
    goesOn(run, runs, -1),
  );
  const most = Math.floor(MOST_VISITS / visits);
  const within = length.within && { ...length.within, most: Math.min(length.within.most, most) };
  const answer = await simulateLine(line, plan, {
    benches: ofBenches,
    ...length,
    within,
    ofShift: shiftOfRun(line, pace?.lineCycle ?? null),
    confidence: options.confidence ?? USUAL_CONFIDENCE,
    lineCycle,
    asksWhatHelps: options.whatHelps === true,
    beside,
    goesOn: (replication, rerun) => goesOn(replication, within?.most ?? length.replications, rerun),
  });
  const slowing = pace === null ? [] : findSlowingWaits(line, pace, plan);
  return answer && { ...answer, findings: [...answer.findings, ...slowing] };
}

/** @param visits of units at stations in one replication */
function tooLongWords(
  { replications, hours, warmUp }: SimulationLength,
  visits: number,
  names: OptionNames,
): string {
  const fewer = Math.floor(MOST_VISITS / visits);
  const one = visits / (hours + warmUp);
  const shorter = Math.floor(MOST_VISITS / replications / one / MICROS_IN.h - warmUp / MICROS_IN.h);
  const ways = [
    ...(shorter > 0 ? [`${names.hours} ${shorter}`] : []),
    ...(fewer > 0 && replications > 1 ? [`${names.replications} ${fewer}`] : []),
  ];
  const instead = ways.length === 0 ? `a shorter ${names.warmUp}` : `${ways.join(" or ")} at most`;
  return `${names.hours}, ${names.replications}: ${countOf(replications, "replication")} of ${longTime(hours + warmUp)} with the warm-up ${replications === 1 ? "is" : "are"} about ${thousands(replications * visits)} stays of units at stations; ${thousands(MOST_VISITS)} are the most. Give ${instead}`;
}

/** Rules of the line that a plan breaks, also where nothing gives the pace; loads are none of them. */
export const brokenRules = (line: Line, pace: Pace | null, plan: Plan): Finding[] =>
  verifyRules(line, pace ?? A_PACE, plan);

const A_PACE = paceFromCycle(MICROS_IN.h);
