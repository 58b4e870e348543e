import type { StationProblem, Stations } from "../problem.js";
import { Beam } from "./beam.js";
import { type Instance, layOut, turnRound } from "./instance.js";

/**
 * Looks for a plan with at most `count` stations by beams: a narrow one from each end of the line, then one of the whole
 * width from the end whose narrow one took fewer nodes: there the choice is smaller, and a beam leaves less of it out (Scholl
 * & Klein 1997 choose the end of branch and bound alike).
 */
export class TwoWayBeam {
  best: Stations | null = null;
  private readonly beams: Beam[] = [];

  constructor(
    private readonly problem: StationProblem,
    private readonly count: number,
    private readonly width: number,
    private readonly limits: { readonly nodes: number; readonly memory: number },
  ) {}

  get nodes(): number {
    return this.beams.reduce((sum, beam) => sum + beam.nodes, 0);
  }

  /** The search in stretches of a few milliseconds; afterwards `best` is the plan, stations in order of work, or null. */
  *stretches(): Generator<null> {
    const front = layOut(this.problem);
    const back = layOut(turnRound(this.problem));
    const narrow = Math.ceil(this.width / NARROW);
    const fromFront = yield* this.run(front, narrow, false);
    if (this.best !== null) return;
    const fromBack = yield* this.run(back, narrow, true);
    if (this.best !== null) return;
    if (fromFront <= fromBack) yield* this.run(front, this.width, false);
    else yield* this.run(back, this.width, true);
  }

  /** Gives the nodes that it took. */
  private *run(instance: Instance, wanted: number, fromBack: boolean): Generator<null, number> {
    const { memory } = this.limits;
    const inMemory = Math.min(
      memory / STATES_A_PLACE,
      (memory * WORDS_A_STATE) / (this.count * instance.words),
    );
    const width = Math.max(1, Math.min(wanted, Math.floor(inMemory)));
    const beam = new Beam(instance, this.count, width, this.limits.nodes - this.nodes);
    this.beams.push(beam);
    yield* beam.stretches();
    const plan = beam.plan();
    if (plan !== null) this.best = fromBack ? plan.toReversed().map((load) => load.toReversed()) : plan;
    return beam.nodes;
  }
}

/** How many times narrower the first beams are. */
const NARROW = 8;
/** A beam keeps the sets of all its levels; so many words of them count as one remembered partial plan. */
const WORDS_A_STATE = 4;
/** What the level being filled takes for each partial plan that it will keep, in remembered partial plans, at the least. */
const STATES_A_PLACE = 64;
