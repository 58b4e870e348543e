import type { Line } from "../../line/line.js";
import { cycleOfPlan, cycleOfPost } from "../../plan/figures/cycle.js";
import { crewOf, ONE_PERSON, type Plan, type Station, type StationSide } from "../../plan/plan.js";
import { type Post, postOf, postsOf } from "../../plan/post.js";
import { stationNumbers } from "../../plan/station-numbers.js";
import { verifyRules } from "../../plan/verify-plan.js";
import { type Pace, withLineCycle } from "../../time/pace.js";
import { add, compare, divide, larger, multiply, type Ratio, subtract, ZERO } from "../../time/ratio.js";

/** A station of today's plan beside what it becomes: null before where it is new, null after where it is given up. */
export interface Slot {
  readonly before: Station | null;
  readonly after: Station | null;
  readonly id: string;
}

/** What is done at once: tasks that change their station, those of a group together, or one station that is set up otherwise. */
export interface Part {
  readonly tasks: readonly number[];
  /** Slots; `from` is -1 for work that is new to the line, and that of the station itself where that is set up otherwise. */
  readonly from: number;
  readonly to: number;
}

/** A station as it stands on the way, null while nothing is done there. */
interface Standing {
  readonly station: Station | null;
  readonly post: Post | null;
  readonly cycle: Ratio;
}

/** How long stations take on the way, counted machines left out, in microseconds. */
interface Loads {
  /** The longest cycle of a station. */
  readonly slowest: Ratio;
  /** How far stations are beyond the new line cycle, all together. */
  readonly excess: Ratio;
}

/** What was seen in the way of parts once those of theirs were done that it depends on. */
interface SeenObstacle {
  readonly own: bigint;
  readonly obstacle: readonly number[] | null;
}

/** All stations once some parts are done. */
interface LineAt {
  readonly done: bigint;
  /** By slot. */
  readonly standings: readonly Standing[];
  /** Slots, of equals in their order along the line. */
  readonly longestFirst: readonly number[];
  readonly excess: Ratio;
}

/**
 * All plans between today's and the new one: some parts of the change are done, the others not yet. Sets of parts are the bits of a
 * number. A plan on the way is allowed where it keeps `keeps`, and where the verifier finds no fault in it that today's plan does not
 * have: loads are held against the line cycle kept, so that the reserve of plan-to may be used while the line changes.
 */
export class PlansOnTheWay {
  readonly slots: readonly Slot[];
  readonly parts: readonly Part[];
  /** All parts done. */
  readonly all: bigint;
  /** The line cycle that every plan on the way keeps, in microseconds: the slower of the new one and the cycle of today's plan. */
  readonly keeps: Ratio;
  /** The longest cycle of a station, or of a counted machine, in today's plan. */
  readonly cycleToday: Ratio;
  private readonly fromSlot = new Map<number, number>();
  private readonly toSlot = new Map<number, number>();
  private readonly partOf = new Map<number, number>();
  /** Parts that take something off each slot, and those that bring something. */
  private readonly off: readonly (readonly number[])[];
  private readonly onto: readonly (readonly number[])[];
  /** Parts that touch each slot. */
  private readonly touching: readonly bigint[];
  private readonly standings: readonly Map<bigint, Standing>[];
  private readonly rank: ReadonlyMap<number, number>;
  private readonly keptLine: Line;
  private readonly keptPace: Pace;
  /** Stations share counted equipment, so that a cycle depends on the whole plan. */
  private readonly sharesEquipment: boolean;
  private readonly known: ReadonlySet<string>;
  private readonly verified = new Map<bigint, readonly number[] | null>();
  /** What the verifier said of each plan that it was asked of. */
  private readonly faults = new Map<bigint, readonly string[]>();
  private readonly after: readonly (readonly number[])[];
  private last: LineAt | null = null;
  /** For each part those that what is seen of it depends on: at its stations, and of tasks that an arrow joins to its own. */
  private readonly around: readonly bigint[];
  private readonly lastSeen = new Map<string, SeenObstacle>();

