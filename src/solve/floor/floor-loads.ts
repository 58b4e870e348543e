import type { Closed, OpenStation } from "../station/open-station.js";
import type { Work } from "../work.js";

/** What a stretch of the walk came to. */
export type Walk = "load" | "end" | "pause";

/**
 * Walks through the loads of one station, each set of blocks once. Blocks that can start stand in a queue; each in turn is taken
 * or passed over, and a block taken appends those that it makes ready, unless they must wait for a later station. Loads that
 * leave out a block which could just as well stand here are left out (the full loads of Jackson 1956, as far as the rules of
 * the line allow them).
 */
export class FloorLoads {
  /** The load found last and how it may be closed. */
  load: number[] = [];
  closings: readonly Closed[] = [];

  private taken = 0;
  private sideStepsBefore = 0;
  private readonly ready: number[] = [];
  private readonly missing: Int32Array;
  private readonly places: number[] = [];
  private readonly lengths: number[] = [];
  private next = 0;
  private goBack = false;
  private ended = true;

  constructor(
    private readonly problem: Work,
    private readonly station: OpenStation,
    /** Blocks in the order in which they are tried. */
    private readonly order: readonly number[],
  ) {
    this.missing = new Int32Array(problem.size);
  }

  /**
   * Begins the walk after the blocks for which `isPlaced` is true.
   *
   * @param mayStart whether a block need not wait for a later station
   */
  start(
    position: number,
    inUse: readonly number[],
    isPlaced: (block: number) => boolean,
    mayStart: (block: number) => boolean,
  ): void {
    this.station.start(position, inUse);
    this.ready.length = 0;
    this.places.length = 0;
    this.lengths.length = 0;
    this.next = 0;
    this.taken = 0;
    this.sideStepsBefore = this.station.sideSteps;
    this.goBack = false;
    this.ended = false;
    for (const block of this.order) {
      this.missing[block] = isPlaced(block) || !mayStart(block) ? NEVER : 0;
      if (this.missing[block] === NEVER) continue;
      for (const earlier of this.problem.before[block]!) if (!isPlaced(earlier)) this.missing[block]!++;
      if (this.missing[block] === 0) this.ready.push(block);
    }
  }

  /** Blocks taken since `start`, and what was looked at to see whether loads fit both sides: so many tasks put to a side count as a block. */
  get steps(): number {
    return this.taken + Math.floor((this.station.sideSteps - this.sideStepsBefore) / SIDE_STEPS);
  }

  /** Goes on to the next load, to the end, or until there are so many steps since `start`, also in the midst of a question about sides. */
  advance(mostSteps: number): Walk {
    while (!this.ended) {
      if (this.steps >= mostSteps) return "pause";
      this.station.allowSideSteps((mostSteps - this.steps) * SIDE_STEPS);
      if (this.goBack) {
        this.goBack = false;
        this.putBack();
        continue;
      }
      if (this.takeNext()) continue;
      // What is not known yet is asked again.
      if (this.station.isUndecided) return "pause";
      const isWorthKeeping = this.isWorthKeeping();
      if (this.station.isUndecided) return "pause";
      this.goBack = true;
      if (isWorthKeeping) return "load";
    }
    return "end";
  }

  private takeNext(): boolean {
    for (; this.next < this.ready.length; this.next++) {
      const block = this.ready[this.next]!;
      if (this.station.canTake(block)) {
        this.take(block);
        return true;
      }
      if (this.station.isUndecided) return false;
    }
    return false;
  }

  private take(block: number): void {
    this.taken++;
    this.station.take(block);
    this.places.push(this.next++);
    this.lengths.push(this.ready.length);
    for (const later of this.problem.after[block]!) {
      if (--this.missing[later]! === 0 && !this.waits(later)) this.ready.push(later);
    }
  }

  /** What waits for a block of this very station cannot start here. */
  private waits(block: number): boolean {
    return this.problem.waits.some(({ from, to }) => to === block && this.station.has(from));
  }

  private putBack(): void {
    const block = this.station.blocks.at(-1);
    if (block === undefined) {
      this.ended = true;
      return;
    }
    this.station.giveBack();
    for (const later of this.problem.after[block]!) this.missing[later]!++;
    this.ready.length = this.lengths.pop()!;
    this.next = this.places.pop()! + 1;
  }

  private isWorthKeeping(): boolean {
    const { station } = this;
    if (station.blocks.length === 0) return false;
    this.closings = station.closings();
    if (this.closings.length === 0) return false;
    for (const block of this.ready) {
      if (!station.has(block) && station.couldHold(block, this.closings)) return false;
    }
    this.load = [...station.blocks];
    return true;
  }
}

const NEVER = 0x40000000;
/** Tasks put to a side that count as a block taken. */
const SIDE_STEPS = 64;
