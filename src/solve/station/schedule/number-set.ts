/** A set of small whole numbers that changes by one at a time, with a key that no other set has. */
export class NumberSet {
  private readonly sums: number[];
  /** The key of a large set as long as nothing changes. */
  private joined: string | null = null;

  /** @param size numbers are below it */
  constructor(size: number) {
    this.sums = Array<number>(Math.max(1, Math.ceil(size / BITS))).fill(0);
  }

  get key(): number | string {
    if (this.sums.length === 1) return this.sums[0]!;
    this.joined ??= this.sums.join();
    return this.joined;
  }

  add(each: number): void {
    this.joined = null;
    this.sums[Math.floor(each / BITS)]! += POWERS[each % BITS]!;
  }

  remove(each: number): void {
    this.joined = null;
    this.sums[Math.floor(each / BITS)]! -= POWERS[each % BITS]!;
  }

  clear(): void {
    this.joined = null;
    this.sums.fill(0);
  }
}

/** Sums of so many powers of two are exact. */
const BITS = 52;
const POWERS = Array.from({ length: BITS }, (_, bit) => 2 ** bit);
