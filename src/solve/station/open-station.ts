import { kindAt, type Work } from "../work.js";
import { limitOf, modelLimitOf } from "./sides/schedule-sides.js";
import { SideCrews } from "./sides/side-crews.js";
import { SideSet } from "./sides/side-sets.js";

/** A closed station: at so many places, by so many people at each. */
export interface Closed {
  readonly places: number;
  readonly crew: number;
  /** Units of each counted equipment that it uses. */
  readonly equipment: readonly number[];
}

/**
 * The station being filled: which blocks may join those it holds already. Every rule here only ever forbids more as blocks
 * join, so a block refused now is refused by every larger load too.
 */
export class OpenStation {
  readonly blocks: number[] = [];
  load = 0;
  private kind = 0;
  private position = 0;
  private inUse: readonly number[] = [];
  private readonly inside: Uint8Array;
  private readonly set: SideSet;
  private readonly zones: (string | null)[] = [];
  private readonly crews: SideCrews | null;

  constructor(private readonly problem: Work) {
    this.inside = new Uint8Array(problem.size);
    this.set = new SideSet(problem.size);
    this.crews = problem.sides === null ? null : new SideCrews(problem, problem.sides);
  }

  /** Begins an empty station; `inUse` is the counted equipment used by the stations before it. */
  start(position: number, inUse: readonly number[]): void {
    for (const block of this.blocks) this.inside[block] = 0;
    this.blocks.length = 0;
    this.set.clear();
    this.load = 0;
    this.zones.length = 0;
    this.position = position;
    this.kind = kindAt(this.problem, position);
    this.inUse = inUse;
  }

  /** What was asked last is not known, since the steps allowed for sides were used up; what was answered then means nothing. */
  get isUndecided(): boolean {
    return this.crews?.isUndecided ?? false;
  }

  /** Tasks put to a side so far, to see whether loads fit both. */
  get sideSteps(): number {
    return this.crews?.steps ?? 0;
  }

  /** Lets questions about sides take so many further steps; without a word there is no limit. What was begun goes on. */
  allowSideSteps(most: number): void {
    this.crews?.allow(most);
  }

  has(block: number): boolean {
    return this.inside[block] === 1;
  }

  /** Whether a block, whose predecessors are done, may join. */
  canTake(block: number): boolean {
    const { problem, position } = this;
    if (
      !problem.allowed[block]![this.kind]! ||
      position < problem.first[block]! ||
      position > problem.last[block]!
    )
      return false;
    const zone = problem.zones[block]!;
    if (zone !== null && this.zones.some((each) => each !== null && each !== zone)) return false;
    if (problem.apart[block]!.some((each) => this.inside[each] === 1)) return false;
    this.take(block);
    const fits = this.close() !== null;
    this.giveBack();
    return fits;
  }

  take(block: number): void {
    this.blocks.push(block);
    this.inside[block] = 1;
    this.set.add(block);
    this.load += this.problem.loads[block]!;
    this.zones.push(this.problem.zones[block]!);
  }

  giveBack(): void {
    const block = this.blocks.pop()!;
    this.inside[block] = 0;
    this.set.remove(block);
    this.load -= this.problem.loads[block]!;
    this.zones.pop();
  }

  /** The fewest places that hold the load, with the crew; null where not even the most places do. */
  close(): Closed | null {
    return this.closeFrom(1);
  }

  /**
   * Every way to close the station that may be of use, the fewest places first: more places only where they take fewer people in
   * all. Three places with one person each do for either side what two places with two people do.
   */
  closings(): Closed[] {
    const found: Closed[] = [];
    for (let next = this.close(); next !== null; next = this.closeFrom(next.places + 1)) {
      const last = found.at(-1);
      if (last === undefined || next.places * next.crew < last.places * last.crew) found.push(next);
      // Without sides the crew is the same at any number of places.
      if (this.problem.sides === null) break;
    }
    return found;
  }

  private closeFrom(fewest: number): Closed | null {
    const { limits } = this.problem.kinds[this.kind]!;
    for (let places = fewest; places <= limits.length; places++) {
      if (!this.holds(places)) continue;
      const crew = this.crewAt(places);
      if (crew === 0) continue;
      const equipment = this.equipmentAt(places);
      return equipment === null ? null : { places, crew, equipment };
    }
    return null;
  }

  private holds(places: number): boolean {
    const { problem, load, blocks } = this;
    const { limits } = problem.kinds[this.kind]!;
    // With sides this is only the sum of both; their schedule says the rest.
    const sides = problem.sides === null ? 1 : 2;
    const mostOfModel = sides * modelLimitOf(problem, { position: this.position, places });
    for (const loads of problem.modelLoads) {
      const own = blocks.reduce((sum, block) => sum + loads[block]!, 0);
      if (own > mostOfModel) return false;
    }
    const most = sides * limits[places - 1]!;
    return load <= most || load <= limitOf(problem, { position: this.position, blocks, places });
  }

  /** People together at one place; 0 where the sides cannot keep the limit. */
  private crewAt(places: number): number {
    const { problem, blocks, position } = this;
    const most = blocks.reduce((crew, block) => Math.max(crew, problem.people[block]!), 1);
    if (this.crews === null) return most;
    const station = { position, blocks, places };
    const crew = this.crews.of(
      this.set.key,
      blocks,
      limitOf(problem, station),
      modelLimitOf(problem, station),
    );
    return crew === 0 ? 0 : Math.max(crew, most);
  }

  private equipmentAt(places: number): number[] | null {
    const { equipment } = this.problem;
    const used: number[] = [];
    for (const [at, { count, needs, runs, cycle }] of equipment.entries()) {
      let needed = 0;
      let run = 0n;
      for (const block of this.blocks) {
        if (!needs[block]) continue;
        needed = places;
        run += runs[block]!;
      }
      const units = cycle > 0n ? Math.max(needed, Number((run + cycle - 1n) / cycle)) : needed;
      if ((this.inUse[at] ?? 0) + units > count) return null;
      used.push(units);
    }
    return used;
  }

  /**
   * Whether a further block could just as well stand here: whatever plan goes on from this load, the block may move here from
   * its later station. Not where the block takes something that other stations share.
   *
   * @param closings how this load may be closed
   */
  couldHold(block: number, closings: readonly Closed[]): boolean {
    const { problem } = this;
    const isShared =
      problem.equipment.some(({ needs }) => needs[block]!) ||
      (problem.skills !== null && problem.skills.needs[block] !== 0n);
    if (isShared || !this.canTake(block)) return false;
    this.take(block);
    const larger = this.closings();
    this.giveBack();
    return closings.every(({ places, crew }) =>
      larger.some((each) => each.places <= places && each.crew <= crew),
    );
  }
}
