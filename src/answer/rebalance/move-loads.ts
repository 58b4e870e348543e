import type { Closed, OpenStation } from "../../solve/station/open-station.js";
import { costAt, costOfPassing, type MoveProblem } from "./move-problem.js";

/** A load of one station with what it adds to the cost of moves. */
export interface MoveLoad {
  readonly blocks: readonly number[];
  readonly cost: number;
}

/**
 * Every load of a station whose moves cost no more than `most`, the cheapest first: what comes to the station from elsewhere, and what
 * was there and stays behind, which then has to stand later. No load is left out for being smaller than another, since taking
 * something more may be a move.
 */
export class MoveLoads {
  private readonly found: MoveLoad[] = [];
  private readonly missing: Int32Array;
  /** Blocks taken, over all calls. */
  steps = 0;
  /** The least cost at which the last list would have been longer; infinite where nothing was cut off. */
  cutOff = Number.POSITIVE_INFINITY;

  /** Whether the last list ended early, at the most steps allowed. */
  isCutShort = false;
  private lastStep = Number.POSITIVE_INFINITY;

  /** @param mostSteps blocks taken in one call at the most: then not every load is listed */
  constructor(
    private readonly problem: MoveProblem,
    private readonly station: OpenStation,
    private readonly mostSteps = Number.POSITIVE_INFINITY,
  ) {
    this.missing = new Int32Array(problem.floor.size);
  }

  /** @param left blocks that are not placed; @param mayStart whether a block need not wait for a later station */
  list(
    position: number,
    inUse: readonly number[],
    left: readonly number[],
    mayStart: (block: number) => boolean,
    label: number,
    nextLabel: number,
    most: number,
  ): readonly MoveLoad[] {
    const { floor } = this.problem;
    this.found.length = 0;
    this.isCutShort = false;
    this.lastStep = this.steps + this.mostSteps;
    this.cutOff = Number.POSITIVE_INFINITY;
    this.station.start(position, inUse);
    this.missing.fill(NEVER);
    for (const block of left) this.missing[block] = 0;
    for (const block of left) {
      for (const earlier of floor.before[block]!) if (this.missing[earlier]! < NEVER) this.missing[block]!++;
    }
    const own = (block: number) => (label >= 0 ? costOfPassing(this.problem, block, label) : 0);
    const ready = left.filter((block) => this.missing[block] === 0 && mayStart(block));
    ready.sort((one, two) => own(two) - own(one) || one - two);
    // What of the label's own tasks is not taken has to move on.
    const stays = label < 0 ? 0 : left.reduce((sum, block) => sum + own(block), 0);
    this.walk(ready, 0, stays, { label, nextLabel, most, own, behind: 0, mayStart });
    return this.found.toSorted((one, two) => one.cost - two.cost);
  }

  private walk(ready: readonly number[], from: number, cost: number, now: Walk): void {
    if (this.station.blocks.length > 0) {
      if (cost <= now.most) this.found.push({ blocks: [...this.station.blocks], cost });
      else this.cutOff = Math.min(this.cutOff, cost);
    }
    let passed = now.behind;
    for (let at = from; at < ready.length; at++) {
      const block = ready[at]!;
      if (this.steps >= this.lastStep) {
        this.isCutShort = true;
        return;
      }
      if (this.station.canTake(block)) {
        const own = now.own(block);
        const added = costAt(this.problem, block, now.label, now.nextLabel);
        // What was passed over and what comes from elsewhere is certain; what is own and still ahead may yet be taken.
        const certain = passed + this.foreign + added;
        if (certain > now.most) {
          this.cutOff = Math.min(this.cutOff, certain);
        } else {
          this.steps++;
          this.station.take(block);
          this.foreign += added;
          const further = this.makeReady(block, ready, now.mayStart);
          this.walk(further, at + 1, cost + added - own, { ...now, behind: passed });
          this.unmakeReady(block);
          this.foreign -= added;
          this.station.giveBack();
        }
      }
      passed += now.own(block);
      if (passed + this.foreign > now.most) {
        this.cutOff = Math.min(this.cutOff, passed + this.foreign);
        return;
      }
    }
  }

  /** Every way to close the station with these blocks; none where it cannot hold them. */
  closings(position: number, inUse: readonly number[], blocks: readonly number[]): readonly Closed[] {
    this.station.start(position, inUse);
    for (const block of blocks) {
      if (!this.station.canTake(block)) return [];
      this.station.take(block);
    }
    return this.station.closings();
  }

  private foreign = 0;

  private makeReady(
    block: number,
    ready: readonly number[],
    mayStart: (block: number) => boolean,
  ): readonly number[] {
    const { after, waits } = this.problem.floor;
    const more = after[block]!.filter((later) => --this.missing[later]! === 0 && mayStart(later));
    const free = more.filter(
      (later) => !waits.some(({ from, to }) => to === later && this.station.has(from)),
    );
    return free.length === 0 ? ready : [...ready, ...free];
  }

  private unmakeReady(block: number): void {
    for (const later of this.problem.floor.after[block]!) this.missing[later]!++;
  }
}

interface Walk {
  readonly label: number;
  readonly nextLabel: number;
  readonly most: number;
  readonly own: (block: number) => number;
  /** Cost of own blocks passed over on the way here. */
  readonly behind: number;
  readonly mayStart: (block: number) => boolean;
}

const NEVER = 0x40000000;