  /**
   * @param matched which station of today's plan each station of the new one is, -1 for a new one
   * @param newFirst whether a new station stands before one given up between the same two; on a floor its place says so
   */
  constructor(
    private readonly line: Line,
    private readonly pace: Pace,
    private readonly from: Plan,
    private readonly to: Plan,
    matched: readonly number[],
    newFirst: boolean,
  ) {
    this.slots = slotsOf(line, from, to, matched, newFirst);
    for (const [at, { before, after }] of this.slots.entries()) {
      for (const task of before?.tasks ?? []) this.fromSlot.set(task, at);
      for (const task of after?.tasks ?? []) this.toSlot.set(task, at);
    }
    const order = [...from.stations, ...to.stations].flatMap(({ tasks }) => tasks);
    this.rank = new Map([...new Set(order)].map((task, at) => [task, at]));
    const after: number[][] = line.tasks.map(() => []);
    for (const [task, before] of line.before.entries()) for (const each of before) after[each]!.push(task);
    this.after = after;
    this.parts = this.findParts();
    for (const [part, { tasks, from: start, to: end }] of this.parts.entries())
      if (start !== end) for (const task of tasks) this.partOf.set(task, part);
    this.all = (1n << BigInt(this.parts.length)) - 1n;
    const partsWhere = (end: "from" | "to") => {
      const by: number[][] = this.slots.map(() => []);
      for (const [part, { [end]: slot }] of this.parts.entries()) by[slot]?.push(part);
      return by;
    };
    this.off = partsWhere("from");
    this.onto = partsWhere("to");
    this.touching = this.slots.map((_, slot) =>
      [...this.off[slot]!, ...this.onto[slot]!].reduce((set, part) => set | bit(part), 0n),
    );
    this.around = this.parts.map((part) => this.partsAround(part));
    this.standings = this.slots.map(() => new Map<bigint, Standing>());
    this.cycleToday = cycleOfPlan(postsOf(line, pace, from));
    this.keeps = larger(pace.lineCycle, this.cycleToday);
    this.sharesEquipment = line.tasks.some(({ equipment }) =>
      equipment.some((name) => line.equipment.has(name)),
    );
    this.keptPace = withLineCycle(pace, this.keeps);
    this.keptLine = slower(line, pace.lineCycle, this.keeps);
    this.known = new Set(this.faultsOf(from));
  }

  /** The plan once some parts are done; today's where none is, the new one where all are. */
  planAt(done: bigint): Plan {
    if (done === 0n) return this.from;
    if (done === this.all) return this.to;
    return { stations: this.lineAt(done).standings.flatMap(({ station }) => station ?? []) };
  }

  /** The station of a slot once some parts are done; null while, or where, nothing is done there. */
  stationAt(slot: number, done: bigint): Station | null {
    if (done === 0n) return this.slots[slot]!.before;
    return done === this.all ? this.slots[slot]!.after : this.standing(slot, done).station;
  }

  /** Cycle of the plan once some parts are done, in microseconds. */
  cycleAt(done: bigint): Ratio {
    if (done === 0n) return this.cycleToday;
    if (done === this.all || this.sharesEquipment)
      return cycleOfPlan(postsOf(this.line, this.pace, this.planAt(done)));
    const { standings, longestFirst } = this.lineAt(done);
    return standings[longestFirst[0]!]!.cycle;
  }

  /** What is left where some parts come to others: only the stations that they touch are other than before. */
  loadsWith(done: bigint, added: readonly number[]): Loads {
    const { standings, longestFirst, excess } = this.lineAt(done);
    const next = added.reduce((set, part) => set | bit(part), done);
    const touched = new Set(added.flatMap((part) => [this.parts[part]!.from, this.parts[part]!.to]));
    touched.delete(-1);
    const untouched = longestFirst.find((slot) => !touched.has(slot));
    const own = [...touched].map((slot) => ({ slot, cycle: this.standing(slot, next).cycle }));
    return {
      slowest: own
        .map(({ cycle }) => cycle)
        .reduce(larger, untouched === undefined ? ZERO : standings[untouched]!.cycle),
      excess: own.reduce(
        (sum, { slot, cycle }) => add(subtract(sum, this.beyond(standings[slot]!.cycle)), this.beyond(cycle)),
        excess,
      ),
    };
  }

  /** Kept for the parts that were last asked for: many sets come to the same ones, and from step to step few stations change. */
  private lineAt(done: bigint): LineAt {
    const { last } = this;
    if (last?.done === done) return last;
    const all = [...this.slots.keys()];
    const changed = last === null ? all : this.touchedBy(done ^ last.done);
    const standings = last === null ? [] : [...last.standings];
    let excess = last === null ? ZERO : last.excess;
    for (const slot of changed) {
      const before = standings[slot];
      const now = this.standing(slot, done);
      standings[slot] = now;
      if (before !== undefined) excess = subtract(excess, this.beyond(before.cycle));
      excess = add(excess, this.beyond(now.cycle));
    }
    const longestFirst = (last === null ? all : [...last.longestFirst]).sort(
      (one, two) => compare(standings[two]!.cycle, standings[one]!.cycle) || one - two,
    );
    this.last = { done, standings, longestFirst, excess };
    return this.last;
  }

