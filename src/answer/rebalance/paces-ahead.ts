import type { Line } from "../../line/line.js";
import { type Pace, paceFromCycle, paceFromDemand } from "../../time/pace.js";
import { ceiling, compare, divide, floor, multiply, type Ratio, ratio, ZERO } from "../../time/ratio.js";

/** A line at one pace, and how its loads are judged there. */
export interface AtPace {
  readonly line: Line;
  readonly pace: Pace;
  readonly strictLimit: boolean;
}

/** Paces in equal steps, each faster than the one before. */
export interface PacesAhead {
  /** Null where there is no such pace: handling takes all of the line cycle. */
  at(step: bigint): AtPace | null;
  /** The last step whose line cycle, in microseconds, is at least this long. */
  stepOf(lineCycle: Ratio): bigint;
  readonly first: bigint;
  readonly last: bigint;
  /** Good units in the period of the line's demand; null where steps are line cycles. */
  demandAt(step: bigint): Ratio | null;
}

/** Steps beyond this are taken to lead on for ever. */
export const ENDLESS = 10n ** 15n;
/** The coarsest part of a unit of demand is a whole one; the finest that is written in decimals. */
const MOST_DECIMALS = 6;

/** What one step of demand is: a whole unit, or so many decimals as the demand has. */
export function stepOfDemand(units: Ratio): Ratio {
  for (let decimals = 0; decimals <= MOST_DECIMALS; decimals++) {
    const scale = 10n ** BigInt(decimals);
    if (scale % units.den === 0n) return ratio(1n, scale);
  }
  return ratio(1n, units.den);
}

/**
 * Demands from one step up, or line cycles down to a microsecond where the line cycle was given.
 *
 * @param judge how loads are judged at a pace
 */
export function pacesAhead(
  line: Line,
  pace: Pace,
  judge: (at: Omit<AtPace, "strictLimit">) => AtPace,
): PacesAhead {
  const { demand } = line;
  if (demand === null || pace.takt === null) {
    return {
      at: (step) => (step < 0n ? judge({ line, pace: paceFromCycle(Number(-step)) }) : null),
      stepOf: (cycle) => (compare(cycle, ZERO) > 0 ? -ceiling(cycle) : -1n),
      first: -ENDLESS,
      last: -1n,
      demandAt: () => null,
    };
  }
  const step = stepOfDemand(demand.units);
  // Line cycle x demand is the same at every demand.
  const steps = divide(multiply(pace.lineCycle, demand.units), step);
  const stepOf = (cycle: Ratio) => {
    const found = compare(cycle, ZERO) > 0 ? floor(divide(steps, cycle)) : ENDLESS;
    return found < ENDLESS ? found : ENDLESS;
  };
  const demandAt = (at: bigint) => multiply(step, ratio(at));
  return {
    at: (at) => {
      const asked = { ...line, demand: { ...demand, units: demandAt(at) } };
      const found = paceFromDemand({ ...asked, demand: asked.demand });
      return found.ok ? judge({ line: asked, pace: found.value }) : null;
    },
    stepOf,
    first: 1n,
    last: ENDLESS,
    demandAt,
  };
}

/**
 * The last of ascending steps at which something holds that holds up to some step and not beyond; null where it never does, and the
 * last of all where it always does.
 *
 * @param guess where to look first
 */
export function lastThatHolds(
  { first, last }: { readonly first: bigint; readonly last: bigint },
  guess: bigint,
  holds: (step: bigint) => boolean,
): bigint | null {
  const within = (step: bigint) => (step < first ? first : step > last ? last : step);
  let at = within(guess);
  let stride = 1n;
  let [low, high]: [bigint | null, bigint | null] = [null, null];
  while (low === null || high === null) {
    if (holds(at)) {
      low = at;
      if (at === last) return last;
      if (high === null) at = within(at + stride);
    } else {
      high = at;
      if (at === first) return null;
      if (low === null) at = within(at - stride);
    }
    stride *= 2n;
  }
  while (high - low > 1n) {
    const middle: bigint = low + (high - low) / 2n;
    if (holds(middle)) low = middle;
    else high = middle;
  }
  return low;
}
