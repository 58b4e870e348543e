/**
 * The cycles that plans of a work can have at all, in whole steps: those listed, or where they are too many every whole multiple of a
 * step from an offset on.
 */
export class CycleGrid {
  private constructor(
    /** Ascending; null where they are too many. */
    private readonly listed: readonly bigint[] | null,
    private readonly step: bigint,
    private readonly offset: bigint,
  ) {}

  static listing(cycles: Iterable<bigint>): CycleGrid {
    const listed = [...new Set(cycles)].sort((one, two) => (one < two ? -1 : one > two ? 1 : 0));
    return new CycleGrid(listed, 1n, 0n);
  }

  static stepping(step: bigint, offset = 0n): CycleGrid {
    return new CycleGrid(null, step, offset);
  }

  /** The smallest possible cycle from `amount` on; `amount` itself where every one that is listed is below. */
  atLeast(amount: bigint): bigint {
    if (this.listed !== null) return this.listed[this.placeFrom(amount)] ?? amount;
    const { step, offset } = this;
    return amount <= offset ? offset : offset + ((amount - offset + step - 1n) / step) * step;
  }

  /** The largest possible cycle up to `amount`; one below all of them where there is none. */
  atMost(amount: bigint): bigint {
    if (this.listed !== null)
      return this.listed[this.placeFrom(amount + 1n) - 1] ?? (this.listed[0] ?? 0n) - 1n;
    const { step, offset } = this;
    return amount < offset ? offset - 1n : offset + ((amount - offset) / step) * step;
  }

  /** The place of the first that is not below `amount`. */
  private placeFrom(amount: bigint): number {
    let low = 0;
    let high = this.listed!.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.listed![middle]! < amount) low = middle + 1;
      else high = middle;
    }
    return low;
  }
}

/** Sums of any of the amounts, 0 among them and none above `most`; null where they are too many to list. */
export function sumsOf<Amount extends number | bigint>(
  amounts: readonly Amount[],
  zero: Amount,
  most: Amount,
): Amount[] | null {
  const sums = new Set<Amount>([zero]);
  for (const own of amounts) {
    for (const sum of [...sums]) {
      const next = ((sum as number) + (own as number)) as Amount;
      if (next <= most) sums.add(next);
    }
    if (sums.size > MOST_SUMS) return null;
  }
  return [...sums];
}

const MOST_SUMS = 10_000;
