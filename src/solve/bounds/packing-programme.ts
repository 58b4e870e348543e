/**
 * The linear programme that packs tasks into stations by whole fillings: minimise the number of fillings (in fractions) that
 * place at least `demand` tasks of each time (Gilmore & Gomory 1961). The simplex method in revised form; fillings come
 * one by one from outside. Its numbers only propose prices, one a time: whether prices prove anything is decided elsewhere.
 */
export class PackingProgramme {
  /** What one task of each time is worth: the dual prices. */
  readonly prices: Float64Array;
  private readonly size: number;
  /** The inverse of the basis, row by row, and the amount of each filling of the basis. */
  private readonly inverse: Float64Array;
  private readonly amounts: Float64Array;
  /** 1 for fillings, 0 for places left over of one time. */
  private readonly costs: Uint8Array;
  private readonly column: Float64Array;

  /** `demand[at]` tasks of each time are to be placed; the first fillings are one task each. */
  constructor(demand: Int32Array) {
    this.size = demand.length;
    this.prices = new Float64Array(this.size).fill(1);
    this.inverse = new Float64Array(this.size * this.size);
    for (let at = 0; at < this.size; at++) this.inverse[at * this.size + at] = 1;
    this.amounts = Float64Array.from(demand);
    this.costs = new Uint8Array(this.size).fill(1);
    this.column = new Float64Array(this.size);
  }

  /** Fillings used, in fractions: no more are needed. */
  get value(): number {
    let sum = 0;
    for (let row = 0; row < this.size; row++) sum += this.amounts[row]! * this.costs[row]!;
    return sum;
  }

  /** Takes a filling with so many tasks of each time into the basis; false when it would gain nothing. */
  enter(filling: Int32Array): boolean {
    const { size, inverse, column, prices } = this;
    column.fill(0);
    let worth = 0;
    for (let at = 0; at < size; at++) {
      const count = filling[at]!;
      if (count === 0) continue;
      worth += prices[at]! * count;
      for (let row = 0; row < size; row++) column[row]! += inverse[row * size + at]! * count;
    }
    return worth > 1 + SMALL && this.pivot(1, worth);
  }

  /** Lets a time with a price below 0 be placed more often than asked for; false when there is none. */
  relax(): boolean {
    const { size, inverse, column, prices } = this;
    let lowest = -1;
    for (let at = 0; at < size; at++) {
      if (prices[at]! < -SMALL && (lowest < 0 || prices[at]! < prices[lowest]!)) lowest = at;
    }
    if (lowest < 0) return false;
    for (let row = 0; row < size; row++) column[row] = -inverse[row * size + lowest]!;
    return this.pivot(0, -prices[lowest]!);
  }

  /** The column, worth so much at the prices so far, takes the place of the one that runs out first. */
  private pivot(cost: 0 | 1, worth: number): boolean {
    const leaving = this.leavingRow();
    if (leaving < 0) return false;
    const { size, inverse, amounts, column, prices } = this;
    const scale = 1 / column[leaving]!;
    const own = leaving * size;
    amounts[leaving]! *= scale;
    for (let at = 0; at < size; at++) inverse[own + at]! *= scale;
    for (let row = 0; row < size; row++) {
      const factor = column[row]!;
      if (row === leaving || factor === 0) continue;
      amounts[row] = Math.max(0, amounts[row]! - factor * amounts[leaving]!);
      const from = row * size;
      for (let at = 0; at < size; at++) inverse[from + at]! -= factor * inverse[own + at]!;
    }
    this.costs[leaving] = cost;
    for (let at = 0; at < size; at++) prices[at]! += (cost - worth) * inverse[own + at]!;
    return true;
  }

  private leavingRow(): number {
    let leaving = -1;
    let least = Number.POSITIVE_INFINITY;
    for (let row = 0; row < this.size; row++) {
      if (this.column[row]! <= SMALL) continue;
      const ratio = this.amounts[row]! / this.column[row]!;
      if (ratio >= least) continue;
      least = ratio;
      leaving = row;
    }
    return leaving;
  }
}

const SMALL = 1e-9;
