/** Draws of one number: the same number draws the same, whatever was drawn for others. Mulberry-like mixing would do as well as any. */
export class Draw {
  #state: number;

  /** @param seed a whole number from 0 to below 2^32; neighbours draw nothing alike */
  constructor(seed: number) {
    // The finaliser of MurmurHash3 (A. Appleby, in the public domain) keeps xorshift from starting near 0 and neighbours apart.
    let mixed = (seed ^ 0x9e3779b9) >>> 0;
    mixed = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b);
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
    this.#state = (mixed ^ (mixed >>> 16)) >>> 0 || 1;
  }

  /** A whole number from 0 to below `end` (Marsaglia 2003: xorshift). */
  below(end: number): number {
    this.#state ^= this.#state << 13;
    this.#state ^= this.#state >>> 17;
    this.#state ^= this.#state << 5;
    return (this.#state >>> 0) % end;
  }

  /** A whole number from `least` to `most`. */
  from(least: number, most: number): number {
    return least + this.below(most - least + 1);
  }

  /** True once in so many draws. */
  once(many: number): boolean {
    return this.below(many) === 0;
  }

  pick<T>(list: readonly T[]): T {
    return list[this.below(list.length)]!;
  }

  /** Some of a list in their order, `least` of them where it has as many. */
  some<T>(list: readonly T[], least = 0): T[] {
    const chosen = list.filter(() => this.once(2));
    return chosen.length >= least ? chosen : list.slice(0, least);
  }

  shuffled<T>(list: readonly T[]): T[] {
    const rest = [...list];
    for (let at = rest.length - 1; at > 0; at--) {
      const other = this.below(at + 1);
      [rest[at], rest[other]] = [rest[other]!, rest[at]!];
    }
    return rest;
  }
}
