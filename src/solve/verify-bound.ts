import type {
  BinPackingBound,
  Bound,
  LargeTasksBound,
  ThirdsBound,
  WorkContentBound,
} from "./bounds/bound.js";
import type { StationProblem } from "./problem.js";
import { verifyChain } from "./verify-chain.js";

/**
 * Checks the arithmetic of a bound's certificate against the problem, in whole-number arithmetic of its own: every task named
 * is what it is said to be, every sum is right, and they give the number of stations. Returns what is wrong, in words.
 *
 * What a search ruled out is not arithmetic that can be done again here; the tests hold it against brute force.
 */
export function verifyBound(problem: StationProblem, bound: Bound): string[] {
  const facts = new Facts(problem);
  switch (bound.kind) {
    case "work-content":
      return facts.workContent(bound);
    case "large-tasks":
      return facts.largeTasks(bound);
    case "thirds":
      return facts.thirds(bound);
    case "bin-packing":
      return facts.binPacking(bound);
    case "chain":
      return [
        ...facts.stations(bound, BigInt(bound.tasks.length + bound.stationsBefore + bound.stationsAfter)),
        ...verifyChain(problem, bound, verifyBound),
      ];
    case "search":
      return bound.stations >= 1 ? [] : ["a search proves at least one station"];
  }
}

class Facts {
  readonly #times: readonly bigint[];
  readonly #limit: bigint;

  constructor(problem: StationProblem) {
    this.#times = problem.times.map(BigInt);
    this.#limit = BigInt(problem.limit);
  }

  workContent(bound: WorkContentBound): string[] {
    const work = this.#sum([...this.#times.keys()]);
    const least = this.#times.length > 0 && work === 0n ? 1n : ceilingOf(work, this.#limit);
    return [...expect("work content", BigInt(bound.workContent), work), ...this.stations(bound, least)];
  }

  largeTasks(bound: LargeTasksBound): string[] {
    const { overHalf, exactlyHalf } = bound;
    return [
      ...this.#each("over half", overHalf, (time) => 2n * time > this.#limit),
      ...this.#each("exactly half", exactlyHalf, (time) => 2n * time === this.#limit),
      ...this.#apart(overHalf, exactlyHalf),
      ...this.stations(bound, BigInt(overHalf.length) + ceilingOf(BigInt(exactlyHalf.length), 2n)),
    ];
  }

  thirds(bound: ThirdsBound): string[] {
    const { overTwoThirds, exactlyTwoThirds, betweenThirds, exactlyOneThird } = bound;
    const limit = this.#limit;
    const sixths =
      6 * overTwoThirds.length +
      4 * exactlyTwoThirds.length +
      3 * betweenThirds.length +
      2 * exactlyOneThird.length;
    return [
      ...this.#each("over two thirds", overTwoThirds, (time) => 3n * time > 2n * limit),
      ...this.#each("exactly two thirds", exactlyTwoThirds, (time) => 3n * time === 2n * limit),
      ...this.#each(
        "between the thirds",
        betweenThirds,
        (time) => 3n * time > limit && 3n * time < 2n * limit,
      ),
      ...this.#each("exactly one third", exactlyOneThird, (time) => 3n * time === limit),
      ...this.#apart(overTwoThirds, exactlyTwoThirds, betweenThirds, exactlyOneThird),
      ...expect("sixths", BigInt(bound.sixths), BigInt(sixths)),
      ...this.stations(bound, ceilingOf(BigInt(sixths), 6n)),
    ];
  }

  binPacking(bound: BinPackingBound): string[] {
    const { alone, overHalf, filling } = bound;
    const threshold = BigInt(bound.threshold);
    const work = this.#sum(filling);
    const room = overHalf.reduce((sum, task) => sum + this.#limit - this.#times[task]!, 0n);
    const rest = work > room ? work - room : 0n;
    return [
      ...this.#each("over half", [...alone, ...overHalf], (time) => 2n * time > this.#limit),
      ...this.#each("without room for a filling task", alone, (time) => time + threshold > this.#limit),
      ...this.#each("filling", filling, (time) => time >= threshold && 2n * time <= this.#limit),
      ...this.#apart(alone, overHalf, filling),
      ...expect("work of the filling tasks", BigInt(bound.fillingWork), work),
      ...expect("room", BigInt(bound.room), room),
      ...this.stations(bound, BigInt(alone.length + overHalf.length) + ceilingOf(rest, this.#limit)),
    ];
  }

  stations(bound: Bound, proved: bigint): string[] {
    return expect("stations", BigInt(bound.stations), proved);
  }

  #sum(tasks: readonly number[]): bigint {
    return tasks.reduce((sum, task) => sum + this.#times[task]!, 0n);
  }

  #each(what: string, tasks: readonly number[], holds: (time: bigint) => boolean): string[] {
    return tasks.filter((task) => !holds(this.#times[task]!)).map((task) => `task ${task} is not ${what}`);
  }

  #apart(...groups: readonly (readonly number[])[]): string[] {
    const all = groups.flat();
    return new Set(all).size === all.length ? [] : ["a task is counted twice"];
  }
}

const ceilingOf = (amount: bigint, part: bigint): bigint => (amount + part - 1n) / part;

function expect(what: string, said: bigint, right: bigint): string[] {
  return said === right ? [] : [`${what}: ${said} said, ${right} right`];
}
