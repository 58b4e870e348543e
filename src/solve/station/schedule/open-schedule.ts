import type { ScheduleLimits } from "./schedule-problem.js";
import type { StationTasks } from "./station-tasks.js";

/** Sums over all units, in parts. */
interface Sums {
  readonly dwell: number;
  /** With sides, when the last hands end. */
  readonly hands: number;
}

/**
 * The schedule of a station under way: tasks are put to their people one after another, each to the earliest time at which its people
 * are free, the tasks before it have ended and its equipment is free, in every row by itself. What was put last can be taken back.
 *
 * People are bits of a mask. Two holds of one name never overlap: a hold once begun is put to its end before another begins, as any
 * order of work without a circle can be listed so.
 */
export class OpenSchedule {
  depth = 0;
  readonly persons: number;
  readonly isTaken: Uint8Array;
  /** By depth the task and its people. */
  readonly taken: Int32Array;
  readonly masks: Int32Array;
  /** How many tasks before each are still to be put. */
  private readonly missing: Int32Array;
  /** By depth, row and person: when each is free; by depth and person: what each is loaded with, and of each model. */
  private readonly free: Float64Array;
  private readonly busy: Float64Array;
  private readonly busyOf: Float64Array;
  /** By depth, row and task: when what comes before it has ended. */
  private readonly ready: Float64Array;
  /** By depth and row: no sooner does the station end. */
  private readonly chain: Float64Array;
  /** By depth and row: hands ahead, each as often as it takes people; of those whose people are certain, by person. */
  private readonly ahead: Float64Array;
  private readonly fixedAhead: Float64Array;
  /** By depth, row and name: from when on its holds may begin, and when that begun last starts and ends; `span` is the sum of all holds so far. */
  private readonly nameFree: Float64Array;
  private readonly holdStart: Float64Array;
  private readonly holdEnd: Float64Array;
  private readonly span: Float64Array;
  /** By depth, row and name: what holds that are not begun take at the least. */
  private readonly holdsAhead: Float64Array;
  /** The hold of each name that is begun and not put to its end, and how many of its tasks are left; -1 where none is. */
  private readonly openHold: Int32Array;
  private readonly left: Int32Array[];
  /** By row, tasks by what follows their hands: the longest first. */
  private readonly byRest: readonly Int32Array[];
  private readonly modelSums: Float64Array;
  private readonly numbers: readonly number[];
  /** What `times` are written to. */
  private readonly list: Float64Array;
  private readonly models: number;

  constructor(
    readonly station: StationTasks,
    readonly limits: ScheduleLimits,
    /** The people that must do each task; 0 where they can be chosen. */
    readonly certain: Int32Array,
    /** How many people each task takes. */
    readonly people: Int32Array,
    /** Whether people have loads of their own. */
    readonly isShared: boolean,
  ) {
    const { size, rows, names, hands, tails } = station;
    const { persons } = limits;
    this.persons = persons;
    this.numbers = Array.from({ length: persons }, (_, person) => person);
    this.models = isShared ? station.problem.modelLoads.length : 0;
    const depths = size + 1;
    this.list = new Float64Array(
      persons * (1 + this.models) + rows * (persons + 1 + size + 2 * names.length),
    );
    this.isTaken = new Uint8Array(size);
    this.taken = new Int32Array(size);
    this.masks = new Int32Array(size);
    this.missing = Int32Array.from(station.before, (earlier) => earlier.length);
    this.free = new Float64Array(depths * rows * persons);
    this.busy = new Float64Array(depths * persons);
    this.busyOf = new Float64Array(depths * persons * this.models);
    this.ready = new Float64Array(depths * rows * size);
    this.chain = new Float64Array(depths * rows);
    this.ahead = new Float64Array(depths * rows);
    this.fixedAhead = new Float64Array(depths * rows * persons);
    const byName = () => new Float64Array(depths * rows * names.length);
    [this.nameFree, this.holdStart, this.holdEnd, this.holdsAhead] = [byName(), byName(), byName(), byName()];
    this.span = new Float64Array(depths * names.length);
    this.openHold = new Int32Array(names.length).fill(NONE);
    this.left = names.map(({ sizes }) => Int32Array.from(sizes));
    this.modelSums = new Float64Array(station.problem.isBuilt.length);
    this.byRest = Array.from({ length: rows }, (_, row) => {
      const rest = (task: number) => tails[row * size + task]! - hands[row * size + task]!;
      return Int32Array.from(hands.subarray(0, size).keys()).sort(
        (one, two) => rest(two) - rest(one) || one - two,
      );
    });
    for (let row = 0; row < rows; row++) {
      for (let task = 0; task < size; task++) {
        this.addAhead(row, row, task, 1);
        this.chain[row] = Math.max(this.chain[row]!, tails[row * size + task]!);
      }
      for (const [at, { least }] of names.entries())
        this.holdsAhead[row * names.length + at] = least[row]!.reduce((sum, each) => sum + each, 0);
    }
  }

