import type { Groups } from "./groups.js";
import type { Instance } from "./instance.js";

/** Finds loops between groups of which two have exchanged tasks since the groups were put in order. */
export class GroupLoops {
  private readonly seen: Int32Array;
  private stamp = 0;
  private readonly stack: number[] = [];

  constructor(
    private readonly instance: Instance,
    private readonly groups: Groups,
  ) {
    this.seen = new Int32Array(instance.size);
  }

  /** Whether there is a loop, which can only run through one of these two groups. */
  runThrough(one: number, two: number): boolean {
    // All other groups are in order: nothing behind the last group before the two leads back to them.
    const last = Math.max(this.lastBefore(one, two), this.lastBefore(two, one));
    const fromOne = this.walk(one, two, last);
    if (fromOne === "itself") return true;
    const fromTwo = this.walk(two, one, last);
    return fromTwo === "itself" || (fromOne === "other" && fromTwo === "other");
  }

  private lastBefore(group: number, other: number): number {
    const { groupOf, members, places } = this.groups;
    let last = -1;
    for (const task of members[group]!) {
      for (const earlier of this.instance.before[task]!) {
        const from = groupOf[earlier]!;
        if (from !== group && from !== other && places[from]! > last) last = places[from]!;
      }
    }
    return last;
  }

  /** Where the arrows lead from the group, through groups up to the place `last`. */
  private walk(start: number, other: number, last: number): "itself" | "other" | "nowhere" {
    const { groupOf, members, places } = this.groups;
    const { stack, seen } = this;
    const stamp = ++this.stamp;
    let meetsOther = false;
    stack.push(start);
    while (stack.length > 0) {
      const from = stack.pop()!;
      for (const task of members[from]!) {
        for (const later of this.instance.after[task]!) {
          const group = groupOf[later]!;
          if (group === from) continue;
          if (group === start) {
            stack.length = 0;
            return "itself";
          }
          if (group === other) meetsOther = true;
          else if (seen[group] !== stamp && places[group]! <= last) {
            seen[group] = stamp;
            stack.push(group);
          }
        }
      }
    }
    return meetsOther ? "other" : "nowhere";
  }
}