  /** The slots of some parts. */
  private touchedBy(parts: bigint): number[] {
    const own = this.parts.filter((_, part) => has(parts, part));
    return [...new Set(own.flatMap(({ from, to }) => [from, to]))].filter((slot) => slot >= 0);
  }

  private beyond(cycle: Ratio): Ratio {
    return compare(cycle, this.pace.lineCycle) > 0 ? subtract(cycle, this.pace.lineCycle) : ZERO;
  }

  /** What the verifier says of today's plan that is still so once some parts are done. */
  faultsAt(done: bigint): readonly string[] {
    return this.faults.get(done) ?? this.faultsOf(this.planAt(done));
  }

  /** Parts not done yet that take work off the longest station, where that is too long for the new pace. */
  partsOff(done: bigint): number[] {
    const { standings, longestFirst } = this.lineAt(done);
    const longest = longestFirst[0]!;
    return compare(standings[longest]!.cycle, this.pace.lineCycle) > 0 ? this.helping(longest, done) : [];
  }

  /**
   * What stands in the way of a plan where `added` come to parts that leave an allowed one: null for nothing; else parts not done yet of
   * which one at least must be done too, as far as can be told. Only arrows and times at the stations concerned are looked at first.
   */
  obstacle(done: bigint, added: readonly number[]): readonly number[] | null {
    const next = added.reduce((set, part) => set | bit(part), done);
    if (next === this.all) return null;
    return this.seenObstacle(next, added) ?? this.verify(next);
  }

  /** The same without the verifier: null where nothing is seen yet. */
  seenObstacle(next: bigint, added: readonly number[]): readonly number[] | null {
    if (next === this.all) return null;
    return this.againstArrows(next, added) ?? this.againstPace(next, added);
  }

  /** The same of parts that come to those done, kept for the next step: most steps change nothing that it depends on. */
  obstacleAhead(done: bigint, added: readonly number[]): readonly number[] | null {
    const next = added.reduce((set, part) => set | bit(part), done);
    if (next === this.all) return null;
    const own = done & added.reduce((set, part) => set | this.around[part]!, 0n);
    const key = added.join();
    const last = this.lastSeen.get(key);
    if (last?.own === own) return last.obstacle;
    const obstacle = this.seenObstacle(next, added);
    this.lastSeen.set(key, { own, obstacle });
    return obstacle;
  }

  private partsAround({ tasks, from, to }: Part): bigint {
    const joined = tasks.flatMap((task) => [...this.line.before[task]!, ...this.after[task]!]);
    const parts = joined.map((task) => this.partOf.get(task)).filter((part) => part !== undefined);
    const atSlots = [from, to].map((slot) => this.touching[slot] ?? 0n);
    return [...parts.map(bit), ...atSlots].reduce((set, each) => set | each, 0n);
  }

  private againstArrows(next: bigint, added: readonly number[]): readonly number[] | null {
    for (const part of added) {
      for (const task of this.parts[part]!.tasks) {
        const pair =
          this.line.before[task]!.find((other) => this.isTurned(other, task, next)) ??
          this.after[task]!.find((other) => this.isTurned(task, other, next));
        if (pair !== undefined) return this.notYet([task, pair], next);
      }
    }
    return null;
  }

  /** Whether the first task stands behind the one that needs it, as it does not today. */
  private isTurned(first: number, second: number, done: bigint): boolean {
    const [one, two] = [this.slotAt(first, done), this.slotAt(second, done)];
    if (one === undefined || two === undefined || one <= two) return false;
    const [ago, then] = [this.fromSlot.get(first), this.fromSlot.get(second)];
    return ago === undefined || then === undefined || ago <= then;
  }

  private againstPace(next: bigint, added: readonly number[]): readonly number[] | null {
    const touched = new Set(added.flatMap((part) => [this.parts[part]!.from, this.parts[part]!.to]));
    for (const slot of touched) {
      if (slot < 0 || compare(this.standing(slot, next).cycle, this.keeps) <= 0) continue;
      return this.helping(slot, next);
    }
    return null;
  }

  /** Parts not done yet that may make a station shorter. */
  private helping(slot: number, done: bigint): number[] {
    const isSided = this.slots[slot]!.after?.sides != null;
    const near = isSided ? [...new Set([...this.off[slot]!, ...this.onto[slot]!])] : [...this.off[slot]!];
    return near.filter((part) => !has(done, part)).sort((one, two) => one - two);
  }

