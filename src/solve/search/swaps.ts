import { takeNoMore } from "../station/open-station.js";
import type { TaskRules } from "../station/task-rules.js";
import { addTask, hasTask, isWithin, lowestBit } from "./bit-sets.js";
import type { Instance } from "./instance.js";

/** A load, its `count` tasks, and the tasks that could start at its station; 1 in `inLoad` for those of the load. */
interface Load {
  readonly load: Int32Array;
  readonly count: number;
  readonly ready: Int32Array;
  readonly readyCount: number;
  readonly inLoad: Uint8Array;
  /** What the load leaves of the limit. */
  readonly room: number;
}

/**
 * Jackson's dominance (Jackson 1956; Scholl & Klein 1997): a load need not be looked at when one of its tasks could be
 * exchanged for a ready task outside it that is at least as long, has at least the same followers, and still fits.
 * Whatever plan follows the load, the exchanged plan is as good. Of equal tasks the smaller number goes first, so that
 * no two loads dominate each other.
 *
 * Supports every work: of two tasks that a constraint speaks of, the one taken out must be allowed wherever the other may stand, and the
 * station as it stands is asked whether it takes the other at no more people.
 */
export class Swaps {
  /** Row `task`: the tasks it may replace. */
  private readonly replaces: Int32Array;
  /** For each task, the tasks that may replace it, the shortest first. */
  replacements: readonly Int32Array[] = [];

  private constructor(
    private readonly instance: Instance,
    private readonly freeOnly: boolean,
  ) {
    this.replaces = new Int32Array(instance.size * instance.words);
  }

  /**
   * Looks at all pairs of tasks; on a long line gives null now and then.
   *
   * @param freeOnly looks only at tasks that no constraint speaks of, whose swap is a matter of time alone
   */
  static *ofAll(instance: Instance, freeOnly = false): Generator<null, Swaps> {
    const swaps = new Swaps(instance, freeOnly);
    yield* swaps.lookAtPairs();
    swaps.replacements = swaps.listReplacements();
    return swaps;
  }

  private *lookAtPairs(): Generator<null> {
    const { size, words, after, followers } = this.instance;
    const firstAfter = Int32Array.from(after, (next) => next[0] ?? NONE);
    const atOnce = Math.ceil(PAIRS_AT_ONCE / Math.max(1, size));
    for (let task = 0; task < size; task++) {
      if (task % atOnce === atOnce - 1) yield null;
      for (let other = 0; other < size; other++) {
        // Most pairs differ in what follows at once, which is seen before all that follows is compared.
        const next = firstAfter[other]!;
        if (next !== NONE && !hasTask(followers, task * words, next)) continue;
        if (this.mayReplace(task, other)) addTask(this.replaces, task * words, other);
      }
    }
  }

  private mayReplace(task: number, other: number): boolean {
    const { times, followers, followerCounts, words } = this.instance;
    if (task === other || times[task]! < times[other]! || followerCounts[task]! < followerCounts[other]!)
      return false;
    if (followerCounts[other]! > 0 && !isWithin(followers, other * words, followers, task * words, words))
      return false;
    if (!this.mayStandFor(other, task)) return false;
    if (times[task]! > times[other]! || followerCounts[task]! > followerCounts[other]!) return true;
    return task < other;
  }

  private mayStandFor(other: number, task: number): boolean {
    const { rules } = this.instance;
    if (rules === null) return true;
    if (this.freeOnly) return rules.isFree[task] === 1 && rules.isFree[other] === 1;
    return rules.mayStandFor(other, task);
  }

  private listReplacements(): Int32Array[] {
    const { times, words } = this.instance;
    const shortestFirst = Int32Array.from(times.keys()).sort(
      (one, two) => times[one]! - times[two]! || one - two,
    );
    const lists = Array.from(times, (): number[] => []);
    for (const other of shortestFirst) {
      for (let word = 0; word < words; word++) {
        for (let rest = this.replaces[other * words + word]!; rest !== 0; rest &= rest - 1)
          lists[word * 32 + lowestBit(rest)]!.push(other);
      }
    }
    return lists.map((list) => Int32Array.from(list));
  }

  /** The least gain when the task replaces one of the first `count` of a load; infinite where it may replace none. */
  leastGain(task: number, load: Int32Array, count: number): number {
    const { times, words } = this.instance;
    let longest = Number.NEGATIVE_INFINITY;
    for (let at = 0; at < count; at++) {
      const other = load[at]!;
      if (times[other]! > longest && hasTask(this.replaces, task * words, other)) longest = times[other]!;
    }
    return times[task]! - longest;
  }

  /** Whether a swap improves on the current load of the walk. */
  dominate({ ready, readyCount, inLoad, load, count, room }: Load): boolean {
    const { times, words, rules } = this.instance;
    for (let at = 0; at < readyCount; at++) {
      const task = ready[at]!;
      if (inLoad[task] === 1) continue;
      const own = times[task]!;
      for (let place = 0; place < count; place++) {
        const other = load[place]!;
        const longer = own - times[other]!;
        if (longer < 0 || longer > room || !hasTask(this.replaces, task * words, other)) continue;
        if (rules === null || fitsInPlaceOf(rules, task, other)) return true;
      }
    }
    return false;
  }
}

const NONE = -1;
/** Pairs of tasks between two looks at the clock. */
const PAIRS_AT_ONCE = 1_000_000;

/** Whether the open station takes one task in place of another, with no more places and people. */
function fitsInPlaceOf({ station, blockOf }: TaskRules, task: number, other: number): boolean {
  const before = station.closings();
  station.leave(blockOf[other]!);
  let fits = station.canTake(blockOf[task]!);
  if (fits) {
    station.take(blockOf[task]!);
    const after = station.closings();
    fits = takeNoMore(after, before);
    station.leave(blockOf[task]!);
  }
  station.take(blockOf[other]!);
  return fits;
}
