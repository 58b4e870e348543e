import { leastCommonMultiple, type Ratio, ratio, subtract, ZERO } from "../time/ratio.js";

/** Units on which the same work of every so many units is due. */
export interface UnitKind {
  /** Their share of all units, above 0; those of all kinds make 1. */
  readonly share: Ratio;
  /** Whether the work of every n-th unit is due on them. */
  isDue(every: number): boolean;
}

/**
 * The kinds of units that work of every so many units makes. Each n counts from the first unit, so that work of the same n meets on
 * the same units, and that of 2 and of 4 on every 4th; the share of the units with all of some numbers is 1 / their least common
 * multiple, and inclusion and exclusion tells how many have just these.
 *
 * @param everies the n of each task, whole numbers from 1
 */
export function unitKinds(everies: readonly number[]): UnitKind[] {
  const numbers = seldomNumbers(everies);
  const shares: Ratio[] = [];
  const sets = 2 ** numbers.length;
  for (let set = sets - 1; set >= 0; set--) {
    const together = numbers
      .filter((_, at) => set & (1 << at))
      .reduce((common, each) => leastCommonMultiple(common, BigInt(each)), 1n);
    shares[set] = ratio(1, together);
    for (let more = set + 1; more < sets; more++)
      if ((more & set) === set) shares[set] = subtract(shares[set]!, shares[more]!);
  }
  return shares.flatMap((share, set) =>
    share.num === ZERO.num
      ? []
      : [{ share, isDue: (every: number) => every === 1 || (set & (1 << numbers.indexOf(every))) !== 0 }],
  );
}

/** The different n above 1, ascending. */
export const seldomNumbers = (everies: readonly number[]): number[] =>
  [...new Set(everies)].filter((every) => every > 1).sort((one, two) => one - two);
