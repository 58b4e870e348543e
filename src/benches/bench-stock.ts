import type { Line } from "../line/line.js";
import {
  add,
  ceiling,
  compare,
  divide,
  floor,
  multiply,
  type Ratio,
  ratio,
  subtract,
  ZERO,
} from "../time/ratio.js";
import { type BenchHours, type BenchShift, shiftsWorked, stretchesOf } from "./bench-hours.js";
import type { BenchJob } from "./bench-job.js";

/** What is kept for one reason, and how long the bench works to build it up again beside what the line takes. */
export interface KeptStock {
  readonly units: number;
  /** In microseconds of the bench's working time; null: never, the bench has no time to spare. */
  readonly refill: Ratio | null;
  /** How that compares with the shortest shift of the bench; without a calendar a shift is not known. */
  readonly refills: "within a shift" | "longer than a shift" | "in a time without shifts" | "never";
}

/** Units' parts that lie between a bench and its line; all counts are whole units that carry the parts. */
export interface BenchStock {
  /** Ready when the line starts its day, because the bench works other hours. */
  readonly start: number;
  /** The most that lies there in the course of a day for that reason. */
  readonly most: number;
  /** For a stop of the bench; null where none is to be ridden through. */
  readonly stop: KeptStock | null;
  /** For units with these parts one after another; null where they come evenly. */
  readonly bunch: KeptStock | null;
  /** Parts that set, cure or dry before they may join. */
  readonly resting: number;
  /** All of it at once: what room is needed for. Null where no hours, stop, bunch, space or wait tells how many parts lie there. */
  readonly units: number | null;
}

/** How fast a bench builds and a line takes, in units per microsecond. */
export interface StockRates {
  /** Units' parts of the bench with all its places, while it works. */
  readonly builds: Ratio;
  /** Units that carry the parts, on the running line. */
  readonly takes: Ratio;
  /** Units of every kind on the running line. */
  readonly passes: Ratio;
}

/** The stock that a bench needs, from its hours, the stop it may have, and how its parts are ordered. */
export function stockOf(line: Line, job: BenchJob, hours: BenchHours, rates: StockRates): BenchStock {
  const { start, most } = stockForHours(line, hours, rates);
  const { stop, bunch } = job.terms;
  const stopUnits = Number(ceiling(multiply(ratio(stop), rates.takes)));
  const bunchUnits = bunch - (hours.coversLine ? builtDuring(bunch, rates) : 0);
  const resting = restingUnits(line, job, rates.takes);
  const forStop = stop === 0 ? null : kept(line, hours, rates, stopUnits);
  const forBunch = bunch === 1 ? null : kept(line, hours, rates, bunchUnits);
  const units = Math.max(start, most) + (forStop?.units ?? 0) + (forBunch?.units ?? 0) + resting;
  const { shifts, space } = job.terms;
  const isStated = units > 0 || shifts !== null || stop > 0 || bunch > 1 || space !== null;
  return { start, most, stop: forStop, bunch: forBunch, resting, units: isStated ? units : null };
}

/** What the bench builds while a bunch of units passes, every one of them with the parts. */
function builtDuring(bunch: number, { builds, passes }: StockRates): number {
  return Math.min(bunch, Number(floor(multiply(ratio(bunch), divide(builds, passes)))));
}

/** The day of line and bench side by side: what must be there at its start, and the most that lies there. */
function stockForHours(
  line: Line,
  { shifts, coversLine }: BenchHours,
  { builds, takes }: StockRates,
): Pick<BenchStock, "start" | "most"> {
  const lineShifts = line.calendar?.shifts.length ?? 0;
  // With the same hours the two keep pace, unit by unit.
  if (shifts === null || (coversLine && shifts === lineShifts)) return { start: 0, most: 0 };
  const stretches = stretchesOf(line, shifts);
  const inAll = (rate: Ratio, of: "line" | "bench", to: number) =>
    multiply(
      stretches
        .slice(0, to)
        .map((each) => each[of])
        .reduce(add, ZERO),
      multiply(rate, line.uptime),
    );
  const day = inAll(takes, "line", stretches.length);
  // Only whole units are built; how many lie there, and must, is rounded up.
  const left = stretches.map((_, at) => {
    const built = ratio(floor(inAll(builds, "bench", at + 1)));
    return subtract(smaller(built, day), inAll(takes, "line", at + 1));
  });
  const start = Math.max(0, ...left.map((each) => Number(ceiling(subtract(ZERO, each)))));
  return { start, most: Math.max(start, ...left.map((each) => start + Number(ceiling(each)))) };
}

const smaller = (one: Ratio, two: Ratio): Ratio => (compare(two, one) < 0 ? two : one);

function kept(line: Line, hours: BenchHours, rates: StockRates, units: number): KeptStock {
  const refill = refillTime(line, hours, rates, units);
  const shift = shortestOf(shiftsWorked(line, hours));
  if (refill === null) return { units, refill, refills: units === 0 ? "within a shift" : "never" };
  if (shift === null) return { units, refill, refills: "in a time without shifts" };
  return { units, refill, refills: compare(refill, shift) > 0 ? "longer than a shift" : "within a shift" };
}

const shortestOf = (shifts: readonly BenchShift[]): Ratio | null =>
  shifts
    .map(({ available }) => available)
    .reduce<Ratio | null>((one, two) => (one === null || compare(two, one) < 0 ? two : one), null);

function refillTime(line: Line, hours: BenchHours, rates: StockRates, units: number): Ratio | null {
  const spare = subtract(rates.builds, divide(rates.takes, hours.ofLine));
  if (compare(spare, ZERO) <= 0) return null;
  return divide(ratio(units), multiply(spare, line.uptime));
}

function restingUnits(line: Line, { tasks }: BenchJob, takes: Ratio): number {
  const inside = new Set(tasks);
  const waits = line.waits.filter(({ from, wait }) => inside.has(from) && wait > 0);
  return waits.reduce((sum, { wait }) => sum + Number(ceiling(multiply(ratio(wait), takes))), 0);
}

/** Units' parts of several benches at once; 0 where there is none, null where of none of them anything is stated. */
export function stockOfBenches(benches: readonly { readonly stock: BenchStock }[]): number | null {
  const known = benches.flatMap(({ stock }) => stock.units ?? []);
  if (known.length === 0 && benches.length > 0) return null;
  return known.reduce((sum, each) => sum + each, 0);
}
