import { compare, floor, larger, multiply, type Ratio, ratio, subtract, ZERO } from "../../time/ratio.js";
import { commonDenominator } from "./common-denominator.js";

/** The most units of one repeat of a sequence: more is no sequence that people keep to. */
export const LONGEST_REPEAT = 200;

/** Whole units of each model that are built again and again. */
export interface Repeat {
  readonly quantities: readonly number[];
  /** The quantities hold the shares exactly. */
  readonly exact: boolean;
  /** Units after which the shares come out even, whether that is too long or not. */
  readonly evenAfter: bigint;
}

/**
 * The smallest whole quantities in the proportions of the shares (60 % and 40 % are 3 and 2). Where these exceed `longest`
 * units: the nearest, with at least one unit of every model that has a share. For each length the quantities come by largest
 * remainder; the length with the smallest largest gap to a share wins, the shortest of equals. One that fits, with
 * no gap of a whole unit in `longest`, comes before those that do not.
 *
 * @param shares from 0, together 1
 * @param fits whether stations have time for as much as that; where the shares fit, quantities near them may not
 */
export function repeatQuantities(
  shares: readonly Ratio[],
  longest = LONGEST_REPEAT,
  fits: (quantities: readonly number[]) => boolean = () => true,
): Repeat {
  const evenAfter = commonDenominator(shares);
  if (evenAfter <= BigInt(longest)) {
    return { quantities: exactQuantities(shares, evenAfter), exact: true, evenAfter };
  }
  const shortest = shares.filter(({ num }) => num > 0n).length;
  let nearest: { quantities: readonly number[]; gap: Ratio; isFit: boolean } | null = null;
  for (let units = shortest; units <= Math.max(longest, shortest); units++) {
    const quantities = nearestQuantities(shares, units);
    const gap = largestGap(shares, quantities, units);
    const isFit = compare(gap, ratio(1, longest)) < 0 && fits(quantities);
    const isNearer = nearest === null || (isFit === nearest.isFit ? compare(gap, nearest.gap) < 0 : isFit);
    if (isNearer) nearest = { quantities, gap, isFit };
  }
  return { quantities: nearest!.quantities, exact: false, evenAfter };
}

function exactQuantities(shares: readonly Ratio[], units: bigint): number[] {
  return shares.map(({ num, den }) => Number(num * (units / den)));
}

/** So many units by largest remainder, of equal remainders the first; every model with a share keeps one unit. */
function nearestQuantities(shares: readonly Ratio[], units: number): number[] {
  const wanted = shares.map((share) => multiply(share, ratio(units)));
  const least = shares.map(({ num }) => (num > 0n ? 1 : 0));
  const quantities = wanted.map((each, model) => Math.max(Number(floor(each)), least[model]!));
  const short = (model: number): Ratio => subtract(wanted[model]!, ratio(quantities[model]!));
  const models = [...shares.keys()];
  let left = units - quantities.reduce((sum, each) => sum + each, 0);
  for (; left > 0; left--) {
    const most = models.reduce((one, two) => (compare(short(two), short(one)) > 0 ? two : one));
    quantities[most]!++;
  }
  for (; left < 0; left++) {
    const spare = models.filter((model) => quantities[model]! > least[model]!);
    const most = spare.reduce((one, two) => (compare(short(two), short(one)) < 0 ? two : one));
    quantities[most]!--;
  }
  return quantities;
}

function largestGap(shares: readonly Ratio[], quantities: readonly number[], units: number): Ratio {
  return shares
    .map((share, model) => subtract(share, ratio(quantities[model]!, units)))
    .map((gap) => larger(gap, subtract(ZERO, gap)))
    .reduce(larger, ZERO);
}
