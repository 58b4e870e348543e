import type { TaskRules } from "../station/task-rules.js";
import { kindAt, type StationKind, type Work } from "../work.js";
import { hasTask } from "./bit-sets.js";
import type { Instance } from "./instance.js";

/**
 * Whether the next position may be left empty to any avail. Where everything that could stand next further on could stand here as well,
 * in stations no roomier than this one, whatever is put there may as well be put here.
 */
export class EmptyPositions {
  /** For each task those before it, direct and indirect. */
  private readonly earlier: readonly Int32Array[];
  /** By kind of station: whether a later kind holds something that this one does not. */
  private readonly isRoomierLater: readonly boolean[];

  private constructor(
    private readonly instance: Instance,
    private readonly rules: TaskRules,
  ) {
    const { size, words, followers } = instance;
    const all = Int32Array.from({ length: size }, (_, task) => task);
    this.earlier = Array.from(all, (task) =>
      all.filter((other) => other < task && hasTask(followers, other * words, task)),
    );
    const { kinds, limits, schedule, spread } = rules.work;
    const isAsRoomy = (one: StationKind, two: StationKind) =>
      holdsAsMuch(one, two) && (schedule === null || standsAsLong(one, two));
    this.isRoomierLater = kinds.map((kind, at) =>
      kinds.some(
        (later, other) =>
          other > at &&
          (!isAsRoomy(kind, later) ||
            limits.some(({ most }) => !isAsHigh(most[at]!, most[other]!)) ||
            (spread !== null && !asksNoMore(spread.scores[at]!, spread.scores[other]!))),
      ),
    );
  }

  /** Null where positions do not matter. */
  static of(instance: Instance, rules: TaskRules): EmptyPositions | null {
    return rules.work.isPositional ? new EmptyPositions(instance, rules) : null;
  }

  /** @param left the tasks that are not placed, `tasksLeft` of them */
  mayHelp(sets: Int32Array, offset: number, position: number, left: Int32Array, tasksLeft: number): boolean {
    const { work, blockOf } = this.rules;
    const kind = kindAt(work, position);
    if (this.isRoomierLater[kind]) return true;
    if (this.hasHomeLater(position, left, tasksLeft)) return true;
    if (work.waits.some(({ to }) => this.isLeft(to, left, tasksLeft))) return true;
    for (let at = 0; at < tasksLeft; at++) {
      const task = left[at]!;
      if (!mayStand(work, blockOf[task]!, position, kind) && this.mayComeNext(sets, offset, task))
        return true;
    }
    return false;
  }

  /** A task stands further on today, and to take it away from there costs. */
  private hasHomeLater(position: number, left: Int32Array, tasksLeft: number): boolean {
    const { work, blockOf } = this.rules;
    const labelAt = work.today?.labelAt;
    if (labelAt == null) return false;
    for (let at = 0; at < tasksLeft; at++) {
      const homes = work.today!.homes[blockOf[left[at]!]!]!;
      if (homes.some(({ label }) => labelAt.indexOf(label) > position)) return true;
    }
    return false;
  }

  private isLeft(block: number, left: Int32Array, tasksLeft: number): boolean {
    for (let at = 0; at < tasksLeft; at++) if (this.rules.blockOf[left[at]!] === block) return true;
    return false;
  }

  /** A station has room for the task with all that must come before it. */
  private mayComeNext(sets: Int32Array, offset: number, task: number): boolean {
    const { times, limit } = this.instance;
    let room = limit - times[task]!;
    for (const other of this.earlier[task]!) {
      if (room < 0) return false;
      if (!hasTask(sets, offset, other)) room -= times[other]!;
    }
    return room >= 0;
  }
}

function mayStand({ allowed, first }: Work, block: number, position: number, kind: number): boolean {
  return allowed[block]![kind]! && first[block]! <= position;
}

/** Null is no limit. */
function isAsHigh(one: bigint | null, two: bigint | null): boolean {
  return one === null || (two !== null && two <= one);
}

/** Null asks for no chance to keep the pace. */
function asksNoMore(one: bigint | null, two: bigint | null): boolean {
  return one === null || (two !== null && one <= two);
}

function holdsAsMuch(one: StationKind, two: StationKind): boolean {
  return (
    areAsHigh(one.limits, two.limits) &&
    areAsHigh(one.alone, two.alone) &&
    areAsHigh(one.modelLimits, two.modelLimits)
  );
}

/** Units may stand there for as long, and as many people share them. */
function standsAsLong(one: StationKind, two: StationKind): boolean {
  return areAsHigh(one.dwell, two.dwell) && one.holds >= two.holds && one.maxCrew >= two.maxCrew;
}

const areAsHigh = (own: readonly number[], other: readonly number[]): boolean =>
  other.length <= own.length && other.every((most, at) => most <= own[at]!);
