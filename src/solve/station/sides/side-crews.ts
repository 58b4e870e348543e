import type { Work } from "../../work.js";
import { SideCrew } from "./fit-sides.js";
import { sideLimitsOf, tasksOf } from "./schedule-sides.js";
import type { SideLimits, SideProblem } from "./side-problem.js";

/** Remembers how many sides sets of blocks need, limit by limit, and stops asking where the steps allowed are used up. */
export class SideCrews {
  /** Tasks put to a side so far. */
  steps = 0;
  isUndecided = false;
  private lastStep = Number.POSITIVE_INFINITY;
  private readonly known: Known[] = [];
  private remembered = 0;
  /** The question that is not answered yet. */
  private open: { readonly known: Known; readonly key: number | string; readonly crew: SideCrew } | null =
    null;

  constructor(
    private readonly problem: Work,
    private readonly sides: SideProblem,
  ) {}

  allow(most: number): void {
    this.lastStep = this.steps + most;
    this.isUndecided = false;
  }

  /**
   * Sides in use; 0 where the blocks do not fit, or where that is undecided.
   *
   * @param key the set of the blocks
   * @param mean the most on average of all units
   * @param most the most of one model
   */
  of(key: number | string, blocks: readonly number[], mean: number, most: number): number {
    const known = this.knownFor(mean, most);
    const before = known.crews.get(key);
    if (before !== undefined) return before;
    if (this.isUndecided || this.steps >= this.lastStep) {
      this.isUndecided = true;
      return 0;
    }
    const crew = this.askedBefore(known, key) ?? this.ask(blocks, known);
    const asked = crew.steps;
    crew.advance(this.lastStep - this.steps);
    this.steps += crew.steps - asked;
    if (crew.crew === null) {
      this.open = { known, key, crew };
      this.isUndecided = true;
      return 0;
    }
    this.remember(known, key, crew.crew);
    return crew.crew;
  }

  private askedBefore(known: Known, key: number | string): SideCrew | null {
    const { open } = this;
    return open !== null && open.known === known && open.key === key ? open.crew : null;
  }

  private ask(blocks: readonly number[], { limits }: Known): SideCrew {
    const crew = new SideCrew(this.sides, tasksOf(this.problem, blocks), limits);
    this.steps += crew.steps;
    return crew;
  }

  private knownFor(mean: number, most: number): Known {
    let found = this.known.find((each) => each.mean === mean && each.most === most);
    if (found === undefined) {
      found = { mean, most, limits: sideLimitsOf(this.problem, mean, most), crews: new Map() };
      this.known.push(found);
    }
    return found;
  }

  private remember({ crews }: Known, key: number | string, crew: number): void {
    if (this.remembered++ >= MOST_REMEMBERED) {
      for (const each of this.known) each.crews.clear();
      this.remembered = 0;
    }
    crews.set(key, crew);
  }
}

interface Known {
  readonly mean: number;
  readonly most: number;
  readonly limits: SideLimits;
  readonly crews: Map<number | string, number>;
}

/** About 100 MB. */
const MOST_REMEMBERED = 1_000_000;
