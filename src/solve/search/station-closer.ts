import { drawNumbers } from "../level/draw-numbers.js";
import { GroupLoops } from "./group-loops.js";
import { Groups } from "./groups.js";
import type { Instance } from "./instance.js";
import { Joins, NOBODY } from "./joins.js";

/**
 * Closes one station of a plan after the other (the ejection pool of Nagata & Bräysy 2009, from routes to stations). The
 * tasks of the least loaded station wait; each in turn joins a group with room for it, or takes the place of a task or two that then
 * wait in its stead: those that were hard to place least often. Swaps and moves at random in between keep the
 * groups from settling. When nobody waits, the plan has a station less. The numbers drawn are the same in every run.
 */
export class StationCloser {
  /** Groups are asked nothing but whether they have the time: works whose instances have no rules. */
  static suit({ rules }: Pick<Instance, "rules">): boolean {
    return rules === null;
  }

  /** Turns of waiting tasks so far. */
  nodes = 0;
  /** The best plan in the instance's task numbers. */
  best: readonly (readonly number[])[];
  private readonly groups: Groups;
  private readonly joins: Joins;
  private readonly loops: GroupLoops;
  private readonly draw = drawNumbers();
  /** Tasks that wait, each in a group of its own; the last has its turn first. */
  private readonly waiting: number[] = [];
  private readonly waits: Uint8Array;
  /** How often each task found no room. */
  private readonly failures: Int32Array;
  private readonly choice: Choice = {
    group: NOBODY,
    leaves: NOBODY,
    leavesToo: NOBODY,
    failures: 0,
    ties: 0,
  };

  /** Stations of a valid plan, in the instance's task numbers. */
  constructor(
    private readonly instance: Instance,
    plan: readonly (readonly number[])[],
  ) {
    this.best = plan;
    this.groups = new Groups(instance, plan);
    this.joins = new Joins(instance, this.groups);
    this.loops = new GroupLoops(instance, this.groups);
    this.waits = new Uint8Array(instance.size);
    this.failures = new Int32Array(instance.size);
    this.closeLeastLoaded();
  }

  /** Goes on for so many turns of a task at most; true as soon as there is a better plan. */
  run(turns: number): boolean {
    for (const end = this.nodes + turns; this.nodes < end; ) {
      this.nodes++;
      this.place(this.waiting.pop()!);
      if (this.waiting.length > 0) continue;
      this.best = this.groups.plan();
      if (this.best.length > 1) this.closeLeastLoaded();
      return true;
    }
    return false;
  }

  private closeLeastLoaded(): void {
    const { members, loads } = this.groups;
    let least = NOBODY;
    for (let group = 0; group < members.length; group++) {
      if (members[group]!.length > 0 && (least < 0 || loads[group]! < loads[least]!)) least = group;
    }
    this.failures.fill(0);
    const longestLast = members[least]!.toSorted(
      (one, two) => this.instance.times[one]! - this.instance.times[two]! || one - two,
    );
    for (const task of longestLast) this.wait(task);
  }

  private wait(task: number): void {
    if (this.groups.members[this.groups.groupOf[task]!]!.length > 1) this.groups.isolate(task);
    this.waits[task] = 1;
    this.waiting.push(task);
  }

  private place(task: number): void {
    this.joins.lookFrom(task);
    const roomy = this.fullestWithRoom(task);
    if (roomy >= 0) {
      this.join(task, roomy);
      return;
    }
    this.failures[task]!++;
    if (this.chooseEjection(task)) {
      const { group, leaves, leavesToo } = this.choice;
      this.join(task, group);
      if (leaves >= 0) this.wait(leaves);
      if (leavesToo >= 0) this.wait(leavesToo);
    } else {
      this.waiting.unshift(task);
    }
    this.groups.sort();
    for (let tries = 0; tries < SHAKES; tries++) this.shake();
  }

  private join(task: number, group: number): void {
    this.waits[task] = 0;
    this.groups.move(task, group);
  }

  private isOpenTo(task: number, group: number): boolean {
    const tasks = this.groups.members[group]!;
    return tasks.length > 0 && tasks[0] !== task && this.waits[tasks[0]!] === 0;
  }

