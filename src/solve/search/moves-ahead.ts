import type { KeptSoFar, MovedSoFar } from "../station/labels.js";
import { kindAt, type Today, type Work } from "../work.js";
import { hasTask } from "./bit-sets.js";
import type { TaskRules } from "./task-rules.js";

/**
 * The least that the moves still ahead can cost: of the blocks that stand at a station today, so many must leave that the others
 * fit; and where there will be fewer stations, those given up lose all of theirs.
 *
 * Supports every work: no station holds more than its time, and of its time alone is spoken here.
 */
export class MovesAhead {
  /** By label the tasks that have it as their home, the longest first. */
  private readonly atHome: readonly (readonly Stay[])[];
  private readonly rooms: readonly Room[];
  private readonly positionOf: readonly number[] | null;

  /** By the cost that is held beside the first. */
  private readonly beside: MovesAhead | null;

  private constructor(
    private readonly today: Today,
    rules: TaskRules,
  ) {
    const { blockOf, work } = rules;
    const { labels, homes, labelAt, beside, ...others } = today;
    this.beside =
      beside === undefined ? null : new MovesAhead({ ...others, labels, labelAt, ...beside }, rules);
    const all = Array.from({ length: labels }, (_, label) => label);
    this.atHome = all.map((label) =>
      [...blockOf.entries()]
        .flatMap(([task, block]) =>
          homes[block]!.filter((home) => home.label === label).map(({ cost }) => ({
            task,
            cost,
            load: work.loads[block]!,
          })),
        )
        .sort((one, two) => two.load - one.load),
    );
    this.positionOf = labelAt === null ? null : all.map((label) => labelAt.indexOf(label));
    this.rooms = all.map((label) => roomOf(work, this.positionOf?.[label] ?? null));
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
    const { positionOf, today } = this;
    let least = moves;
    const extra: number[] = [];
    for (const [label, all] of left.entries()) {
      if (positionOf === null ? label < next : positionOf[label]! < position) {
        least += all;
        continue;
      }
      const kept = this.leastRemoval(sets, offset, label);
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

  /** The longest leave first: no fewer can make room; each costs at least as much as the cheapest. */
  private leastRemoval(sets: Int32Array, offset: number, label: number): number {
    const { shared, alone } = this.rooms[label]!;
    const own = this.atHome[label]!.filter(({ task, load }) => load > 0 && !hasTask(sets, offset, task));
    let load = own.reduce((sum, each) => sum + each.load, 0);
    if (load <= shared) return 0;
    let count = 0;
    while (load > shared && !(own.length - count === 1 && load <= alone)) load -= own[count++]!.load;
    // One that stands alone may be any of them: it stays where the others leave.
    const others = own.length - 1;
    if (count > others && own.some((each) => each.load <= alone)) count = others;
    const cheapest = own.map(({ cost }) => cost).sort((one, two) => one - two);
    return cheapest.slice(0, count).reduce((sum, each) => sum + each, 0);
  }
}

/** A task at home. */
interface Stay {
  readonly task: number;
  readonly cost: number;
  readonly load: number;
}

/** The most that a station may hold, and the most of a block that stands there alone. */
interface Room {
  readonly shared: number;
  readonly alone: number;
}

/** Of any station where the position is not known. */
function roomOf(work: Work, position: number | null): Room {
  const kinds = position === null ? work.kinds : [work.kinds[kindAt(work, position)]!];
  const sides = work.sides === null ? 1 : 2;
  return {
    shared: sides * Math.max(...kinds.map(({ limits }) => limits.at(-1)!)),
    alone: sides * Math.max(...kinds.map(({ limits, alone }) => Math.max(limits.at(-1)!, alone.at(-1)!))),
  };
}
