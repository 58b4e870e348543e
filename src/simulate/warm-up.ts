import { toNumber } from "../time/ratio.js";
import { MICROS_IN } from "../time/units.js";
import { type AskedRuns, replicationsOf } from "./run-again-and-again.js";
import type { Settled } from "./simulation-answer.js";
import { isRandom, longestWork } from "./station-work.js";
import type { Run } from "./watched-line.js";

/** Observations are taken five at a time. */
const BATCH = 5;

/**
 * How many observations to leave out of the start of a series by the rule MSER-5: those without which the variance of the rest over its count is
 * least, in batches of five, up to half of them (K. P. White, Simulation 69, 1997; K. P. White, M. J. Cobb, S. C. Spratt, Winter Simulation
 * Conference 2000; both from memory).
 *
 * @param series whole numbers
 * @returns null where the series had not settled by its half
 */
export function settlesAfter(series: readonly number[]): number | null {
  const batches = Array.from({ length: Math.floor(series.length / BATCH) }, (_, at) =>
    series.slice(at * BATCH, (at + 1) * BATCH).reduce((sum, each) => sum + BigInt(each), 0n),
  );
  const most = Math.floor(batches.length / 2);
  let [count, sum, squares] = [0n, 0n, 0n];
  let [best, scatter, cube] = [0, 0n, 0n];
  for (let left = batches.length - 1; left >= 0; left--) {
    const each = batches[left]!;
    [count, sum, squares] = [count + 1n, sum + each, squares + each * each];
    if (left > most) continue;
    // The variance over the count, apart from a factor for all: (n x sum of squares - square of the sum) / n^3.
    const [own, ownCube] = [count * squares - sum * sum, count ** 3n];
    if (cube === 0n || own * cube <= scatter * ownCube) [best, scatter, cube] = [left, own, ownCube];
  }
  return best === most && most > 0 ? null : best * BATCH;
}

/** Trial runs, and the units of the slowest station in each; where it has not settled by then, twice as many, up to the last. */
const TRIALS = 4;
const [FIRST_UNITS, LAST_UNITS] = [1000, 8000];

/**
 * When a line that starts empty has settled: the later of where the units that leave it and the units in it do, each summed over a few trial
 * runs and counted once a unit of the slowest station.
 *
 * @param asked its hours, its warm-up and its replications do not matter
 * @param goesOn asked now and then; false ends the trial
 * @returns null where it was ended
 */
export async function findWarmUp(
  asked: AskedRuns,
  goesOn: (run: number, runs: number) => Promise<boolean>,
): Promise<Settled | null> {
  const { line, plan, lineCycle } = asked;
  const pace = line.flow.pacing === "unpaced" ? 0 : (lineCycle ?? 0);
  const apart = Math.max(1, pace, Math.round(toNumber(longestWork(line, plan))));
  const trials = isRandom(line, plan) ? TRIALS : 1;
  for (let units = FIRST_UNITS; ; units *= 2) {
    const trial = { ...asked, hours: units * apart, warmUp: 0, replications: trials, slices: units };
    const runs: Run[] = [];
    for (const run of replicationsOf(trial)) {
      if (run !== null) runs.push(run);
      if (!(await goesOn(Math.min(trials, runs.length + 1), trials))) return null;
    }
    const series = (of: (slice: Run["slices"][number]) => number) =>
      Array.from({ length: units }, (_, at) => runs.reduce((sum, { slices }) => sum + of(slices[at]!), 0));
    const [left, inside] = [
      settlesAfter(series((slice) => slice.left)),
      settlesAfter(series((slice) => slice.unitTime)),
    ];
    const isSettled = left !== null && inside !== null;
    if (!isSettled && units < LAST_UNITS) continue;
    return { after: (isSettled ? Math.max(left, inside) : units / 2) * apart, trials, units, isSettled };
  }
}

/** A time up to the next whole hour, one at least. */
export const wholeHours = (time: number): number => Math.max(1, Math.ceil(time / MICROS_IN.h)) * MICROS_IN.h;
