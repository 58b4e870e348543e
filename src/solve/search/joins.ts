import { hasTask } from "./bit-sets.js";
import type { Groups } from "./groups.js";
import type { Instance } from "./instance.js";

/**
 * Which groups one task, now in a group of its own, may join without a loop: those that no way of two or more steps leads
 * to from the task or from which none leads to it, after what is to leave the group has left.
 */
export class Joins {
  private readonly onward: Reach;
  private readonly backward: Reach;

  constructor(
    private readonly instance: Instance,
    private readonly groups: Groups,
  ) {
    this.onward = new Reach(instance.after, groups);
    this.backward = new Reach(instance.before, groups);
  }

  /** Looks at this task until the groups change. */
  lookFrom(task: number): void {
    this.onward.start(task);
    this.backward.start(task);
  }

  /** Whether the task may join the group once these two of its tasks, NOBODY for none, stand alone. */
  allow(group: number, leaves: number = NOBODY, leavesToo: number = NOBODY): boolean {
    const { onward, backward } = this;
    const tasks = this.groups.members[group]!;
    for (let at = 0; at < tasks.length; at++) {
      const task = tasks[at]!;
      if (task === leaves || task === leavesToo) continue;
      if (onward.isFar(task) || backward.isFar(task)) return false;
    }
    return (
      (leaves === NOBODY || this.mayLeave(leaves, tasks, leavesToo)) &&
      (leavesToo === NOBODY || this.mayLeave(leavesToo, tasks, leaves))
    );
  }

  /** False where the task lies between those that stay and the one that joins, which would make a loop. */
  private mayLeave(leaves: number, tasks: readonly number[], leavesToo: number): boolean {
    const { followers, words } = this.instance;
    let isAfter = this.onward.isMet(leaves);
    let isBefore = this.backward.isMet(leaves);
    for (const task of tasks) {
      if (task === leaves || task === leavesToo) continue;
      isAfter ||= hasTask(followers, task * words, leaves);
      isBefore ||= hasTask(followers, leaves * words, task);
    }
    return !(isAfter && isBefore);
  }
}

export const NOBODY = -1;

/** The tasks that arrows lead to from one task, group by group, in one direction. */
class Reach {
  /** Met over one arrow; met over an arrow from another group. */
  private readonly near: Int32Array;
  private readonly far: Int32Array;
  private readonly seen: Int32Array;
  private readonly stack: Int32Array;
  private stamp = 0;
  private height = 0;

  constructor(
    private readonly arrows: readonly Int32Array[],
    private readonly groups: Groups,
  ) {
    this.near = new Int32Array(arrows.length);
    this.far = new Int32Array(arrows.length);
    this.seen = new Int32Array(arrows.length);
    this.stack = new Int32Array(arrows.length);
  }

  isFar(task: number): boolean {
    return this.far[task] === this.stamp;
  }

  isMet(task: number): boolean {
    return this.far[task] === this.stamp || this.near[task] === this.stamp;
  }

  start(task: number): void {
    const { stack, groups, arrows } = this;
    this.stamp++;
    this.meet(arrows[task]!, this.near, NOBODY);
    while (this.height > 0) {
      const group = stack[--this.height]!;
      const tasks = groups.members[group]!;
      for (let at = 0; at < tasks.length; at++) this.meet(arrows[tasks[at]!]!, this.far, group);
    }
  }

  private meet(tasks: Int32Array, met: Int32Array, from: number): void {
    const { stamp, seen, stack } = this;
    const { groupOf } = this.groups;
    for (let at = 0; at < tasks.length; at++) {
      const task = tasks[at]!;
      const group = groupOf[task]!;
      if (group === from) continue;
      met[task] = stamp;
      if (seen[group] === stamp) continue;
      seen[group] = stamp;
      stack[this.height++] = group;
    }
  }
}
