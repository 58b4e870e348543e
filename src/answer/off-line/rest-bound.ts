import type { Line } from "../../line/line.js";
import { peopleAtRepairs } from "../../plan/figures/people.js";
import { layOutWork } from "../../solve/lay-out-work.js";
import { loadsInParts } from "../../solve/parts.js";
import type { Pace } from "../../time/pace.js";

/** Weights of tasks of which a person, or a station, never holds more than `capacity`; whole numbers. */
interface Weighting {
  readonly counts: "people" | "stations";
  readonly capacity: number;
  readonly weights: readonly number[];
  readonly total: number;
}

/** What the tasks of a bench weigh in each weighting. */
export type Weights = readonly number[];

const MOST_THRESHOLDS = 12;

/**
 * How many people and stations the line needs at the least once tasks have left it, told from sums alone: work content, and
 * where every station has one place the dual feasible functions of Martello & Toth's L2. Adding weights is all it takes, so that
 * thousands of choices of benches can be compared.
 */
export class RestBound {
  /** Who repairs beside the line, whatever leaves it. */
  readonly repairPeople: number;
  readonly #weightings: readonly Weighting[];

  constructor(line: Line, pace: Pace, strictLimit: boolean) {
    const { kinds } = layOutWork(line, { pace, strictLimit, slowest: null, free: false });
    const perPerson = Math.max(
      1,
      ...kinds.flatMap(({ limits }) => limits.map((limit, at) => Math.ceil(limit / (at + 1)))),
    );
    const perStation = Math.max(1, ...kinds.map(({ limits, atOnce }) => atOnce * limits.at(-1)!));
    const loads = loadsInParts(line, "down");
    const people = line.tasks.map((task) => task.people);
    const capped = (load: number, most: number) => Math.min(load, most);
    const all = [
      weighting(
        "people",
        perPerson,
        loads.map((load, task) => capped(load, perPerson) * people[task]!),
      ),
      weighting(
        "stations",
        perStation,
        loads.map((load) => capped(load, perStation)),
      ),
    ];
    const isPlain = kinds.every(({ limits, atOnce }) => limits.length === 1 && atOnce === 1);
    for (const threshold of isPlain ? thresholdsOf(loads, perStation) : []) {
      const weights = loads.map((load) => {
        const most = capped(load, perStation);
        return most > perStation - threshold ? perStation : most < threshold ? 0 : most;
      });
      all.push(weighting("stations", perStation, weights));
      all.push(
        weighting(
          "people",
          perStation,
          weights.map((weight, task) => weight * people[task]!),
        ),
      );
    }
    this.#weightings = all;
    this.repairPeople = peopleAtRepairs(line, pace);
  }

  /** What these tasks weigh. */
  weigh(tasks: readonly number[]): Weights {
    return this.#weightings.map(({ weights }) => tasks.reduce((sum, task) => sum + weights[task]!, 0));
  }

  /** What is gone with several benches. */
  add(one: Weights, two: Weights): Weights {
    return one.map((each, at) => each + two[at]!);
  }

  /** The least that the stations of the line need without tasks that weigh so much. */
  least(counts: Weighting["counts"], gone: Weights): number {
    let least = 1;
    for (const [at, each] of this.#weightings.entries()) {
      if (each.counts === counts)
        least = Math.max(least, Math.ceil((each.total - gone[at]!) / each.capacity));
    }
    return least;
  }

  /**
   * The least that line and benches cost together once `more` of the choices have been added to what is gone: `price` times the
   * people, or stations, that the line needs, and what each choice costs itself.
   */
  leastWithMore(
    counts: Weighting["counts"],
    gone: Weights,
    price: number,
    cheapest: readonly number[],
    more: number,
  ): number {
    let least = Number.NEGATIVE_INFINITY;
    for (const [at, each] of this.#weightings.entries()) {
      if (each.counts !== counts) continue;
      const scaled = price * (each.total - gone[at]!) + more * cheapest[at]!;
      least = Math.max(least, Math.ceil(scaled / each.capacity));
    }
    return least;
  }

  /** For each weighting the least of capacity x cost - price x weight over all choices: what one more choice changes at best. */
  cheapest(
    choices: readonly { readonly cost: number; readonly weights: Weights }[],
    price: number,
  ): number[] {
    return this.#weightings.map(({ capacity }, at) =>
      choices.reduce(
        (least, { cost, weights }) => Math.min(least, capacity * cost - price * weights[at]!),
        Number.POSITIVE_INFINITY,
      ),
    );
  }
}

function weighting(counts: Weighting["counts"], capacity: number, weights: readonly number[]): Weighting {
  return { counts, capacity, weights, total: weights.reduce((sum, each) => sum + each, 0) };
}

/** The distinct loads up to half the limit at which a function differs, a few of them. */
function thresholdsOf(loads: readonly number[], limit: number): number[] {
  const small = [...new Set(loads)]
    .filter((load) => load > 0 && 2 * load <= limit)
    .sort((one, two) => one - two);
  const step = Math.max(1, Math.floor(small.length / MOST_THRESHOLDS));
  return small.filter((_, at) => at % step === 0).slice(0, MOST_THRESHOLDS);
}
