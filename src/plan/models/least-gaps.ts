import { type Ratio, ratio } from "../../time/ratio.js";
import { type Uses, type WholeUses, wholeUses } from "./goal-chasing.js";

/** Work that is taken to find the least gaps: units placed by parts counted. */
const MOST_STEPS = 60_000;

/**
 * How far a sequence is from even use: the sum, over its places and all parts, of the squared gap between the running use and k/n of the
 * total at place k of n; in the square of the unit of the uses.
 * Source: the goal of Y. Monden's goal chasing, added up over all places.
 */
export function squaredGaps(sequence: readonly number[], uses: Uses): Ratio {
  const quantities = uses.map((_, model) => sequence.filter((each) => each === model).length);
  const whole = wholeUses(quantities, uses);
  return ratio(wholeGaps(sequence, whole), (whole.units * whole.common) ** 2n);
}

/** The same times the square of (units x common denominator of the uses). */
export function wholeGaps(sequence: readonly number[], whole: WholeUses): bigint {
  const used = whole.totals.map(() => 0n);
  let sum = 0n;
  for (const [at, model] of sequence.entries()) {
    for (const [part, use] of whole.rows[model]!.entries()) used[part]! += use;
    sum += gapsAt(BigInt(at + 1), used, whole);
  }
  return sum;
}

/** What the running use is off its goal at one place, squared and summed over the parts. */
export function gapsAt(place: bigint, used: readonly bigint[], { totals, units }: WholeUses): bigint {
  let sum = 0n;
  for (const [part, total] of totals.entries()) {
    const gap = place * total - units * used[part]!;
    sum += gap * gap;
  }
  return sum;
}

/**
 * The sequence of least squared gaps, of equal ones that of least gaps in `tieUses`, then the one whose first models come first. Exact:
 * what comes after depends on how many units of each model are placed, not on their order, so the best end from each such count is
 * worked out once, from the last unit on. null where the counts are too many.
 */
export function leastGaps(quantities: readonly number[], uses: Uses, tieUses: Uses): number[] | null {
  const [goal, ties] = [wholeUses(quantities, uses), wholeUses(quantities, tieUses)];
  const counts = quantities.reduce((product, each) => product * (each + 1), 1);
  if (counts * (goal.totals.length + ties.totals.length + quantities.length) > MOST_STEPS) return null;
  const strides = quantities.map((_, model) =>
    quantities.slice(0, model).reduce((product, each) => product * (each + 1), 1),
  );
  const placedAt = (count: number) =>
    quantities.map((each, model) => Math.floor(count / strides[model]!) % (each + 1));
  const ends: { readonly goal: bigint; readonly ties: bigint; readonly next: number }[] = [];
  for (let count = counts - 1; count >= 0; count--) {
    const placed = placedAt(count);
    const place = BigInt(placed.reduce((sum, each) => sum + each, 0));
    const own = [goal, ties].map((whole) => gapsAt(place, usedBy(placed, whole), whole));
    let best = { goal: 0n, ties: 0n, next: -1 };
    for (const [model, each] of placed.entries()) {
      if (each === quantities[model]!) continue;
      const end = ends[count + strides[model]!]!;
      if (best.next < 0 || end.goal < best.goal || (end.goal === best.goal && end.ties < best.ties))
        best = { goal: end.goal, ties: end.ties, next: model };
    }
    ends[count] = { goal: best.goal + own[0]!, ties: best.ties + own[1]!, next: best.next };
  }
  const sequence: number[] = [];
  for (let count = 0; ends[count]!.next >= 0; count += strides[sequence.at(-1)!]!)
    sequence.push(ends[count]!.next);
  return sequence;
}

const usedBy = (placed: readonly number[], { rows, totals }: WholeUses): bigint[] =>
  totals.map((_, part) => placed.reduce((sum, each, model) => sum + BigInt(each) * rows[model]![part]!, 0n));
