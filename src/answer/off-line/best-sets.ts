import { shiftsOf } from "../../benches/bench-hours.js";
import type { BenchFigures } from "../../benches/measure-bench.js";
import { lineLeftBy } from "../../benches/without-scrap.js";
import type { Line } from "../../line/line.js";
import { leastCost } from "../../solve/time-alone.js";
import type { Watch } from "../../solve/watch-times.js";
import type { Pace } from "../../time/pace.js";
import type { RestBalancer } from "./balance-rest.js";
import { type OffLinePlan, planWithBenches, rankedOf } from "./plan-with-benches.js";
import { compareRanked, type Rank, type RankedFigures } from "./rank-order.js";
import type { RestBound, Weights } from "./rest-bound.js";

/** Choices of benches looked at for each number of benches, and rests balanced; beyond them the best so far stands. */
export interface SetLimits {
  readonly looks: number;
  readonly balances: number;
  /** Partial plans of all these balances; the last of them may take more. */
  readonly nodes: number;
}

export const SET_LIMITS = { looks: 2_000_000, balances: 400 } as const;

/** The best choice of so many benches that build different tasks. */
export interface BestSet {
  readonly plan: OffLinePlan;
  /** Every other choice of as many benches was balanced, or ruled out by a bound. */
  readonly isBest: boolean;
}

export interface BestSets {
  /** One for each number of benches from 1 that can be chosen, fewest benches first. */
  readonly sets: readonly BestSet[];
  readonly ended: "whole" | "limits" | "stopped";
}

interface Choice {
  readonly bench: BenchFigures;
  readonly weights: Weights;
  readonly mask: bigint;
}

/**
 * The best choices of up to `most` benches among those given, each building tasks that no other does. Branch and bound over all
 * choices: what is left on the line is bounded by sums of weights before anything is balanced, and choices that cannot be better
 * than the best so far, in the order of the ranks, are passed over.
 */
export async function bestSets(
  line: Line,
  pace: Pace,
  benches: readonly BenchFigures[],
  most: number,
  tools: {
    readonly ranks: readonly Rank[];
    readonly bound: RestBound;
    readonly balancer: RestBalancer;
    readonly limits: SetLimits;
    readonly strictLimit: boolean;
    readonly checkpoint: Watch;
  },
): Promise<BestSets> {
  const search = new SetSearch(line, pace, benches, tools);
  const sets: BestSet[] = [];
  let ended: BestSets["ended"] = "whole";
  for (let size = 1; size <= Math.min(most, benches.length); size++) {
    const found = await search.best(size, sets.at(-1)?.plan.benches ?? []);
    if (found.ended === "stopped")
      return { sets: found.plan ? [...sets, asSet(found)] : sets, ended: "stopped" };
    if (found.plan === null) break;
    if (found.ended === "limits") ended = "limits";
    sets.push(asSet(found));
  }
  return { sets, ended };
}

interface Found {
  readonly plan: OffLinePlan | null;
  readonly ended: BestSets["ended"];
  /** A choice that is not proved least might still be better. */
  readonly isOpen: boolean;
}

const asSet = ({ plan, ended, isOpen }: Found): BestSet => ({
  plan: plan!,
  isBest: ended === "whole" && !isOpen,
});

type Tools = Parameters<typeof bestSets>[4];

class SetSearch {
  private readonly choices: readonly Choice[];
  private readonly price: number;
  private readonly cheapestPeople: readonly number[];
  private readonly cheapestStations: readonly number[];
  private readonly leastStock: number;
  private readonly leastPoints: number;
  private best_: OffLinePlan | null = null;
  private looks = 0;
  private balances = 0;
  /** Partial plans of balances before. */
  private before = 0;
  private unproved: RankedFigures[] = [];
  private ended: BestSets["ended"] = "whole";

  constructor(
    private readonly line: Line,
    private readonly pace: Pace,
    benches: readonly BenchFigures[],
    private readonly tools: Tools,
  ) {
    this.choices = benches.map((bench) => ({
      bench,
      weights: tools.bound.weigh(bench.tasks),
      mask: bench.tasks.reduce((mask, task) => mask | (1n << BigInt(task)), 0n),
    }));
    this.price = shiftsOf(line);
    const costs = (cost: (bench: BenchFigures) => number) =>
      this.choices.map(({ bench, weights }) => ({ cost: cost(bench), weights }));
    this.cheapestPeople = tools.bound.cheapest(
      costs((bench) => bench.peopleOfDay),
      this.price,
    );
    this.cheapestStations = tools.bound.cheapest(
      costs(() => 0),
      1,
    );
    this.leastStock = Math.min(...benches.map(({ stock }) => stock.units ?? 0));
    this.leastPoints = Math.min(...benches.map(({ joinsAt }) => joinsAt.length));
  }