  /** The verifier and the cycle of the whole plan. */
  private verify(next: bigint): readonly number[] | null {
    const known = this.verified.get(next);
    if (known !== undefined) return known;
    const plan = this.planAt(next);
    const all = verifyRules(this.keptLine, this.keptPace, plan);
    this.faults.set(
      next,
      all.map(({ message }) => message),
    );
    const view = all.filter(({ message }) => !this.known.has(message));
    const isSlow = compare(this.cycleAt(next), this.keeps) > 0;
    const found = view.length === 0 && !isSlow ? null : this.against(next, view);
    this.verified.set(next, found);
    return found;
  }

  /** Parts that have to do with what the verifier found: those of the task, else of the station, else all that are left. */
  private against(
    next: bigint,
    found: readonly { readonly station?: string | null; readonly task?: string | null }[],
  ): number[] {
    const left = [...this.parts.keys()].filter((part) => !has(next, part));
    const [first] = found;
    const slot = this.slots.findIndex(({ id }) => id === first?.station);
    const near = left.filter((part) => this.parts[part]!.from === slot || this.parts[part]!.to === slot);
    return near.length > 0 ? near : left;
  }

  private faultsOf(plan: Plan): string[] {
    return verifyRules(this.keptLine, this.keptPace, plan).map(({ message }) => message);
  }

  private notYet(tasks: readonly number[], done: bigint): number[] {
    const parts = tasks.map((task) => this.partOf.get(task)).filter((part) => part !== undefined);
    return [...new Set(parts)].filter((part) => !has(done, part));
  }

  private slotAt(task: number, done: bigint): number | undefined {
    const part = this.partOf.get(task);
    return part === undefined || !has(done, part) ? this.fromSlot.get(task) : this.toSlot.get(task);
  }

  private standing(slot: number, done: bigint): Standing {
    const own = done & this.touching[slot]!;
    const known = this.standings[slot]!.get(own);
    if (known !== undefined) return known;
    const station = this.stationWith(slot, own);
    const post = station === null ? null : postOf(this.line, this.pace, station);
    const made = { station, post, cycle: post === null ? ZERO : cycleOfPost(post) };
    this.standings[slot]!.set(own, made);
    return made;
  }

  private stationWith(slot: number, own: bigint): Station | null {
    const { before, after, id } = this.slots[slot]!;
    if (own === this.touching[slot]) return after && { ...after, id };
    if (own === 0n) return before && { ...before, id };
    const tasks = [...new Set([...(before?.tasks ?? []), ...(after?.tasks ?? [])])].filter(
      (task) => this.slotAt(task, own) === slot,
    );
    if (tasks.length === 0) return null;
    const isSetUp = this.parts.some((part, at) => part.from === slot && part.to === slot && has(own, at));
    const { places } = isSetUp || before === null ? after! : before;
    if ((after ?? before)!.sides === null) {
      const ordered = this.inOrder(tasks);
      const station = { ...ONE_PERSON, id, tasks: ordered, persons: this.personsAt(slot, ordered), places };
      return { ...station, crew: crewOf(this.line, station) };
    }
    return this.onSides(slot, tasks, places);
  }

  /** Who does which task where people share the work of a unit, today or later: whoever does it later, or else today. */
  private personsAt(slot: number, tasks: readonly number[]): Station["persons"] {
    const { before, after } = this.slots[slot]!;
    if (before?.persons == null && after?.persons == null) return null;
    const whoIn = (station: Station | null, task: number) => station?.persons?.[station.tasks.indexOf(task)];
    const together = (task: number) =>
      Array.from({ length: this.line.tasks[task]!.people }, (_, person) => person + 1);
    return tasks.map((task) => whoIn(after, task) ?? whoIn(before, task) ?? together(task));
  }

  /** Which tasks that stay are worked from which side is open until the last part is done: as today or as later, whichever is shorter. */
  private onSides(slot: number, tasks: readonly number[], places: number): Station {
    const { before, after, id } = this.slots[slot]!;
    const sideIn = (station: Station | null, task: number): StationSide | undefined =>
      station?.sides?.[station.tasks.indexOf(task)];
    const made = [before, after].map((first): Station => {
      const second = first === before ? after : before;
      const ordered = this.inOrder(tasks);
      const sides = ordered.map((task) => sideIn(first, task) ?? sideIn(second, task) ?? "both");
      const station = { ...ONE_PERSON, id, tasks: ordered, sides, places };
      return { ...station, crew: crewOf(this.line, station) };
    });
    const cycle = (station: Station) => cycleOfPost(postOf(this.line, this.pace, station));
    return made.reduce((one, two) => (compare(cycle(two), cycle(one)) < 0 ? two : one));
  }