  /** The fullest group that the task fits, of equals one at random. */
  private fullestWithRoom(task: number): number {
    const { loads } = this.groups;
    const most = this.instance.limit - this.instance.times[task]!;
    let fullest = NOBODY;
    let ties = 0;
    for (let group = 0; group < loads.length; group++) {
      if (loads[group]! > most || (fullest >= 0 && loads[group]! < loads[fullest]!)) continue;
      if (!this.isOpenTo(task, group) || !this.joins.allow(group)) continue;
      if (fullest < 0 || loads[group]! > loads[fullest]!) ties = 0;
      if (this.draw(++ties) === 0) fullest = group;
    }
    return fullest;
  }

  /** Chooses the group, and the one or two tasks of it, that failed least often; of equals one choice at random. */
  private chooseEjection(task: number): boolean {
    const { members, loads } = this.groups;
    const { failures, choice } = this;
    const { times, limit } = this.instance;
    choice.group = NOBODY;
    choice.failures = Number.POSITIVE_INFINITY;
    for (let group = 0; group < members.length; group++) {
      if (!this.isOpenTo(task, group)) continue;
      const tasks = members[group]!;
      const missing = loads[group]! + times[task]! - limit;
      for (let at = 0; at < tasks.length; at++) {
        const one = tasks[at]!;
        if (failures[one]! >= choice.failures) continue;
        if (times[one]! >= missing) {
          this.consider(group, one, NOBODY);
          continue;
        }
        for (let next = at + 1; next < tasks.length; next++) {
          const two = tasks[next]!;
          if (times[two]! < missing && times[one]! + times[two]! >= missing) this.consider(group, one, two);
        }
      }
    }
    return this.choice.group >= 0;
  }

  private consider(group: number, leaves: number, leavesToo: number): void {
    const { choice, failures } = this;
    const own = failures[leaves]! + 1 + (leavesToo < 0 ? 0 : failures[leavesToo]! + 1);
    if (own > choice.failures) return;
    if (own < choice.failures) choice.ties = 0;
    else if (this.draw(choice.ties + 1) > 0) return;
    if (!this.joins.allow(group, leaves, leavesToo)) return;
    choice.ties++;
    choice.group = group;
    choice.leaves = leaves;
    choice.leavesToo = leavesToo;
    choice.failures = own;
  }

  /** Lets two tasks at random change places, or one go to the other's group, where that is allowed. */
  private shake(): void {
    const { draw, groups, waits } = this;
    const { times, limit, size } = this.instance;
    const one = draw(size);
    const two = draw(2) === 0 ? draw(size) : this.drawNear(one);
    const [first, second] = [groups.groupOf[one]!, groups.groupOf[two]!];
    if (first === second || waits[one] === 1 || waits[two] === 1) return;
    if (groups.loads[second]! + times[one]! <= limit) {
      if (groups.members[first]!.length > 1) this.tryMove(one, first, second);
      return;
    }
    const longer = times[one]! - times[two]!;
    if (groups.loads[first]! - longer > limit || groups.loads[second]! + longer > limit) return;
    groups.swap(one, two);
    if (this.loops.runThrough(first, second)) groups.swapBack(one, two);
    else groups.sortAfter(first, second);
  }

  /** A task of a group near that of the task. */
  private drawNear(one: number): number {
    const { groups, draw } = this;
    const place = groups.places[groups.groupOf[one]!]! + draw(2 * NEAR + 1) - NEAR;
    if (place < 0 || place >= groups.count) return one;
    const tasks = groups.members[groups.inOrder[place]!]!;
    return tasks[draw(tasks.length)]!;
  }

  private tryMove(task: number, from: number, to: number): void {
    this.groups.move(task, to);
    if (this.loops.runThrough(from, to)) this.groups.moveBack(task, from);
    else this.groups.sortAfter(from, to);
  }
}

interface Choice {
  group: number;
  leaves: number;
  leavesToo: number;
  failures: number;
  ties: number;
}

/** Pairs of tasks that may change places after each turn that found no room. */
const SHAKES = 20;
/** Every other pair is of groups at most so many places apart, where a swap rarely makes a loop. */
const NEAR = 16;
