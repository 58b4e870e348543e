import type { Line } from "../../line/line.js";
import { peopleOf } from "../../plan/figures/people.js";
import { verifyPlan } from "../../plan/verify-plan.js";
import type { Watch } from "../../solve/watch-times.js";
import type { Demand } from "../../time/demand.js";
import { type DemandRange, demandsOf } from "../../time/demand-range.js";
import { add, divide, floor, multiply, type Ratio, ratio, subtract } from "../../time/ratio.js";
import { type Staffing, type StaffOptions, staffDemand } from "./staff-balance.js";

/** Fewest partial plans that a balance is given, however many share the limit. */
export const LEAST_NODES = 1_000;

/** Every demand that was looked at, ascending, and whether the looking was ended before its time. */
export interface StaffCurve {
  readonly points: readonly Staffing[];
  readonly isCut: boolean;
}

const keyOf = ({ num, den }: Ratio): string => `${num}/${den}`;

/** A share of partial plans, the same for each of so many balances. */
export const nodesEach = (nodes: number, balances: number): number =>
  Math.max(LEAST_NODES, Math.floor(nodes / Math.max(1, balances)));

/** Balances a line at the demands of a range, each once. */
export class Curve {
  readonly #rows = new Map<string, Staffing>();
  readonly #known = new Map<string, Staffing>();
  #isCut = false;

  constructor(
    private readonly line: Line,
    private readonly range: DemandRange,
    private readonly options: StaffOptions,
  ) {}

  /**
   * The demands of the range, each as a balance of so many partial plans for that demand has it, whatever the others are; those that
   * were not reached before an interrupt are left out.
   */
  async rows(nodes: number): Promise<StaffCurve> {
    const points: Staffing[] = [];
    for (const demand of demandsOf(this.range)) {
      const point = await this.#at(demand, nodes, true);
      if (point === null) break;
      points.push(point);
    }
    return { points, isCut: this.#isCut };
  }

  /** The row of a demand, where it is one. */
  rowOf({ units, period }: Demand): Staffing | null {
    return period === this.range.period ? (this.#rows.get(keyOf(units)) ?? null) : null;
  }

  /**
   * The same with every demand at which people change: between two demands with different people by halving, over whole units, or
   * tenths of them where the range has tenths.
   */
  async changes(rows: StaffCurve, nodes: number): Promise<StaffCurve> {
    const each = nodesEach(nodes, this.#halvings(rows.points));
    const settled = this.#settled(rows.points).points;
    const found: Staffing[] = [...settled];
    for (const [at, low] of settled.slice(0, -1).entries()) {
      await this.#between(low, settled[at + 1]!, each, found);
    }
    return this.#settled(found);
  }

  #settled(points: readonly Staffing[]): StaffCurve {
    const ascending = points.toSorted((one, two) => (this.#grains(one, two) > 0n ? -1 : 1));
    return { points: settle(ascending, this.options.strictLimit), isCut: this.#isCut };
  }

  async #between(low: Staffing, high: Staffing, nodes: number, found: Staffing[]): Promise<void> {
    const gap = this.#grains(low, high);
    if (low.people === high.people || gap <= 1n) return;
    const units = add(low.demand.units, multiply(this.range.grain, ratio(gap / 2n)));
    const point = await this.#at(units, nodes);
    if (point === null) return;
    found.push(point);
    const [below, middle, above] = settle([low, point, high], this.options.strictLimit);
    await this.#between(below!, middle!, nodes, found);
    await this.#between(middle!, above!, nodes, found);
  }

  /** About how many balances the halving takes. */
  #halvings(points: readonly Staffing[]): number {
    let count = 0;
    for (const [at, low] of points.slice(0, -1).entries()) {
      const high = points[at + 1]!;
      const gap = Number(this.#grains(low, high));
      if (low.people === high.people) continue;
      const changes = Number.isFinite(high.people - low.people) ? high.people - low.people : 1;
      count += Math.min(gap - 1, changes * Math.ceil(Math.log2(gap)));
    }
    return count;
  }

  /** How many grains lie from one demand to another. */
  #grains(one: Staffing, two: Staffing): bigint {
    return floor(divide(subtract(two.demand.units, one.demand.units), this.range.grain));
  }

  /** Null where the user has had enough. */
  async #at(units: Ratio, nodes: number, isRow = false): Promise<Staffing | null> {
    const known = this.#rows.get(keyOf(units)) ?? this.#known.get(keyOf(units));
    if (known !== undefined) return known;
    const demand = { units, period: this.range.period };
    const what = { demand };
    const checkpoint: Watch = (progress) => this.options.checkpoint({ ...progress, what });
    this.#isCut ||= (await checkpoint({ nodes: 0, best: null, bound: null })) !== null;
    if (this.#isCut) return null;
    const point = await staffDemand(this.line, demand, nodes, { ...this.options, checkpoint }, isRow);
    (isRow ? this.#rows : this.#known).set(keyOf(units), point);
    return point;
  }
}

/**
 * A plan keeps every slower pace as well, so it serves every lower demand; what no plan can do at a demand, none can at a higher
 * one. Hands plans down and bounds up, so that more units never need fewer people, even where a search gave up at one of them.
 *
 * @param ascending by demand, of one line
 */
export function settle(ascending: readonly Staffing[], strictLimit: boolean): Staffing[] {
  const settled = [...ascending];
  for (let at = settled.length - 2; at >= 0; at--) {
    const [here, above] = [settled[at]!, settled[at + 1]!];
    if (above.plan === null || here.takt === null) continue;
    const people = peopleOf(above.plan) + here.repair;
    if (people >= here.people) continue;
    if (verifyPlan(here.line, here.takt.pace, above.plan, strictLimit).length > 0) continue;
    settled[at] = { ...here, plan: above.plan, people };
  }
  for (let at = 1; at < settled.length; at++) {
    const [below, here] = [settled[at - 1]!, settled[at]!];
    const least = below.least - below.repair + here.repair;
    if (least > here.least) settled[at] = { ...here, least };
  }
  return settled;
}