  /** Tasks as they are worked today, one after the other along the line, as soon as the arrows between them allow. */
  private inOrder(tasks: readonly number[]): number[] {
    const left = [...tasks].sort((one, two) => this.rank.get(one)! - this.rank.get(two)!);
    const ordered: number[] = [];
    while (left.length > 0) {
      const at = left.findIndex((task) => !this.line.before[task]!.some((each) => left.includes(each)));
      ordered.push(...left.splice(at, 1));
    }
    return ordered;
  }

  private findParts(): Part[] {
    const moving = this.to.stations.flatMap(({ tasks }) =>
      tasks.filter((task) => this.fromSlot.get(task) !== this.toSlot.get(task)),
    );
    const leader = new Map(moving.map((task) => [task, task]));
    const find = (task: number): number => {
      const up = leader.get(task)!;
      return up === task ? task : find(up);
    };
    const goAlike = (one: number, two: number) =>
      this.fromSlot.has(one) &&
      this.fromSlot.get(one) === this.fromSlot.get(two) &&
      this.toSlot.get(one) === this.toSlot.get(two);
    for (const group of this.line.together) {
      const own = group.filter((task) => leader.has(task));
      for (const [at, one] of own.entries())
        for (const two of own.slice(at + 1)) if (goAlike(one, two)) leader.set(find(two), find(one));
    }
    const moves = moving
      .filter((task) => find(task) === task)
      .map((task): Part => {
        const tasks = moving.filter((each) => find(each) === task);
        return { tasks, from: this.fromSlot.get(task) ?? -1, to: this.toSlot.get(task)! };
      });
    const isMoved = new Set(moves.flatMap(({ from, to }) => [from, to]));
    const setUps = this.slots.flatMap(({ before, after }, slot): Part[] => {
      if (before === null || after === null) return [];
      const isOtherwise =
        before.places !== after.places || (!isMoved.has(slot) && sidesText(before) !== sidesText(after));
      return isOtherwise ? [{ tasks: [], from: slot, to: slot }] : [];
    });
    return [...moves, ...setUps];
  }
}

export const bit = (part: number): bigint => {
  for (let at = BITS.length; at <= part; at++) BITS.push(1n << BigInt(at));
  return BITS[part]!;
};
/** Those asked for so far. */
const BITS: bigint[] = [];
const has = (set: bigint, part: number): boolean => (set & bit(part)) !== 0n;

/** Which task is worked from which side, whatever the order. */
const sidesText = ({ tasks, sides }: Station): string =>
  tasks
    .map((task, at) => `${task} ${sides?.[at]}`)
    .sort()
    .join();

/** The line with so many fewer good units wanted as it makes at a slower pace: what a shift takes of limits depends on them. */
function slower(line: Line, lineCycle: Ratio, kept: Ratio): Line {
  const { demand } = line;
  if (demand === null || compare(kept, lineCycle) === 0) return line;
  return { ...line, demand: { ...demand, units: multiply(demand.units, divide(lineCycle, kept)) } };
}

/** Stations of both plans along the line, each once. */
function slotsOf(line: Line, from: Plan, to: Plan, matched: readonly number[], newFirst: boolean): Slot[] {
  const [numbersBefore, numbersAfter] = [stationNumbers(line, from), stationNumbers(line, to)];
  const comesFirst = (old: number, at: number) =>
    line.floor.length > 0 ? numbersBefore[old]! < numbersAfter[at]! : !newFirst;
  const givenUp = [...from.stations.keys()].filter((at) => !matched.includes(at));
  const slots: Slot[] = [];
  const taken = new Set(from.stations.map(({ id }) => id));
  const passGivenUp = (isDue: (old: number) => boolean) => {
    while (givenUp.length > 0 && isDue(givenUp[0]!)) {
      const before = from.stations[givenUp.shift()!]!;
      slots.push({ before, after: null, id: before.id });
    }
  };
  for (const [at, after] of to.stations.entries()) {
    const own = matched[at]!;
    const next = own >= 0 ? own : (matched.slice(at).find((each) => each >= 0) ?? from.stations.length);
    passGivenUp((old) => old < next && (own >= 0 || comesFirst(old, at)));
    const before = own >= 0 ? from.stations[own]! : null;
    slots.push({ before, after, id: before?.id ?? freeId(after.id, taken) });
  }
  passGivenUp(() => true);
  return slots;
}

/** The id of a new station, told apart from stations that have it until they are called otherwise. */
function freeId(id: string, taken: Set<string>): string {
  let free = id;
  while (taken.has(free)) free = `${free} new`;
  taken.add(free);
  return free;
}