  get isWhole(): boolean {
    return this.depth === this.station.size;
  }

  /** Whether what comes before the task is put, and no other hold of its equipment is begun. */
  mayPut(task: number): boolean {
    if (this.isTaken[task] === 1 || this.missing[task] !== 0) return false;
    for (const name of this.station.uses[task]!) {
      const open = this.openHold[name]!;
      if (open !== NONE && open !== this.station.names[name]!.holdOf[task]!) return false;
    }
    return true;
  }

  /** Whether everybody of the mask has time left for the task. */
  mayWork(task: number, mask: number): boolean {
    if (!this.isShared) return true;
    const { problem, tasks } = this.station;
    const [at, number] = [this.depth * this.persons, tasks[task]!];
    for (let person = 0; person < this.persons; person++) {
      if (((mask >>> person) & 1) === 0) continue;
      if (this.busy[at + person]! + problem.loads[number]! > this.limits.hands) return false;
      for (let model = 0; model < this.models; model++) {
        const own = this.busyOf[(at + person) * this.models + model]! + problem.modelLoads[model]![number]!;
        if (own > this.limits.models[model]!) return false;
      }
    }
    return true;
  }

  /** When the task would start in a row if these people did it next. */
  startOf(task: number, mask: number, row: number): number {
    const { size, rows, names, uses } = this.station;
    const at = this.depth * rows + row;
    let start = this.ready[at * size + task]!;
    for (let person = 0; person < this.persons; person++)
      if (((mask >>> person) & 1) === 1) start = Math.max(start, this.free[at * this.persons + person]!);
    for (const name of uses[task]!) start = Math.max(start, this.nameFree[at * names.length + name]!);
    return start;
  }

  /** Whether two people are alike so far. */
  areAlike(one: number, two: number): boolean {
    const { persons, depth, models } = this;
    const at = depth * persons;
    if (this.busy[at + one] !== this.busy[at + two]) return false;
    for (let model = 0; model < models; model++)
      if (this.busyOf[(at + one) * models + model] !== this.busyOf[(at + two) * models + model]) return false;
    for (let row = 0; row < this.station.rows; row++) {
      const from = (depth * this.station.rows + row) * persons;
      if (this.free[from + one] !== this.free[from + two]) return false;
    }
    return true;
  }

  put(task: number, mask: number): void {
    const { station, depth, persons } = this;
    const { rows, size, names, uses } = station;
    const [now, next] = [depth * rows, (depth + 1) * rows];
    copyOn(this.free, now * persons, rows * persons);
    copyOn(this.ready, now * size, rows * size);
    copyOn(this.ahead, now, rows);
    copyOn(this.fixedAhead, now * persons, rows * persons);
    for (const each of [this.nameFree, this.holdStart, this.holdEnd, this.holdsAhead])
      copyOn(each, now * names.length, rows * names.length);
    copyOn(this.span, depth * names.length, names.length);
    for (let row = 0; row < rows; row++) {
      const start = this.startOf(task, mask, row);
      const to = next + row;
      const hand = station.hands[row * size + task]!;
      const end = start + hand + station.machines[row * size + task]!;
      for (let person = 0; person < persons; person++)
        if (((mask >>> person) & 1) === 1) this.free[to * persons + person] = start + hand;
      for (const later of station.after[task]!)
        this.ready[to * size + later] = Math.max(this.ready[to * size + later]!, end);
      this.chain[to] = Math.max(this.chain[now + row]!, start + station.tails[row * size + task]!);
      this.addAhead(to, row, task, -1);
      for (const name of uses[task]!) this.hold(name, task, row, start, end);
    }
    for (const name of uses[task]!) {
      const hold = names[name]!.holdOf[task]!;
      this.openHold[name] = --this.left[name]![hold]! === 0 ? NONE : hold;
    }
    this.load(task, mask);
    for (const later of station.after[task]!) this.missing[later]!--;
    this.isTaken[task] = 1;
    this.taken[depth] = task;
    this.masks[depth] = mask;
    this.depth++;
  }

