import { Matching } from "../bounds/matching.js";
import { hasTask } from "./bit-sets.js";
import type { Instance } from "./instance.js";

/**
 * A bound from tasks longer than a third of the limit: a station holds at most two of them, and only two that fit
 * together with everything that must be worked between them. A largest matching of such pairs says how many stations
 * the tasks need at least. Where very many tasks are so long it is left out, as a matching may take the cube of them.
 */
export class Pairs {
  private readonly tasks: Int32Array;
  private readonly matching: Matching;
  private readonly partners: Int32Array[] = [];

  constructor(instance: Instance) {
    const { limit, times } = instance;
    const long = Int32Array.from(times.keys()).filter((task) => times[task]! > limit - 2 * times[task]!);
    this.tasks = long.length <= MOST_LONG ? long : long.subarray(0, 0);
    const neighbours = Array.from(this.tasks, (): number[] => []);
    for (let one = 0; one < this.tasks.length; one++) {
      for (let two = one + 1; two < this.tasks.length; two++) {
        if (!shareStation(instance, this.tasks[one]!, this.tasks[two]!)) continue;
        neighbours[one]!.push(two);
        neighbours[two]!.push(one);
      }
    }
    this.matching = new Matching(neighbours.map((list) => Int32Array.from(list)));
  }

  /** Stations that the long tasks of the whole line need. */
  get stations(): number {
    this.matching.present.fill(1);
    return this.matching.fewestParts();
  }

  /** Whether the long tasks outside the set may do with so many stations. */
  allow(sets: Int32Array, offset: number, stations: number): boolean {
    let left = 0;
    for (let at = 0; at < this.tasks.length; at++) {
      const present = hasTask(sets, offset, this.tasks[at]!) ? 0 : 1;
      this.matching.present[at] = present;
      left += present;
    }
    if (left <= stations) return true;
    // Partial plans with as many stations left have much the same tasks left: their pairs are a good start.
    this.partners[stations] ??= new Int32Array(this.tasks.length).fill(-1);
    this.matching.partner = this.partners[stations];
    return this.matching.coversWith(stations);
  }
}

const MOST_LONG = 3_000;

/** `one` has the smaller number, so it can only come first. */
function shareStation({ times, limit, followers, words }: Instance, one: number, two: number): boolean {
  let room = limit - times[one]! - times[two]!;
  if (room < 0 || !hasTask(followers, one * words, two)) return room >= 0;
  for (let task = one + 1; task < two && room >= 0; task++) {
    if (hasTask(followers, one * words, task) && hasTask(followers, task * words, two)) room -= times[task]!;
  }
  return room >= 0;
}
