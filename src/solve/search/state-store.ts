import { type Aim, STATIONS_FIRST } from "../cost.js";
import type { Carried } from "../station/constraint.js";
import type { TaskRules } from "../station/task-rules.js";
import type { Instance } from "./instance.js";
import { Leaves } from "./leaves.js";
import { taskHashes } from "./task-hashes.js";

/** What a partial plan has come to beside its tasks and stations where a line asks more of its stations than time. */
export interface Reach {
  readonly people: number;
  /** The next position to fill. */
  readonly position: number;
  readonly carried: Carried;
  /** Places of the last station; 0 where its position stays empty. */
  readonly places: number;
  /** The partial plan that this comes from by leaving positions empty; -1: none. */
  readonly origin: number;
}

/**
 * The memory of the search: the sets of tasks that partial plans have assigned, with the fewest stations they took. Of
 * two sets with the same tasks that have followers, one that is dominated by the other (see Leaves) is not kept: it is
 * refused, or dropped when it came first. Sets are found by a hash of their tasks with followers and always compared
 * word by word. A state is its number; numbers ascend.
 */
export class StateStore {
  count = 0;
  sets: Int32Array;
  /** Stations used, and the state before the last of them (-1 for the empty plan). */
  stations: Int32Array;
  parents: Int32Array;
  /** Hashes of the tasks with followers. */
  hashes: Int32Array;
  /** Time of the tasks of the set. */
  work: Float64Array;
  /** People used; on a plain line the stations. */
  people: Int32Array;
  /** The next position to fill; on a plain line the stations. */
  positions: Int32Array;
  /** What the last station hands on, and its places; empty on a plain line. */
  readonly carried: Carried[] = [];
  readonly places: number[] = [];
  /** Person-time of the tasks of the set. */
  readonly personWork: number[] = [];
  /** The state that this one comes from by leaving positions empty, or the state itself; empty on a plain line. */
  readonly origins: number[] = [];
  /** 1 for states that a later one dominates. */
  dropped: Uint8Array;
  /** What each task adds to the hash of a set, by exclusive or; nothing for a leaf. */
  readonly taskHashes: Int32Array;
  /** The next state with the same tasks that have followers. */
  private next: Int32Array;
  /** The first state of each such list. */
  private slots: Int32Array;
  private lists = 0;
  private readonly words: number;
  private readonly leaves: Leaves;
  private readonly rules: TaskRules | null;

  /** @param aim what costs first; people and stations are one on a plain line */
  constructor(
    instance: Instance,
    private readonly most: number,
    private readonly aim: Aim = STATIONS_FIRST,
  ) {
    this.rules = instance.rules;
    this.words = instance.words;
    this.leaves = new Leaves(instance);
    this.taskHashes = taskHashes(instance.size);
    for (let task = 0; task < instance.size; task++) if (this.leaves.isLeaf(task)) this.taskHashes[task] = 0;
    this.sets = new Int32Array(FIRST_SIZE * this.words);
    this.stations = new Int32Array(FIRST_SIZE);
    this.people = this.rules === null ? this.stations : new Int32Array(FIRST_SIZE);
    this.positions = this.rules === null ? this.stations : new Int32Array(FIRST_SIZE);
    this.parents = new Int32Array(FIRST_SIZE);
    this.hashes = new Int32Array(FIRST_SIZE);
    this.work = new Float64Array(FIRST_SIZE);
    this.dropped = new Uint8Array(FIRST_SIZE);
    this.next = new Int32Array(FIRST_SIZE);
    this.slots = new Int32Array(FIRST_SIZE * 4).fill(NONE);
  }

  get full(): boolean {
    return this.count >= this.most;
  }

  /**
   * Remembers a set reached with so many stations after `parent`, its tasks taking `work`. Gives the new state, or -1
   * when a state with no more stations dominates it.
   */
  remember(
    set: Int32Array,
    hash: number,
    stations: number,
    parent: number,
    work: number,
    reach: Reach | null = null,
  ): number {
    const slot = this.slotOf(set, 0, hash, NONE);
    const first = this.slots[slot]!;
    let before = NONE;
    for (let state = first; state !== NONE; state = this.next[state]!) {
      const offset = state * this.words;
      // Leaves that can be paired take no more time than those they are paired with.
      const more = this.work[state]! - work;
      const later = this.stations[state]! - stations;
      if (
        more >= 0 &&
        (reach === null ? later <= 0 : this.costsNoMore(state, stations, reach)) &&
        this.leaves.canPair(this.sets, offset, set, 0)
      )
        return NONE;
      if (
        more <= 0 &&
        (reach === null ? later >= 0 : this.costsNoLess(state, stations, reach)) &&
        this.leaves.canPair(set, 0, this.sets, offset)
      )
        this.drop(state, before, slot);
      else before = state;
    }
    if (first === NONE) this.lists++;
    const state = this.add(set, hash, stations, parent, work);
    if (reach !== null) this.addReach(state, reach);
    this.next[state] = this.slots[slot]!;
    this.slots[slot] = state;
    if (this.lists * 2 > this.slots.length) this.rehash();
    return state;
  }

  /** Whether some state dominates this one with one more task that has followers, in no more stations. */
  dominatesWith(task: number, state: number): boolean {
    const { sets, words } = this;
    const slot = this.slotOf(sets, state * words, this.hashes[state]! ^ this.taskHashes[task]!, task);
    // The place that the task had in any plan from `state` is free for a leaf no longer than the task.
    const spare = this.leaves.noLonger[task]!;
    for (let other = this.slots[slot]!; other !== NONE; other = this.next[other]!) {
      if (this.work[other]! < this.work[state]! || !this.reachesNoFurther(other, state)) continue;
      if (this.leaves.canPair(sets, other * words, sets, state * words, spare)) return true;
    }
    return false;
  }