  takeBack(): void {
    const { station } = this;
    const task = this.taken[--this.depth]!;
    for (const later of station.after[task]!) this.missing[later]!++;
    this.isTaken[task] = 0;
    for (const name of station.uses[task]!) {
      const { holdOf, sizes } = station.names[name]!;
      const hold = holdOf[task]!;
      this.openHold[name] = ++this.left[name]![hold]! === sizes[hold]! ? NONE : hold;
    }
  }

  /** No sooner than this the station ends, whatever order goes on; infinite where a limit cannot be kept. */
  least(): Sums {
    const { station, limits } = this;
    this.modelSums.fill(0);
    let [dwell, hands] = [0, 0];
    for (let row = 0; row < station.rows; row++) {
      const end = this.endOf(row);
      if (station.isDwell[row]) dwell += end;
      if (!station.isHands[row]) continue;
      const model = station.modelOf[row]!;
      this.modelSums[model]! += end;
      if (station.problem.isBuilt[model]) hands += end;
    }
    const isOver =
      dwell > limits.dwell ||
      (station.problem.sides !== null && (hands > limits.hands || this.areModelsTooLong())) ||
      this.areHoldsTooLong();
    return isOver ? NEVER : { dwell, hands };
  }

  /** With sides: share x end of the last hands of each model, no sooner than this. */
  modelEnds(): Float64Array {
    return this.modelSums;
  }

  /** How long each name is held, of the holds that have ended, and of the others at the least. */
  spanOf(name: number): number {
    const { station, depth } = this;
    const { rows, names, isDwell } = station;
    let span = this.span[depth * names.length + name]!;
    for (let row = 0; row < rows; row++) {
      if (!isDwell[row]) continue;
      const at = (depth * rows + row) * names.length + name;
      span += this.holdsAhead[at]!;
      if (this.openHold[name] !== NONE) span += this.holdEnd[at]! - this.holdStart[at]!;
    }
    return span;
  }

  /** What each person is loaded with. */
  loadOf(person: number): number {
    return this.busy[this.depth * this.persons + person]!;
  }

  modelLoadOf(person: number, model: number): number {
    return this.busyOf[(this.depth * this.persons + person) * this.models + model]!;
  }

  /** What decides what can follow: with the same tasks put, nothing ends later where no number is larger. */
  times(): Float64Array {
    const { station, depth, persons, list } = this;
    const { rows, size, names, before } = station;
    const at = depth * rows;
    let count = 0;
    const order = this.personsInOrder();
    if (this.isShared) {
      for (const person of order) {
        list[count++] = this.loadOf(person);
        for (let model = 0; model < this.models; model++) list[count++] = this.modelLoadOf(person, model);
      }
    }
    for (let row = 0; row < rows; row++) {
      let soonest = Number.POSITIVE_INFINITY;
      for (const person of order) {
        const free = this.free[(at + row) * persons + person]!;
        if (free < soonest) soonest = free;
        list[count++] = free;
      }
      list[count++] = this.chain[at + row]!;
      for (let task = 0; task < size; task++) {
        if (this.isTaken[task] === 1 || before[task]!.length === 0) continue;
        list[count++] = Math.max(soonest, this.ready[(at + row) * size + task]!);
      }
      for (let name = 0; name < names.length; name++) {
        const to = (at + row) * names.length + name;
        list[count++] = Math.max(soonest, this.nameFree[to]!);
        if (this.openHold[name] !== NONE) list[count++] = this.holdEnd[to]!;
      }
    }
    return list.slice(0, count);
  }

  /** People who are alike in all but their numbers, those who are free soonest first. */
  private personsInOrder(): readonly number[] {
    const { station, depth, persons, numbers } = this;
    if (!this.isShared || persons === 1) return numbers;
    const { rows } = station;
    const sum = (person: number) => {
      let all = 0;
      for (let row = 0; row < rows; row++) all += this.free[(depth * rows + row) * persons + person]!;
      return all;
    };
    return numbers.toSorted((one, two) => sum(one) - sum(two) || this.loadOf(one) - this.loadOf(two));
  }

