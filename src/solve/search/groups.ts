import type { Instance } from "./instance.js";

/**
 * All tasks of a line in groups that can each be a station. What is before and after holds between groups as soon as it holds
 * between two of their tasks; as long as that makes no loop, the groups can be put in an order and are a plan. Which place
 * a group has in the line is therefore open, and a task may join any group that keeps the whole free of loops.
 */
export class Groups {
  readonly groupOf: Int32Array;
  /** The tasks of each group, empty for groups not in use; there is room for one group a task. */
  readonly members: readonly number[][];
  readonly loads: Float64Array;
  /** The place of each group in an order that respects all arrows, as of the last `sort`. */
  readonly places: Int32Array;
  /** The groups in that order, `count` of them. */
  readonly inOrder: Int32Array;
  private readonly unused: number[] = [];
  private isSorted = false;
  private readonly waitsFor: Int32Array;
  /** All arrows of the line, each the task before and the task after. */
  private readonly arrows: Int32Array;
  private readonly between: Int32Array;

  /** Stations of a valid plan, in the instance's task numbers. */
  constructor(
    private readonly instance: Instance,
    plan: readonly (readonly number[])[],
  ) {
    const { size, times } = instance;
    this.groupOf = new Int32Array(size);
    this.members = Array.from({ length: size }, (_, group) => [...(plan[group] ?? [])]);
    this.loads = new Float64Array(size);
    this.places = new Int32Array(size);
    this.waitsFor = new Int32Array(size);
    this.inOrder = new Int32Array(size);
    this.between = new Int32Array(size);
    this.arrows = Int32Array.from(
      instance.after.flatMap((later, task) => [...later].flatMap((each) => [task, each])),
    );
    for (let group = size - 1; group >= 0; group--) {
      if (this.members[group]!.length === 0) this.unused.push(group);
      for (const task of this.members[group]!) {
        this.groupOf[task] = group;
        this.loads[group]! += times[task]!;
      }
    }
  }

  /** How many groups are in use. */
  get count(): number {
    return this.instance.size - this.unused.length;
  }

  move(task: number, to: number): void {
    const from = this.groupOf[task]!;
    const left = this.members[from]!;
    // The others keep their order.
    for (let at = left.indexOf(task) + 1; at < left.length; at++) left[at - 1] = left[at]!;
    left.pop();
    this.members[to]!.push(task);
    this.groupOf[task] = to;
    this.loads[from]! -= this.instance.times[task]!;
    this.loads[to]! += this.instance.times[task]!;
    this.isSorted = false;
    if (left.length === 0) this.unused.push(from);
  }

  /** Makes a group of its own for the task, which is not alone; this never makes a loop. */
  isolate(task: number): void {
    this.move(task, this.unused.pop()!);
  }

  swap(one: number, two: number): void {
    const { groupOf, loads, members } = this;
    const [first, second] = [groupOf[one]!, groupOf[two]!];
    const longer = this.instance.times[two]! - this.instance.times[one]!;
    members[first]![members[first]!.indexOf(one)] = two;
    members[second]![members[second]!.indexOf(two)] = one;
    groupOf[one] = second;
    groupOf[two] = first;
    loads[first]! += longer;
    loads[second]! -= longer;
    this.isSorted = false;
  }

  /** Undoes the swap of these two, the only change since the last `sort`. */
  swapBack(one: number, two: number): void {
    this.swap(one, two);
    this.isSorted = true;
  }

  /** Undoes the move of the task from this group, the only change since the last `sort`. */
  moveBack(task: number, from: number): void {
    this.move(task, from);
    this.isSorted = true;
  }

  /** Puts the groups in order, unless nothing has changed since the last time. There must be no loop. */
  sort(): void {
    if (this.isSorted) return;
    this.isSorted = true;
    const { groupOf, members, waitsFor, arrows } = this;
    waitsFor.fill(0);
    for (let at = 0; at < arrows.length; at += 2) {
      const later = groupOf[arrows[at + 1]!]!;
      if (groupOf[arrows[at]!] !== later) waitsFor[later]!++;
    }
    let end = 0;
    for (let group = 0; group < members.length; group++)
      if (members[group]!.length > 0 && waitsFor[group] === 0) this.inOrder[end++] = group;
    this.goThrough(0, end);
  }

  /** Puts the groups in order after a swap or a move between two of them, the only change since the last time. */
  sortAfter(one: number, two: number): void {
    this.isSorted = true;
    const { groupOf, members, places, waitsFor, inOrder } = this;
    const first = Math.min(places[one]!, places[two]!);
    const last = Math.max(places[one]!, places[two]!);
    for (let place = first; place <= last; place++) {
      const group = inOrder[place]!;
      let waits = 0;
      for (const task of members[group]!) {
        for (const earlier of this.instance.before[task]!) {
          const from = groupOf[earlier]!;
          if (from !== group && places[from]! >= first && places[from]! <= last) waits++;
        }
      }
      waitsFor[group] = waits;
      this.between[place - first] = group;
    }
    // Groups behind the last place wait for something that never comes up here.
    let end = first;
    for (let at = 0; at <= last - first; at++)
      if (waitsFor[this.between[at]!] === 0) inOrder[end++] = this.between[at]!;
    this.goThrough(first, end);
  }

  /** Goes on along the arrows from the groups that wait for nothing, which are in order from `first` to `end`. */
  private goThrough(first: number, end: number): void {
    const { groupOf, members, waitsFor, inOrder, places } = this;
    const { after } = this.instance;
    let known = end;
    for (let place = first; place < known; place++) {
      const group = inOrder[place]!;
      places[group] = place;
      const tasks = members[group]!;
      for (let at = 0; at < tasks.length; at++) {
        const arrows = after[tasks[at]!]!;
        for (let to = 0; to < arrows.length; to++) {
          const other = groupOf[arrows[to]!]!;
          if (other !== group && --waitsFor[other]! === 0) inOrder[known++] = other;
        }
      }
    }
  }

  /** The groups in order; tasks of a group ascend, which respects their arrows. */
  plan(): number[][] {
    this.sort();
    const plan: number[][] = Array.from({ length: this.count });
    for (const [group, tasks] of this.members.entries()) {
      if (tasks.length > 0) plan[this.places[group]!] = tasks.toSorted((one, two) => one - two);
    }
    return plan;
  }
}
