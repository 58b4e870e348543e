import { type Cost, costOf, isCheaper, PEOPLE_FIRST } from "../cost.js";
import { positionsOf } from "../station/arrange-blocks.js";
import type { BlockPlan, Today, Work } from "../work.js";
import { FollowToday } from "./follow-today.js";
import { firstWidth, inRow, LOADS, ON_FLOORS, STEPS_A_NODE, WIDENING } from "./near-today.js";

/**
 * Brings people, then stations of whole plans down by beams that follow known plans along the line: what stands where in a plan, good or
 * bad, tells a beam which of the many loads of a station to look at first (a neighbourhood of known plans, as local branching searches
 * it: Fischetti & Lodi 2003). Each beam asks for less than the best plan has, whichever it follows.
 */
export class BeamsAlongPlans {
  /** Partial plans, in nodes of the search. */
  nodes = 0;

  /**
   * @param best the cheapest plan so far
   * @param guides by block the position in a plan, -1 where it has none; the first ones are followed first
   * @param least no plan costs less
   */
  constructor(
    private readonly work: Work,
    public best: BlockPlan,
    private readonly guides: (readonly number[])[],
    private readonly least: Cost,
    private readonly mostNodes: number,
  ) {}

  /** Goes on until no plan can be cheaper, the nodes are used up or the widest beams find nothing; gives null now and then. */
  *stretches(): Generator<null> {
    const narrow = firstWidth(this.work);
    for (let width = narrow; width <= narrow * WIDENING ** 2; width *= WIDENING)
      while (yield* this.followEach(width));
  }

  /** One beam of each kind along each plan; whether one of them found a cheaper plan. */
  private *followEach(width: number): Generator<null, boolean> {
    let isBetter = false;
    for (const at of this.guides.keys())
      for (const [idle] of ON_FLOORS) while (yield* this.follow(at, width, idle)) isBetter = true;
    return isBetter;
  }

  /** Whether a beam along that plan finds one cheaper than the best, which then takes its place. */
  private *follow(at: number, width: number, idle: number): Generator<null, boolean> {
    const { work } = this;
    for (const ceiling of this.ceilings()) {
      if (this.nodes >= this.mostNodes) return false;
      const today = asToday(work, this.guides[at]!);
      const beam = new FollowToday(work, today, ceiling, work.size + 1, { width, loads: LOADS, idle });
      const before = this.nodes;
      for (const _ of beam.stretches()) {
        this.nodes = before + Math.ceil(beam.steps / STEPS_A_NODE);
        if (beam.plan !== null || this.nodes >= this.mostNodes) break;
        yield null;
      }
      this.nodes = before + Math.ceil(beam.steps / STEPS_A_NODE);
      if (beam.plan === null || !isCheaper(costOf(beam.plan), costOf(this.best), PEOPLE_FIRST)) continue;
      this.best = inRow(work, beam.plan);
      this.guides[at] = positionsOf(work, this.best);
      return true;
    }
    return false;
  }

  /** Fewer people; where these are as few as they get, or follow from the stations, fewer stations. */
  private ceilings(): Cost[] {
    const { people, stations } = costOf(this.best);
    const ceilings: Cost[] = [];
    if (people > this.least.people) ceilings.push({ people, stations: 0 });
    if (stations > this.least.stations && people > stations) ceilings.push({ people, stations });
    return ceilings;
  }
}

/** The stations of a plan as those of today, each block at home where it stands; in vain where no station can be. */
function asToday(work: Work, positionOf: readonly number[]): Today {
  const isThere = (position: number) => position >= 0 && position < work.positions;
  const used = [...new Set(positionOf.filter(isThere))].sort((one, two) => one - two);
  const labels = new Map(used.map((position, label) => [position, label]));
  return {
    labels: used.length,
    homes: positionOf.map((position) =>
      isThere(position) ? [{ label: labels.get(position)!, cost: 1 }] : [],
    ),
    labelAt: work.isPositional
      ? Array.from({ length: work.positions }, (_, position) => labels.get(position) ?? -1)
      : null,
    mostMoves: work.size,
  };
}
