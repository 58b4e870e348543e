import { OverfullHomes } from "../bounds/overfull-homes.js";
import type { KeptSoFar, MovedSoFar } from "../station/labels.js";
import type { TaskRules } from "../station/task-rules.js";
import type { Today } from "../work.js";
import { hasTask } from "./bit-sets.js";

/**
 * The least that the moves still ahead can cost: of the blocks that stand at a station today, so many must leave that the others
 * fit; and where there will be fewer stations, those given up lose all of theirs. Supports every work.
 */
export class MovesAhead {
  private readonly homes: OverfullHomes;
  private readonly positionOf: readonly number[] | null;
  private readonly taskOf: Int32Array;
  /** By the cost that is held beside the first. */
  private readonly beside: MovesAhead | null;

  private constructor(
    private readonly today: Today,
    rules: TaskRules,
  ) {
    const { blockOf, work } = rules;
    const { labels, labelAt } = today;
    const { beside, ...alone } = today;
    this.beside = beside === undefined ? null : new MovesAhead({ ...alone, ...beside }, rules);
    this.homes = new OverfullHomes(work, today);
    this.positionOf =
      labelAt === null ? null : Array.from({ length: labels }, (_, label) => labelAt.indexOf(label));
    this.taskOf = new Int32Array(work.size);
    for (const [task, block] of blockOf.entries()) this.taskOf[block] = task;
  }

  static of(rules: TaskRules): MovesAhead | null {
    return rules.work.today === null ? null : new MovesAhead(rules.work.today, rules);
  }

  /**
   * Whether the moves allowed may do for what follows a partial plan.
   *
   * @param position the next to fill
   * @param stationsLeft how many stations may still come
   */
  allow(sets: Int32Array, offset: number, kept: KeptSoFar, position: number, stationsLeft: number): boolean {
    const { beside } = this;
    return (
      this.allowOf(sets, offset, kept, kept.next, position, stationsLeft) &&
      (beside === null || beside.allowOf(sets, offset, kept.beside!, kept.next, position, stationsLeft))
    );
  }

  private allowOf(
    sets: Int32Array,
    offset: number,
    { moves, left }: MovedSoFar,
    next: number,
    position: number,
    stationsLeft: number,
  ): boolean {
    const { positionOf, today, homes, taskOf } = this;
    const isGone = (block: number) => hasTask(sets, offset, taskOf[block]!);
    let least = moves;
    const extra: number[] = [];
    for (const [label, all] of left.entries()) {
      if (positionOf === null ? label < next : positionOf[label]! < position) {
        least += all;
        continue;
      }
      const kept = homes.leastWithout(label, isGone);
      least += kept;
      extra.push(all - kept);
      if (least > today.mostMoves) return false;
    }
    const givenUp = extra.length - stationsLeft;
    if (givenUp > 0) {
      extra.sort((one, two) => one - two);
      for (let at = 0; at < givenUp; at++) least += extra[at]!;
    }
    return least <= today.mostMoves;
  }
}