  /** Whether the first costs no more, stands no later and hands on nothing worse than the second. */
  private reachesNoFurther(one: number, two: number): boolean {
    if (this.rules === null) return this.stations[one]! <= this.stations[two]!;
    return (
      this.costDifference(one, this.people[two]!, this.stations[two]!) <= 0 &&
      (!this.rules.work.isPositional || this.positions[one]! <= this.positions[two]!) &&
      this.rules.station.isNoWorse(this.carried[one]!, this.carried[two]!)
    );
  }

  private costsNoMore(
    state: number,
    stations: number,
    { people, position, carried, origin }: Reach,
  ): boolean {
    return (
      this.costDifference(state, people, stations) <= 0 &&
      (!this.rules!.work.isPositional || this.positions[state]! <= position) &&
      this.origins[state] !== origin &&
      this.rules!.station.isNoWorse(this.carried[state]!, carried)
    );
  }

  private costsNoLess(
    state: number,
    stations: number,
    { people, position, carried, origin }: Reach,
  ): boolean {
    return (
      this.costDifference(state, people, stations) >= 0 &&
      (!this.rules!.work.isPositional || this.positions[state]! >= position) &&
      this.origins[state] !== origin &&
      this.rules!.station.isNoWorse(carried, this.carried[state]!)
    );
  }

  private costDifference(state: number, people: number, stations: number): number {
    const more = { people: this.people[state]! - people, stations: this.stations[state]! - stations };
    return this.aim.reduce((difference, name) => difference || more[name], 0);
  }

  private addReach(state: number, { people, position, carried, places, origin }: Reach): void {
    this.people[state] = people;
    this.positions[state] = position;
    this.carried[state] = carried;
    this.places[state] = places;
    this.origins[state] = origin < 0 ? state : origin;
  }

  /** Whether some state with the tasks with followers of this set dominates it in no more stations than `state`. */
  dominatesAs(set: Int32Array, hash: number, state: number): boolean {
    const slot = this.slotOf(set, 0, hash, NONE);
    for (let other = this.slots[slot]!; other !== NONE; other = this.next[other]!) {
      if (this.stations[other]! > this.stations[state]! || this.work[other]! < this.work[state]!) continue;
      if (this.leaves.canPair(this.sets, other * this.words, set, 0)) return true;
    }
    return false;
  }

  /** The slot of the states whose tasks with followers are those of the set and `task`, or the free slot for them. */
  private slotOf(sets: Int32Array, offset: number, hash: number, task: number): number {
    const { slots } = this;
    const mask = slots.length - 1;
    let slot = hash & mask;
    for (; slots[slot] !== NONE; slot = (slot + 1) & mask) {
      const state = slots[slot]!;
      if (this.hashes[state] === hash && this.holds(state, sets, offset, task)) break;
    }
    return slot;
  }

  private holds(state: number, sets: Int32Array, offset: number, task: number): boolean {
    const { others } = this.leaves;
    const own = state * this.words;
    for (let word = 0; word < this.words; word++) {
      const differ = (this.sets[own + word]! ^ sets[offset + word]!) & others[word]!;
      if (differ !== (task >>> 5 === word ? 1 << (task & 31) : 0)) return false;
    }
    return true;
  }

  private drop(state: number, before: number, slot: number): void {
    this.dropped[state] = 1;
    if (before === NONE) this.slots[slot] = this.next[state]!;
    else this.next[before] = this.next[state]!;
  }

  private add(set: Int32Array, hash: number, stations: number, parent: number, work: number): number {
    const state = this.count++;
    if (state === this.stations.length) this.grow();
    this.sets.set(set, state * this.words);
    this.stations[state] = stations;
    this.parents[state] = parent;
    this.hashes[state] = hash;
    this.work[state] = work;
    return state;
  }

  private grow(): void {
    const size = this.stations.length * 2;
    this.sets = enlarge(this.sets, new Int32Array(size * this.words));
    this.stations = enlarge(this.stations, new Int32Array(size));
    this.people = this.rules === null ? this.stations : enlarge(this.people, new Int32Array(size));
    this.positions = this.rules === null ? this.stations : enlarge(this.positions, new Int32Array(size));
    this.parents = enlarge(this.parents, new Int32Array(size));
    this.hashes = enlarge(this.hashes, new Int32Array(size));
    this.work = enlarge(this.work, new Float64Array(size));
    this.dropped = enlarge(this.dropped, new Uint8Array(size));
    this.next = enlarge(this.next, new Int32Array(size));
  }

  private rehash(): void {
    const slots = new Int32Array(this.slots.length * 4).fill(NONE);
    for (const state of this.slots) {
      if (state === NONE) continue;
      let slot = this.hashes[state]! & (slots.length - 1);
      while (slots[slot] !== NONE) slot = (slot + 1) & (slots.length - 1);
      slots[slot] = state;
    }
    this.slots = slots;
  }
}

const FIRST_SIZE = 1024;
const NONE = -1;

function enlarge<Numbers extends Int32Array | Float64Array | Uint8Array>(
  from: Numbers,
  to: Numbers,
): Numbers {
  to.set(from);
  return to;
}