  private load(task: number, mask: number): void {
    const { persons, depth, models } = this;
    copyOn(this.busy, depth * persons, persons);
    copyOn(this.busyOf, depth * persons * models, persons * models);
    if (!this.isShared) return;
    const { problem, tasks } = this.station;
    const at = (depth + 1) * persons;
    for (let person = 0; person < persons; person++) {
      if (((mask >>> person) & 1) === 0) continue;
      this.busy[at + person]! += problem.loads[tasks[task]!]!;
      for (let model = 0; model < models; model++)
        this.busyOf[(at + person) * models + model]! += problem.modelLoads[model]![tasks[task]!]!;
    }
  }

  /** Notes the task in the hold that it is part of, at the next depth. */
  private hold(name: number, task: number, row: number, start: number, end: number): void {
    const { rows, names, isDwell } = this.station;
    const { holdOf, sizes, least } = names[name]!;
    const hold = holdOf[task]!;
    const at = ((this.depth + 1) * rows + row) * names.length + name;
    const left = this.left[name]![hold]!;
    if (left === sizes[hold]) {
      this.holdStart[at] = start;
      this.holdEnd[at] = end;
      this.holdsAhead[at]! -= least[row]![hold]!;
    } else {
      this.holdStart[at] = Math.min(this.holdStart[at]!, start);
      this.holdEnd[at] = Math.max(this.holdEnd[at]!, end);
    }
    if (left > 1) return;
    this.nameFree[at] = this.holdEnd[at]!;
    if (isDwell[row])
      this.span[(this.depth + 1) * names.length + name]! += this.holdEnd[at]! - this.holdStart[at]!;
  }

  private addAhead(to: number, row: number, task: number, sign: 1 | -1): void {
    const { hands, size } = this.station;
    const hand = sign * hands[row * size + task]!;
    this.ahead[to]! += this.people[task]! * hand;
    const mask = this.certain[task]!;
    for (let person = 0; person < this.persons; person++)
      if (((mask >>> person) & 1) === 1) this.fixedAhead[to * this.persons + person]! += hand;
  }

  /** No sooner than this the station ends in a row: by chains, by the hands of each and of all, and by the equipment. */
  private endOf(row: number): number {
    const { station, persons, depth } = this;
    const { rows, names, isDwell } = station;
    const at = depth * rows + row;
    let end = this.chain[at]!;
    let all = this.ahead[at]!;
    for (let person = 0; person < persons; person++) {
      const free = this.free[at * persons + person]!;
      all += free;
      end = Math.max(end, free + this.fixedAhead[at * persons + person]!);
    }
    end = Math.max(end, Math.ceil(all / persons));
    if (persons === 1) end = Math.max(end, this.endOfOne(row, this.free[at]!));
    // What a machine still runs is no matter of hands.
    for (let name = 0; name < names.length && isDwell[row]; name++) {
      const to = at * names.length + name;
      const from = this.openHold[name] === NONE ? this.nameFree[to]! : this.holdEnd[to]!;
      if (this.holdsAhead[to]! > 0) end = Math.max(end, from + this.holdsAhead[to]!);
    }
    return end;
  }

  /** One person does all that is ahead; after some of it no less than the least of what follows is still to come (Jackson 1955). */
  private endOfOne(row: number, free: number): number {
    const { hands, tails, size } = this.station;
    let [end, sum] = [0, free];
    for (const task of this.byRest[row]!) {
      if (this.isTaken[task] === 1) continue;
      const hand = hands[row * size + task]!;
      sum += hand;
      end = Math.max(end, sum + tails[row * size + task]! - hand);
    }
    return end;
  }

  private areModelsTooLong(): boolean {
    return this.modelSums.some((sum, model) => sum > this.limits.models[model]!);
  }

  private areHoldsTooLong(): boolean {
    const { names, problem } = this.station;
    return names.some(({ name }, at) => {
      const counted = problem.countedAs[name]!;
      return counted >= 0 && this.spanOf(at) > this.limits.equipment[counted]!;
    });
  }
}

const NEVER: Sums = { dwell: Number.POSITIVE_INFINITY, hands: Number.POSITIVE_INFINITY };
const NONE = -1;

/** Copies so many numbers to where the next depth has them. */
function copyOn(numbers: Float64Array, from: number, count: number): void {
  numbers.copyWithin(from + count, from, from + count);
}
