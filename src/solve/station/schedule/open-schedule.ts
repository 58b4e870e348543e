import type { PeopleOfTasks } from "./people-of-tasks.js";
import type { ScheduleLimits } from "./schedule-problem.js";
import type { StationTasks } from "./station-tasks.js";

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
  /**
   * By depth all that changes: row by row, and behind the rows what is no matter of them. A row has when each person is free; when what comes
   * before each task has ended (`ready`); no sooner than when the station ends by chains (`chain`); hands ahead, each as often as it takes
   * people (`ahead`), and those whose people are certain by person (`certainAhead`); by name from when on its holds may begin (`nameFree`),
   * when that begun last starts and ends, and what holds that are not begun take at the least (`holdsAhead`). Behind the rows stand what each
   * person is loaded with, in all and of each model (`busy`, `busyOf`), and by name the sum of all holds that have ended (`span`).
   */
  private readonly state: Float64Array;
  private readonly stride: number;
  private readonly rowStride: number;
  private readonly ready: number;
  private readonly chain: number;
  private readonly ahead: number;
  private readonly certainAhead: number;
  private readonly nameFree: number;
  private readonly holdStart: number;
  private readonly holdEnd: number;
  private readonly holdsAhead: number;
  private readonly busy: number;
  private readonly busyOf: number;
  private readonly span: number;
  /** The hold of each name that is begun and not put to its end, and how many of its tasks are left; -1 where none is. */
  private readonly openHold: Int32Array;
  private readonly left: Int32Array[];
  /** By row, tasks by what follows their hands: the longest first; for one person only. */
  private readonly byRest: readonly Int32Array[];
  private readonly modelSums: Float64Array;
  private readonly isHeldByModel: boolean;
  private readonly models: number;
  /** Tasks ahead that only one of two sides can do. */
  private oneSided: number;
  private numbers: readonly number[] | null = null;
  /** What `times` are written to. */
  private list: Float64Array | null = null;
  timesCount = 0;

  constructor(
    readonly station: StationTasks,
    readonly limits: ScheduleLimits,
    readonly who: PeopleOfTasks,
    /** Whether what each person is loaded with may break a limit that nothing else breaks. */
    private readonly isLoaded: boolean,
  ) {
    const { size, rows, names, tails } = station;
    const { persons } = who;
    this.persons = persons;
    this.oneSided = 0;
    if (who.sides !== null) for (const mask of who.certain) if (mask === 1 || mask === 2) this.oneSided++;
    this.isHeldByModel = limits.modelDwell.some((most) => most < Number.POSITIVE_INFINITY);
    this.models = isLoaded ? station.problem.modelLoads.length : 0;
    this.ready = persons;
    this.chain = this.ready + size;
    this.ahead = this.chain + 1;
    this.certainAhead = this.ahead + 1;
    this.nameFree = this.certainAhead + persons;
    this.holdStart = this.nameFree + names.length;
    this.holdEnd = this.holdStart + names.length;
    this.holdsAhead = this.holdEnd + names.length;
    this.rowStride = this.holdsAhead + names.length;
    this.busy = rows * this.rowStride;
    this.busyOf = this.busy + persons;
    this.span = this.busyOf + persons * this.models;
    this.stride = this.span + names.length;
    this.state = new Float64Array((size + 1) * this.stride);
    this.isTaken = new Uint8Array(size);
    this.taken = new Int32Array(size);
    this.masks = new Int32Array(size);
    this.missing = new Int32Array(size);
    for (let task = 0; task < size; task++) this.missing[task] = station.before[task]!.length;
    this.openHold = new Int32Array(names.length).fill(NONE);
    this.left = names.map(({ sizes }) => Int32Array.from(sizes));
    this.modelSums = new Float64Array(station.problem.isBuilt.length);
    this.byRest = persons === 1 ? tasksByRest(station) : [];
    for (let row = 0; row < rows; row++) {
      const at = row * this.rowStride;
      for (let task = 0; task < size; task++) {
        this.addAhead(at, row, task, 1);
        this.state[at + this.chain] = Math.max(this.state[at + this.chain]!, tails[row * size + task]!);
      }
      for (const [name, { least }] of names.entries())
        this.state[at + this.holdsAhead + name] = least[row]!.reduce((sum, each) => sum + each, 0);
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
    if (!this.isLoaded) return true;
    const { state, limits, models } = this;
    const { problem, tasks } = this.station;
    const [at, number] = [this.depth * this.stride, tasks[task]!];
    for (let person = 0; person < this.persons; person++) {
      if (((mask >>> person) & 1) === 0) continue;
      if (state[at + this.busy + person]! + problem.loads[number]! > limits.hands) return false;
      for (let model = 0; model < models; model++) {
        const busy = state[at + this.busyOf + person * models + model]!;
        if (busy + problem.modelLoads[model]![number]! > limits.model) return false;
      }
    }
    return true;
  }

  /**
   * Who may do a task next, as masks, the smallest first. Of people who are alike so far the first are taken: which of them changes
   * nothing but their numbers.
   */
  masksFor(task: number): readonly number[] {
    const certain = this.who.certain[task]!;
    if (certain === 0) return this.persons === 2 ? this.oneOfTwo(task) : this.chosenMasks(task);
    return this.mayDo(task, certain) ? (ONE_MASK[certain] ?? [certain]) : NOBODY;
  }

  /** Where two people are there and the task takes one of them. */
  private oneOfTwo(task: number): readonly number[] {
    const second = !this.areAlike(0, 1) && this.mayDo(task, SECOND) ? SECOND : 0;
    return ONE_OF_TWO[(this.mayDo(task, FIRST) ? FIRST : 0) | second]!;
  }

  private chosenMasks(task: number): number[] {
    const masks: number[] = [];
    const choose = (from: number, mask: number, missing: number) => {
      for (let person = from; missing > 0 && person <= this.persons - missing; person++)
        if (!this.isPassedOver(person, mask)) choose(person + 1, mask | (1 << person), missing - 1);
      if (missing === 0 && this.mayDo(task, mask)) masks.push(mask);
    };
    choose(0, 0, this.who.people[task]!);
    return masks.length > 1 ? masks.sort((one, two) => one - two) : masks;
  }

  /** Whether somebody of the mask has the skills of the task, and everybody time left for it. */
  mayDo(task: number, mask: number): boolean {
    const { able } = this.who;
    return (able === undefined || (able[task]! & mask) !== 0) && this.mayWork(task, mask);
  }

  /** Whether somebody before, who is alike, is not of the mask. */
  private isPassedOver(person: number, mask: number): boolean {
    for (let other = 0; other < person; other++)
      if (((mask >>> other) & 1) === 0 && this.areAlike(other, person)) return true;
    return false;
  }

  /** When the task would start in a row if these people did it next. */
  startOf(task: number, mask: number, row: number): number {
    const at = this.depth * this.stride + row * this.rowStride;
    let start = this.state[at + this.ready + task]!;
    for (let person = 0; person < this.persons; person++)
      if (((mask >>> person) & 1) === 1) start = Math.max(start, this.state[at + person]!);
    for (const name of this.station.uses[task]!)
      start = Math.max(start, this.state[at + this.nameFree + name]!);
    return start;
  }

  /** Whether two people are alike so far; sides are not while work is ahead that one of them only can do. */
  private areAlike(one: number, two: number): boolean {
    const { classes } = this.who;
    if (this.oneSided > 0 || classes?.[one] !== classes?.[two]) return false;
    const { state, models, busyOf } = this;
    const at = this.depth * this.stride;
    for (let row = 0; row < this.station.rows; row++) {
      const from = at + row * this.rowStride;
      if (state[from + one] !== state[from + two]) return false;
    }
    if (state[at + this.busy + one] !== state[at + this.busy + two]) return false;
    for (let model = 0; model < models; model++)
      if (state[at + busyOf + one * models + model] !== state[at + busyOf + two * models + model])
        return false;
    return true;
  }

  put(task: number, mask: number): void {
    const { station, depth, persons, state, stride } = this;
    const { rows, size, names, uses } = station;
    const next = (depth + 1) * stride;
    state.copyWithin(next, depth * stride, next);
    for (let row = 0; row < rows; row++) {
      const start = this.startOf(task, mask, row);
      const at = next + row * this.rowStride;
      const hand = station.hands[row * size + task]!;
      const end = start + hand + station.machines[row * size + task]!;
      for (let person = 0; person < persons; person++)
        if (((mask >>> person) & 1) === 1) state[at + person] = start + hand;
      for (const later of station.after[task]!)
        state[at + this.ready + later] = Math.max(state[at + this.ready + later]!, end);
      state[at + this.chain] = Math.max(state[at + this.chain]!, start + station.tails[row * size + task]!);
      this.addAhead(at, row, task, -1);
      for (const name of uses[task]!) this.hold(name, task, row, start, end);
    }
    for (const name of uses[task]!) {
      const hold = names[name]!.holdOf[task]!;
      this.openHold[name] = --this.left[name]![hold]! === 0 ? NONE : hold;
    }
    if (this.isLoaded) this.load(next, task, mask);
    if (this.isOneSided(task)) this.oneSided--;
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
    if (this.isOneSided(task)) this.oneSided++;
    for (const name of station.uses[task]!) {
      const { holdOf, sizes } = station.names[name]!;
      const hold = holdOf[task]!;
      this.openHold[name] = ++this.left[name]![hold]! === sizes[hold]! ? NONE : hold;
    }
  }

  /** No sooner than this the station ends on average, whatever order goes on; infinite where a limit cannot be kept. */
  least(): number {
    const { station, limits } = this;
    this.modelSums.fill(0);
    let dwell = 0;
    for (let row = 0; row < station.rows; row++) {
      const end = this.endOf(row);
      if (station.isDwell[row]) dwell += end;
      this.modelSums[station.modelOf[row]!]! += end;
    }
    const isOver =
      dwell > limits.dwell || (this.isHeldByModel && this.areModelsTooLong()) || this.areHoldsTooLong();
    return isOver ? Number.POSITIVE_INFINITY : dwell;
  }

  /** With sides and a limit of each model, its share x when it ends, no sooner than this. */
  modelEnds(): Float64Array {
    return this.modelSums;
  }

  /** How long each name is held, of the holds that have ended, and of the others at the least. */
  spanOf(name: number): number {
    const { station, state } = this;
    const { rows, isDwell } = station;
    const from = this.depth * this.stride;
    let span = state[from + this.span + name]!;
    for (let row = 0; row < rows; row++) {
      if (!isDwell[row]) continue;
      const at = from + row * this.rowStride + name;
      span += state[at + this.holdsAhead]!;
      if (this.openHold[name] !== NONE) span += state[at + this.holdEnd]! - state[at + this.holdStart]!;
    }
    return span;
  }

  /**
   * What decides what can follow: with the same tasks put, nothing ends later where no number is larger. The list is written anew by the next
   * call; `timesCount` of it count.
   */
  times(): Float64Array {
    const { station, persons, state, models } = this;
    const { rows, size, names, before } = station;
    const from = this.depth * this.stride;
    this.list ??= new Float64Array(persons * (1 + models) + rows * (persons + 1 + size + 2 * names.length));
    const { list } = this;
    let count = 0;
    const order = this.personsInOrder();
    if (this.isLoaded) {
      for (const person of order) {
        list[count++] = state[from + this.busy + person]!;
        for (let model = 0; model < models; model++)
          list[count++] = state[from + this.busyOf + person * models + model]!;
      }
    }
    for (let row = 0; row < rows; row++) {
      const at = from + row * this.rowStride;
      let soonest = Number.POSITIVE_INFINITY;
      for (const person of order) {
        const free = state[at + person]!;
        if (free < soonest) soonest = free;
        list[count++] = free;
      }
      list[count++] = state[at + this.chain]!;
      for (let task = 0; task < size; task++) {
        if (this.isTaken[task] === 1 || before[task]!.length === 0) continue;
        list[count++] = Math.max(soonest, state[at + this.ready + task]!);
      }
      for (let name = 0; name < names.length; name++) {
        list[count++] = Math.max(soonest, state[at + this.nameFree + name]!);
        if (this.openHold[name] !== NONE) list[count++] = state[at + this.holdEnd + name]!;
      }
    }
    this.timesCount = count;
    return list;
  }

  /** People who are alike in all but their numbers, those who are free soonest first. */
  private personsInOrder(): readonly number[] {
    const { persons } = this;
    if (persons === 1) return FIRST_ONLY;
    if (this.oneSided === 0 && persons === 2) return this.comparePersons(0, 1) > 0 ? TWO_TURNED : TWO;
    this.numbers ??= Array.from({ length: persons }, (_, person) => person);
    if (this.oneSided > 0) return this.numbers;
    return this.numbers.toSorted((one, two) => this.comparePersons(one, two));
  }

  private comparePersons(one: number, two: number): number {
    const { classes } = this.who;
    const { state } = this;
    const from = this.depth * this.stride;
    if (classes !== undefined && classes[one] !== classes[two]) return classes[one]! - classes[two]!;
    let gap = 0;
    for (let row = 0; row < this.station.rows; row++) {
      const at = from + row * this.rowStride;
      gap += state[at + one]! - state[at + two]!;
    }
    const busy = from + this.busy;
    return gap || state[busy + one]! - state[busy + two]!;
  }

  private load(at: number, task: number, mask: number): void {
    const { persons, models, state } = this;
    const { problem, tasks } = this.station;
    const number = tasks[task]!;
    for (let person = 0; person < persons; person++) {
      if (((mask >>> person) & 1) === 0) continue;
      state[at + this.busy + person]! += problem.loads[number]!;
      for (let model = 0; model < models; model++)
        state[at + this.busyOf + person * models + model]! += problem.modelLoads[model]![number]!;
    }
  }

  private isOneSided(task: number): boolean {
    const { sides, certain } = this.who;
    return sides !== null && certain[task] !== 0 && certain[task] !== BOTH;
  }

  /** Notes the task in the hold that it is part of, at the next depth. */
  private hold(name: number, task: number, row: number, start: number, end: number): void {
    const { state } = this;
    const { names, isDwell } = this.station;
    const { holdOf, sizes, least } = names[name]!;
    const hold = holdOf[task]!;
    const next = (this.depth + 1) * this.stride;
    const at = next + row * this.rowStride + name;
    const [holdStart, holdEnd] = [at + this.holdStart, at + this.holdEnd];
    const left = this.left[name]![hold]!;
    if (left === sizes[hold]) {
      state[holdStart] = start;
      state[holdEnd] = end;
      state[at + this.holdsAhead]! -= least[row]![hold]!;
    } else {
      state[holdStart] = Math.min(state[holdStart]!, start);
      state[holdEnd] = Math.max(state[holdEnd]!, end);
    }
    if (left > 1) return;
    state[at + this.nameFree] = state[holdEnd]!;
    if (isDwell[row]) state[next + this.span + name]! += state[holdEnd]! - state[holdStart]!;
  }

  private addAhead(at: number, row: number, task: number, sign: 1 | -1): void {
    const { hands, size } = this.station;
    const hand = sign * hands[row * size + task]!;
    this.state[at + this.ahead]! += this.who.people[task]! * hand;
    const mask = this.who.certain[task]!;
    if (mask === 0) return;
    for (let person = 0; person < this.persons; person++)
      if (((mask >>> person) & 1) === 1) this.state[at + this.certainAhead + person]! += hand;
  }

  /** No sooner than this the station ends in a row: by chains, by the hands of each and of all, and by the equipment. */
  private endOf(row: number): number {
    const { station, persons, state } = this;
    const at = this.depth * this.stride + row * this.rowStride;
    let end = state[at + this.chain]!;
    let all = state[at + this.ahead]!;
    for (let person = 0; person < persons; person++) {
      const free = state[at + person]!;
      all += free;
      end = Math.max(end, free + state[at + this.certainAhead + person]!);
    }
    end = Math.max(end, Math.ceil(all / persons));
    if (persons === 1) end = Math.max(end, this.endOfOne(row, state[at]!));
    for (let name = 0; name < station.names.length; name++) {
      const ahead = state[at + this.holdsAhead + name]!;
      const from = this.openHold[name] === NONE ? this.nameFree : this.holdEnd;
      if (ahead > 0) end = Math.max(end, state[at + from + name]! + ahead);
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
    return this.modelSums.some((sum, model) => sum > this.limits.modelDwell[model]!);
  }

  private areHoldsTooLong(): boolean {
    const { names, problem } = this.station;
    if (names.length === 0) return false;
    return names.some(({ name }, at) => {
      const counted = problem.countedAs[name]!;
      return counted >= 0 && this.spanOf(at) > this.limits.equipment[counted]!;
    });
  }
}

function tasksByRest({ rows, size, hands, tails }: StationTasks): Int32Array[] {
  return Array.from({ length: rows }, (_, row) => {
    const rest = (task: number) => tails[row * size + task]! - hands[row * size + task]!;
    return Int32Array.from(hands.subarray(0, size).keys()).sort(
      (one, two) => rest(two) - rest(one) || one - two,
    );
  });
}

const NONE = -1;
const [FIRST, SECOND, BOTH] = [1, 2, 3];
const FIRST_ONLY: readonly number[] = [0];
const TWO: readonly number[] = [0, 1];
const TWO_TURNED: readonly number[] = [1, 0];
const NOBODY: readonly number[] = [];
/** Lists that are asked for again and again: of one mask, and of those of one person of two. */
const ONE_MASK = Array.from({ length: 64 }, (_, mask): readonly number[] => [mask]);
const ONE_OF_TWO: readonly (readonly number[])[] = [NOBODY, [FIRST], [SECOND], [FIRST, SECOND]];
