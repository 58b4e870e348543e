import type { Line } from "../line/line.js";
import { modelsInTurn } from "../plan/models/models-in-turn.js";
import type { Plan } from "../plan/plan.js";
import { emptyBefore } from "../plan/station-numbers.js";
import { type Ratio, toNumber } from "../time/ratio.js";
import type { AskedRuns } from "./run-again-and-again.js";
import type { ChosenLength, SimulationLength, Within } from "./simulation-answer.js";
import { isRandom, longestWork } from "./station-work.js";
import { findWarmUp, wholeHours } from "./warm-up.js";

/** Units of the slowest station in the hours that are watched, and in the warm-up where a trial of it was ended. */
const WATCHED_UNITS = 1000;
const WARM_UP_UNITS = 100;
const REPLICATIONS = 20;

/** What the command line says of the length; what it leaves out is chosen. */
export interface AskedLength extends Partial<SimulationLength> {
  /** Share of the output that half of its interval may be. */
  readonly within?: Ratio;
}

/** How long a simulation is, and what of that was chosen. */
export interface FoundLength extends SimulationLength {
  readonly within: Within | null;
  readonly chosen: ChosenLength;
}

/**
 * What the user did not say: whole hours in which the slowest station works 1,000 units, and 100 more before, as long as no trial tells when the
 * line has settled; 20 replications, or 1 where nothing varies. Where a half-width is asked for, these are the first.
 */
export function lengthOf(line: Line, plan: Plan, asked: AskedLength): FoundLength {
  const slowest = toNumber(longestWork(line, plan));
  const { seed = 1, replications, hours, warmUp, within } = asked;
  const usual = isRandom(line, plan) ? REPLICATIONS : 1;
  const most = replications ?? MOST_FOR_WIDTH;
  return {
    seed,
    replications: within === undefined ? (replications ?? usual) : Math.min(usual, most),
    hours: hours ?? wholeHours(WATCHED_UNITS * slowest),
    warmUp: warmUp ?? wholeHours(WARM_UP_UNITS * slowest),
    within: within === undefined ? null : { share: within, most },
    chosen: {
      units: hours === undefined ? WATCHED_UNITS : null,
      settled: null,
      isWarmUpGiven: warmUp !== undefined,
      areReplicationsGiven: replications !== undefined,
    },
  };
}

/** The same with the warm-up that trial runs show, where none was given and the trial was not ended. */
export async function withWarmUp(
  found: FoundLength,
  of: Omit<AskedRuns, keyof SimulationLength | "models">,
  goesOn: (run: number, runs: number) => Promise<boolean>,
): Promise<FoundLength> {
  if (found.chosen.isWarmUpGiven) return found;
  const models = modelsInTurn(of.line, of.plan)?.models ?? [0];
  const settled = await findWarmUp({ ...of, ...found, models }, goesOn);
  const warmUp = settled === null ? found.warmUp : wholeHours(settled.after);
  return { ...found, warmUp, chosen: { ...found.chosen, settled } };
}

/** Replications for a half-width, unless the command line says how many at most. */
export const MOST_FOR_WIDTH = 1000;

/** Visits of units at stations from which on starting a thread costs less than it saves. */
export const MANY_VISITS = 1_000_000;

/** Visits of units at stations that are simulated at most, all replications together: some minutes of a processor. */
export const MOST_VISITS = 1_000_000_000;

interface OneRun extends Pick<SimulationLength, "hours" | "warmUp"> {
  readonly line: Line;
  readonly plan: Plan;
  readonly lineCycle: number | null;
}

/** About how many visits of units at stations a replication has, by its slowest station or the pace. */
export function visitsIn({ line, plan, lineCycle, hours, warmUp }: OneRun): number {
  const pace = line.flow.pacing === "unpaced" ? 0 : (lineCycle ?? 0);
  const apart = Math.max(1, pace, toNumber(longestWork(line, plan)));
  const empty = pace === 0 ? 0 : emptyBefore(line, plan).reduce((sum, each) => sum + each, 0);
  return Math.ceil((hours + warmUp) / apart) * (plan.stations.length + empty);
}
