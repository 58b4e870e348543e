import type { Line } from "../line/line.js";
import type { Plan } from "../plan/plan.js";
import { toNumber } from "../time/ratio.js";
import { MICROS_IN } from "../time/units.js";
import type { SimulationLength } from "./simulation-answer.js";
import { isRandom, longestWork } from "./station-work.js";

/** Units of the slowest station in the hours that are watched, and in the warm-up, where the user does not say how long these are. */
const WATCHED_UNITS = 1000;
const WARM_UP_UNITS = 100;
const REPLICATIONS = 20;

/** What the user did not say: whole hours in which the slowest station works 1,000 units, and 100 more before; 20 replications, or 1 where nothing varies. */
export function lengthOf(line: Line, plan: Plan, asked: Partial<SimulationLength>): SimulationLength {
  const slowest = toNumber(longestWork(line, plan));
  const wholeHours = (units: number) => Math.max(1, Math.ceil((units * slowest) / MICROS_IN.h)) * MICROS_IN.h;
  return {
    seed: asked.seed ?? 1,
    replications: asked.replications ?? (isRandom(line, plan) ? REPLICATIONS : 1),
    hours: asked.hours ?? wholeHours(WATCHED_UNITS),
    warmUp: asked.warmUp ?? wholeHours(WARM_UP_UNITS),
  };
}

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
  return Math.ceil((hours + warmUp) / apart) * plan.stations.length;
}