  /** The best choice of exactly so many benches; a good choice of one fewer gives the first to beat. */
  async best(size: number, fewer: readonly BenchFigures[]): Promise<Found> {
    this.best_ = null;
    this.looks = 0;
    this.balances = 0;
    this.before = this.tools.balancer.nodes;
    this.unproved = [];
    this.ended = "whole";
    await this.extend(fewer, size);
    await this.choose(size, [], this.tools.bound.weigh([]), 0n, 0);
    const isOpen = this.unproved.some((least) => this.mayBeBetter(least));
    return { plan: this.best_, ended: this.ended, isOpen };
  }

  private async extend(fewer: readonly BenchFigures[], size: number): Promise<void> {
    if (fewer.length !== size - 1) return;
    const chosen = this.choices.filter(({ bench }) => fewer.includes(bench));
    const mask = chosen.reduce((all, each) => all | each.mask, 0n);
    for (const choice of this.choices) {
      if ((mask & choice.mask) === 0n) await this.judge([...chosen, choice]);
      if (this.ended !== "whole") return;
    }
  }

  private async choose(
    size: number,
    chosen: readonly Choice[],
    gone: Weights,
    mask: bigint,
    from: number,
  ): Promise<void> {
    for (let at = from; at <= this.choices.length - (size - chosen.length); at++) {
      if (this.ended !== "whole") return;
      const choice = this.choices[at]!;
      if ((mask & choice.mask) !== 0n) continue;
      if (this.looks++ >= this.tools.limits.looks) {
        this.ended = "limits";
        return;
      }
      const more = [...chosen, choice];
      const weights = this.tools.bound.add(gone, choice.weights);
      if (!this.mayBeBetter(this.leastOf(more, weights, size - more.length))) continue;
      if (more.length === size) await this.judge(more);
      else await this.choose(size, more, weights, mask | choice.mask, at + 1);
    }
  }

  private mayBeBetter(least: RankedFigures): boolean {
    return this.best_ === null || compareRanked(this.tools.ranks, least, rankedOf(this.best_)) < 0;
  }

  /** What these choices and so many more come to at the least. */
  private leastOf(chosen: readonly Choice[], gone: Weights, more: number): RankedFigures {
    const { bound } = this.tools;
    const repairs = this.price * bound.repairPeople;
    const people = chosen.reduce((sum, { bench }) => sum + bench.peopleOfDay, repairs);
    const stock = chosen.reduce((sum, { bench }) => sum + (bench.stock.units ?? 0), 0);
    const stockPoints = chosen.reduce((sum, { bench }) => sum + bench.joinsAt.length, 0);
    if (more === 0) {
      const linePeople = bound.least("people", gone);
      const stations = bound.least("stations", gone);
      return { people: people + this.price * Math.max(linePeople, stations), stations, stock, stockPoints };
    }
    return {
      people: people + bound.leastWithMore("people", gone, this.price, this.cheapestPeople, more),
      stations: Math.max(1, bound.leastWithMore("stations", gone, 1, this.cheapestStations, more)),
      stock: stock + more * this.leastStock,
      stockPoints: stockPoints + more * this.leastPoints,
    };
  }

  /** Balances the line without what these benches build, unless a bound rules it out, and keeps it where it is better. */
  private async judge(chosen: readonly Choice[]): Promise<void> {
    const { balancer, limits, checkpoint, bound } = this.tools;
    const benches = chosen.map(({ bench }) => bench);
    const gone = chosen.map(({ weights }) => weights).reduce((one, two) => bound.add(one, two));
    if (!this.mayBeBetter(this.leastOf(chosen, gone, 0))) return;
    if (!balancer.isKnown(benches)) {
      if (!this.mayBeBetter(this.staticLeast(chosen))) return;
      if (this.balances++ >= limits.balances || balancer.nodes - this.before >= limits.nodes) {
        this.ended = "limits";
        return;
      }
      const best = this.best_?.peopleOfDay ?? "none";
      const what = { sets: chosen.length };
      if ((await checkpoint({ nodes: this.looks, best, bound: 1, what })) !== null) {
        this.ended = "stopped";
        return;
      }
    }
    const plan = planWithBenches(this.line, this.pace, await balancer.of(benches), benches);
    if (plan.plan !== null && this.mayBeBetter(rankedOf(plan))) this.best_ = plan;
    if (plan.outcome === "found" || plan.outcome === "stopped")
      this.unproved.push(this.leastOf(chosen, gone, 0));
  }

  /** With the bounds of the search itself, which look at every task that stays. */
  private staticLeast(chosen: readonly Choice[]): RankedFigures {
    const benches = chosen.map(({ bench }) => bench);
    const taken = benches.flatMap(({ tasks }) => tasks);
    const rest = lineLeftBy(this.line, taken);
    const stations = rest.tasks.length === 0 ? 1 : (leastCost(rest, this.pace, false)?.stations ?? 1);
    return {
      people: benches.reduce(
        (sum, each) => sum + each.peopleOfDay,
        this.price * (stations + this.tools.bound.repairPeople),
      ),
      stations,
      stock: benches.reduce((sum, each) => sum + (each.stock.units ?? 0), 0),
      stockPoints: benches.reduce((sum, each) => sum + each.joinsAt.length, 0),
    };
  }
}
