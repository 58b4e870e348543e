import type { SideLimits, SideProblem, WorkSide } from "./side-problem.js";

/**
 * The tasks of one station worked from its sides, by their places in the list given: 0 to size - 1. Lists by row and task hold a
 * row after the other.
 */
export class SideStation {
  readonly size: number;
  readonly rows: number;
  readonly sides: readonly WorkSide[];
  readonly loads: Float64Array;
  readonly before: readonly (readonly number[])[];
  readonly after: readonly (readonly number[])[];
  /** From the start of each task to the end of the longest chain behind it, by row and task. */
  readonly tails: Float64Array;
  private readonly sums: Float64Array;

  /**
   * @param tasks in an order of work
   * @param limits without what is done again
   */
  constructor(
    private readonly problem: SideProblem,
    readonly tasks: readonly number[],
    readonly limits: SideLimits,
  ) {
    const size = tasks.length;
    this.size = size;
    this.rows = problem.rows.length;
    this.sides = tasks.map((task) => problem.sides[task]!);
    this.before = tasks.map((task) =>
      problem.before[task]!.map((each) => tasks.indexOf(each)).filter((at) => at >= 0),
    );
    const after: number[][] = tasks.map(() => []);
    for (const [at, earlier] of this.before.entries()) for (const each of earlier) after[each]!.push(at);
    this.after = after;
    this.loads = new Float64Array(this.rows * size);
    this.tails = new Float64Array(this.rows * size);
    for (const [row, loads] of problem.rows.entries()) {
      for (let at = size - 1; at >= 0; at--) {
        const load = loads[tasks[at]!]!;
        const longest = after[at]!.reduce((most, each) => Math.max(most, this.tails[row * size + each]!), 0);
        this.loads[row * size + at] = load;
        this.tails[row * size + at] = load + longest;
      }
    }
    this.sums = new Float64Array(limits.models.length);
  }

  /** The mean of ends, one a row from `at`; infinite where they take more of a model than its limit. */
  meanOf(ends: Float64Array, at = 0): number {
    const { problem, sums, limits } = this;
    sums.fill(0);
    for (let row = 0; row < this.rows; row++) sums[problem.modelOf[row]!]! += ends[at + row]!;
    let mean = 0;
    for (let model = 0; model < sums.length; model++) {
      if (sums[model]! > limits.models[model]!) return Number.POSITIVE_INFINITY;
      if (problem.isBuilt[model]) mean += sums[model]!;
    }
    return mean;
  }

  /** Ends of each model, of ends by row. */
  byModel(ends: Float64Array): number[] {
    const byModel = this.limits.models.map(() => 0);
    for (let row = 0; row < this.rows; row++) byModel[this.problem.modelOf[row]!]! += ends[row]!;
    return byModel;
  }

  /** No order ends sooner on average: each side holds its own work, both share all of it, and a chain is worked off one by one. */
  leastMean(): number {
    const ends = new Float64Array(this.rows);
    for (let row = 0; row < this.rows; row++) {
      let [left, right, all, chain] = [0, 0, 0, 0];
      for (let task = 0; task < this.size; task++) {
        const load = this.loads[row * this.size + task]!;
        const side = this.sides[task]!;
        if (side === "left" || side === "both") left += load;
        if (side === "right" || side === "both") right += load;
        all += side === "both" ? 2 * load : load;
        chain = Math.max(chain, this.tails[row * this.size + task]!);
      }
      ends[row] = Math.max(left, right, Math.ceil(all / 2), chain);
    }
    return this.meanOf(ends);
  }

  /** Tasks by the longest chain behind them, over all rows; an order of search, not of work. */
  byTails(): number[] {
    const tail = (task: number): number => {
      let sum = 0;
      for (let row = 0; row < this.rows; row++) sum += this.tails[row * this.size + task]!;
      return sum;
    };
    const weights = this.tasks.map((_, task) => tail(task));
    return [...this.tasks.keys()].sort((one, two) => weights[two]! - weights[one]! || one - two);
  }
}
