import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import type { Variation } from "../line/line.js";
import type { Micros } from "../time/duration.js";
import { toNumber } from "../time/ratio.js";
import { exponential, naturalLog } from "./fixed-math.js";

/** Random numbers between 0 and 1, neither of them included. */
export type Stream = () => number;

const HALF_BITS = 2 ** 26;
const ALL_BITS = 2 ** 52;

/** Streams of random numbers without end that have nothing in common, the same ones for the same seed (xoroshiro128+ of `pure-rand`, each a jump after the one before). */
export function* streamsOf(seed: number): Generator<Stream, never> {
  const generator = xoroshiro128plus(seed);
  for (;;) {
    const own = generator.clone();
    generator.jump();
    yield () => ((own.next() >>> 6) * HALF_BITS + (own.next() >>> 6) + 0.5) / ALL_BITS;
  }
}

/** Draws what a time is multiplied by for one unit: 1 on average. */
export type DrawFactor = (stream: Stream) => number;

/** An exponential factor. */
export const drawExponential: DrawFactor = (stream) => -naturalLog(stream());

/** A standard normal number: the polar method (Marsaglia and Bray 1964), without the second one that it makes. */
export function drawNormal(stream: Stream): number {
  for (;;) {
    const [x, y] = [2 * stream() - 1, 2 * stream() - 1];
    const square = x * x + y * y;
    if (square > 0 && square < 1) return x * Math.sqrt((-2 * naturalLog(square)) / square);
  }
}

/** How the time of a task varies; null where it does not. */
export function factorsOf(variation: Variation | null): DrawFactor | null {
  if (variation === null) return null;
  const cv = toNumber(variation.cv, 12);
  switch (variation.shape) {
    case "measured": {
      const factors = variation.factors!;
      return (stream) => factors[Math.floor(stream() * factors.length)]!;
    }
    case "exponential":
      return drawExponential;
    case "normal":
      return truncatedNormal(cv);
    case "lognormal": {
      const variance = naturalLog(1 + cv * cv);
      const deviation = Math.sqrt(variance);
      return (stream) => exponential(deviation * drawNormal(stream) - variance / 2);
    }
    case "triangular": {
      // The sum of two even ones from -1/2 to 1/2 has a deviation of 1 / root 6.
      const width = cv * Math.sqrt(6);
      return (stream) => 1 + width * (stream() + stream() - 1);
    }
  }
}

/** Drawn again where it is below 0 or, so that the mean stays, above twice the mean. */
function truncatedNormal(cv: number): DrawFactor {
  return (stream) => {
    for (;;) {
      const factor = 1 + cv * drawNormal(stream);
      if (factor > 0 && factor < 2) return factor;
    }
  };
}

/** A time of exponential ones with that mean, in whole microseconds from 1. */
export const drawTime = (mean: Micros, stream: Stream): Micros =>
  Math.max(1, Math.round(mean * drawExponential(stream)));
