import { limitsWith, type StationLimits, type Work } from "../work.js";
import type { Constraint, Site, Supports } from "./constraint.js";
import { overAll } from "./schedule/fit-schedule.js";
import { NumberSet } from "./schedule/number-set.js";
import { withSkills } from "./schedule/people-of-tasks.js";
import { type Asked, ScheduleFits } from "./schedule/schedule-fits.js";
import { limitOf, type Manned, scheduleLimits, whoDoes } from "./schedule/schedule-limits.js";
import type { ScheduleProblem, WorkSide } from "./schedule/schedule-problem.js";
import { NO_TEAM, type Team } from "./staff-skills.js";

/**
 * A station is a small schedule: hands, machines that run by themselves, equipment that is held from one task to a later one, and people
 * who share the work of a unit or work it from its sides. A unit stands no longer than the station has places to stand, each person is
 * loaded within the limit, and equipment that is counted is held no longer than its units have for a unit of the line. The order of work is
 * found by a search of its own.
 *
 * More blocks never make that easier, but for two things, which are asked of closed stations only: a block may join two holds of one
 * equipment to one, and a hold that begins later may be shorter.
 */
export class Schedule implements Constraint {
  readonly supports: Constraint["supports"];
  private readonly fits: ScheduleFits;
  private readonly asked = new Map<string, Asked>();
  /** By places and whether holds are open what was asked last: mostly it is asked again. */
  private readonly askedLast: ({
    readonly manned: Manned;
    readonly kind: number;
    readonly asked: Asked;
  } | null)[] = [];
  private readonly set: NumberSet;
  private readonly blocks: number[] = [];
  private position = 0;
  private kind = 0;
  /** All that is here, one thing after the other: on average, and what of it machines do. */
  private serial = 0;
  private machines = 0;
  /** Hands on average. */
  private load = 0;
  /** Hands x people. */
  private personTime = 0;
  /** People that the tasks here take, added up. */
  private hands = 0;
  /** What only one side can do, how many tasks that is, and all that both have to do. */
  private readonly atSides = { left: 0, right: 0, tasksLeft: 0, tasksRight: 0, both: 0 };
  /** By block. */
  private readonly serialOf: readonly number[];
  private readonly machinesOf: readonly number[];
  /** Counted equipment that each block takes, by its number in the work. */
  private readonly countedOf: readonly (readonly number[])[];
  /** By counted equipment, how many blocks here take it, and what their tasks on it take one after the other. */
  private readonly takers: Int32Array;
  private readonly heldAlone: Float64Array;
  private readonly heldOf: readonly (readonly number[])[];
  /** By block, whether it runs no machine and takes no counted equipment where everybody of a place is at one task: its hands are all of it. */
  private readonly isMere: readonly boolean[];
  /** Blocks here of which that is not so. */
  private others = 0;
  private readonly noUnits: readonly number[];
  /** By counted equipment, whether no two tasks on it are ever one hold. */
  private readonly isHeldOneByOne: readonly boolean[];

  constructor(
    private readonly work: Work,
    private readonly problem: ScheduleProblem,
  ) {
    this.fits = new ScheduleFits(work, problem);
    this.set = new NumberSet(work.size);
    const sums = work.members.map((tasks) => tasks.map((task) => meanOf(problem, task)));
    const sum = (own: readonly { readonly hands: number; readonly machines: number }[], isAll: boolean) =>
      own.reduce((all, { hands, machines }) => all + machines + (isAll ? hands : 0), 0);
    this.serialOf = sums.map((own) => sum(own, true));
    this.machinesOf = sums.map((own) => sum(own, false));
    const takes = (task: number, counted: number) =>
      problem.equipment[task]!.some((name) => problem.countedAs[name] === counted);
    const counted = [...work.equipment.keys()];
    this.countedOf = work.members.map((tasks) =>
      counted.filter((each) => tasks.some((task) => takes(task, each))),
    );
    this.heldOf = work.members.map((tasks, block) =>
      counted.map((each) =>
        sum(
          sums[block]!.filter((_, at) => takes(tasks[at]!, each)),
          true,
        ),
      ),
    );
    const isAtOneTask = problem.sides === null && work.kinds.every(({ maxCrew }) => maxCrew === 1);
    this.isMere = this.machinesOf.map(
      (machines, block) => isAtOneTask && machines === 0 && this.countedOf[block]!.length === 0,
    );
    this.noUnits = counted.map(() => 0);
    this.takers = new Int32Array(counted.length);
    this.heldAlone = new Float64Array(counted.length);
    this.isHeldOneByOne = counted.map((each) => {
      const name = problem.countedAs.indexOf(each);
      return name < 0 || problem.joined[name]!.every((tasks) => tasks.length === 1);
    });
    this.supports = supportsOf(work, problem);
  }

  static of(work: Work): Schedule | null {
    return work.schedule === null ? null : new Schedule(work, work.schedule);
  }

  /** What was asked last is not known, since the steps allowed were used up; what was answered then means nothing. */
  get isUndecided(): boolean {
    return this.fits.isUndecided;
  }

  /** Tasks put so far. */
  get steps(): number {
    return this.fits.steps * WEIGHT;
  }

  /** Lets questions take so many further steps; without a word there is no limit. What was begun goes on. */
  allowSteps(most: number): void {
    this.fits.allow(Math.ceil(most / WEIGHT));
  }

  start({ position, kind }: Site): void {
    this.position = position;
    this.kind = kind;
    this.blocks.length = 0;
    this.set.clear();
    this.serial = 0;
    this.machines = 0;
    this.load = 0;
    this.personTime = 0;
    this.hands = 0;
    this.others = 0;
    this.takers.fill(0);
    this.heldAlone.fill(0);
    Object.assign(this.atSides, { left: 0, right: 0, tasksLeft: 0, tasksRight: 0, both: 0 });
  }

  allows(): boolean {
    return true;
  }

  join(block: number): void {
    this.blocks.push(block);
    this.set.add(block);
    this.count(block, 1);
  }

  leave(block: number): void {
    this.blocks.splice(this.blocks.lastIndexOf(block), 1);
    this.set.remove(block);
    this.count(block, -1);
  }

  private count(block: number, sign: 1 | -1): void {
    this.serial += sign * this.serialOf[block]!;
    this.machines += sign * this.machinesOf[block]!;
    this.load += sign * this.work.loads[block]!;
    this.personTime += sign * this.work.work[block]!;
    if (!this.isMere[block]!) this.others += sign;
    for (const task of this.work.members[block]!) {
      this.hands += sign * this.problem.people[task]!;
      if (this.problem.sides !== null) this.countAtSides(task, this.problem.sides[task]!, sign);
    }
    for (const counted of this.countedOf[block]!) {
      this.takers[counted]! += sign;
      this.heldAlone[counted]! += sign * this.heldOf[block]![counted]!;
    }
  }

  /** Whether the station has nothing but hands, at one task at a time, so that its time says all of it. */
  get isMereHands(): boolean {
    return this.others === 0;
  }

  /** The same once this block has joined. */
  isMereWith(block: number): boolean {
    return this.others === 0 && this.isMere[block]!;
  }

  private countAtSides(task: number, side: WorkSide, sign: 1 | -1): void {
    const { atSides } = this;
    const load = sign * this.problem.loads[task]!;
    if (side === "left" || side === "both") {
      atSides.left += load;
      atSides.tasksLeft += sign;
    }
    if (side === "right" || side === "both") {
      atSides.right += load;
      atSides.tasksRight += sign;
    }
    atSides.both += side === "both" ? 2 * load : load;
  }

  /** The most people that a place of the station may have where a block takes so many of them. */
  mostCrew(people: number): number {
    if (this.problem.sides !== null) return Math.max(2, people);
    const { maxCrew } = this.work.kinds[this.kind]!;
    // Nobody can use more people than there is work for at once.
    return maxCrew === 1 ? people : Math.max(Math.min(maxCrew, this.hands), people);
  }

  /**
   * Whether anything can come of the blocks here at so many places, with as many people and units as there are, whatever else joins.
   *
   * @param crew the most people that any block to come may bring
   * @param left units of each counted equipment that are not used elsewhere
   */
  mayHold(places: number, crew: number, left: readonly number[]): boolean {
    if (this.isMereHands) return true;
    const { problem } = this;
    const units = problem.holdsMayGrow ? null : this.unitsUpTo(places, left);
    return this.fit(places, this.mostCrew(crew), units, problem.mayJoinHolds);
  }

  /**
   * Units of counted equipment with which so many people do what is here at so many places, as few as can be; several lists where less of
   * one takes more of another, none where they cannot do it.
   *
   * @param team skills asked of each of them
   */
  unitsFor(places: number, crew: number, left: readonly number[], team: Team): number[][] {
    if (this.isMereHands) return [[...this.noUnits]];
    if (!this.mayAllWork(team)) return [];
    const most = this.unitsUpTo(places, left);
    if (most.some((units, at) => units === 0 && this.takers[at]! > 0)) return [];
    const least = most.map((_, at) => (this.takers[at]! > 0 ? 1 : 0));
    if (this.fit(places, crew, least, false, team)) return [least];
    if (this.fits.isUndecided || least.every((units, at) => units === most[at])) return [];
    if (!this.fit(places, crew, most, false, team)) return [];
    const found: number[][] = [];
    for (const units of listsBetween(least, most)) {
      if (found.some((known) => known.every((each, at) => each <= units[at]!))) continue;
      if (this.fit(places, crew, units, false, team)) found.push(units);
      if (this.fits.isUndecided) return [];
    }
    return found;
  }

  /**
   * Whether each of a team that shares the work may have some of it: of the people of a task that needs a skill one has it (a matching of
   * people to what tasks take of them; augmenting paths, Berge 1957).
   */
  private mayAllWork(team: Team): boolean {
    if (team.length < 2 || this.work.kinds[this.kind]!.maxCrew === 1) return true;
    const { needsOfTasks } = this.work.skills!;
    const taken = this.blocks
      .flatMap((block) => this.work.members[block]!)
      .flatMap((task) => [
        needsOfTasks[task]!,
        ...Array<bigint>(Math.min(this.problem.people[task]!, team.length) - 1).fill(0n),
      ]);
    return mayTakeEach(team, taken);
  }

  /** No station uses more units than there are places for units of the line at it. */
  private unitsUpTo(places: number, left: readonly number[]): number[] {
    const { holds } = this.work.kinds[this.kind]!;
    return left.map((each, at) => (this.takers[at]! > 0 ? Math.min(each, holds * places) : 0));
  }

  private get within(): StationLimits {
    return limitsWith(this.work, this.kind, this.blocks);
  }

  /** @param isOpen whether further blocks may join holds of one equipment */
  private fit(
    places: number,
    crew: number,
    units: readonly number[] | null,
    isOpen: boolean,
    team = NO_TEAM,
  ): boolean {
    const { work, blocks, position } = this;
    const most = limitOf(work, { position, blocks, places });
    if (this.problem.sides !== null && !this.mayShareSides(places, crew, most)) return false;
    // All of it is done by so many people, none of whom may do more.
    if (this.personTime > crew * most) return false;
    if (this.fitsAnyhow(places, units, most)) return true;
    return this.fits.fit(
      this.askFor({ within: this.within, places, crew, units, most, team }, isOpen),
      this.set.key,
      blocks,
    );
  }

  /** Whether there are people for the sides, and no side, nor both of them, has more to do than a person may. */
  private mayShareSides(places: number, crew: number, most: number): boolean {
    const { left, right, tasksLeft, tasksRight, both } = this.atSides;
    if (crew < 2) return (tasksLeft === 0 || tasksRight === 0) && this.load <= most;
    const longest = Math.max(left, right, both / 2);
    return longest <= Math.min(most, this.within.dwell[places - 1]!);
  }

  /** Whether any order does for people who are all at one task: nothing is too long, one thing after the other. */
  private fitsAnyhow(places: number, units: readonly number[] | null, most: number): boolean {
    const { modelLoads, equipment } = this.work;
    const { maxCrew, dwell } = this.within;
    const isShared = this.problem.sides !== null || maxCrew > 1;
    if (isShared && (modelLoads.length > 0 || this.load > most)) return false;
    // Where all are at one task and no machine runs, a unit stands as long as its station is loaded.
    if ((isShared || this.machines > 0) && this.serial > dwell[places - 1]!) return false;
    if (units === null) return true;
    for (const [at, taken] of this.takers.entries()) {
      if (taken === 0) continue;
      const held = this.isHeldOneByOne[at]! ? this.heldAlone[at]! : this.serial;
      if (held > equipment[at]!.time(units[at]!)) return false;
    }
    return true;
  }

  private askFor(manned: Manned, isOpen: boolean): Asked {
    const slot = 2 * manned.places + (isOpen ? 1 : 0);
    const last = this.askedLast[slot];
    if (last?.kind === this.kind && areAlike(last.manned, manned)) return last.asked;
    const asked = this.askedBefore(manned, isOpen);
    this.askedLast[slot] = { manned, kind: this.kind, asked };
    return asked;
  }

  private askedBefore(manned: Manned, isOpen: boolean): Asked {
    const { within, places, crew, units, most, team } = manned;
    const key = `${this.kind} ${within.dwell[places - 1]} ${places} ${crew} ${most} ${units?.join() ?? "any"} ${isOpen} ${team.join()}`;
    let asked = this.asked.get(key);
    if (asked === undefined) {
      const limits = scheduleLimits(this.work, manned);
      const isShared = within.maxCrew > 1;
      const who = (tasks: readonly number[]) => {
        const all = whoDoes(this.problem, tasks, limits.persons, isShared);
        return all && withSkills(this.work, all, tasks, team);
      };
      asked = { limits, whoDoes: who, isOpen, known: new Map() };
      this.asked.set(key, asked);
    }
    return asked;
  }
}

/** At a station of the same kind. */
const areAlike = (one: Manned, two: Manned): boolean =>
  one.within === two.within &&
  one.places === two.places &&
  one.crew === two.crew &&
  one.most === two.most &&
  one.team === two.team &&
  (one.units === null || two.units === null
    ? one.units === two.units
    : one.units.every((each, at) => each === two.units![at]));

/** Whether each of a team may have something of its own of what asks for these skills. */
const mayTakeEach = (team: Team, taken: readonly bigint[]): boolean => {
  const takenBy = taken.map(() => -1);
  const give = (person: number, seen: Set<number>): boolean =>
    taken.some((need, at) => {
      if ((need & ~team[person]!) !== 0n || seen.has(at)) return false;
      seen.add(at);
      if (takenBy[at]! >= 0 && !give(takenBy[at]!, seen)) return false;
      takenBy[at] = person;
      return true;
    });
  return team.every((_, person) => give(person, new Set()));
};

/** Steps that a task put to its people counts as. */
const WEIGHT = 2;

/** What a task takes on average, with what is done again. */
export function meanOf(problem: ScheduleProblem, task: number) {
  const once = problem.rows.filter(({ model }) => problem.isBuilt[model]!);
  const sum = (
    of: (times: {
      readonly hands: readonly number[];
      readonly machines: readonly number[];
    }) => readonly number[],
  ) =>
    once.reduce((all, row) => all + of(row)[task]!, 0) +
    overAll(
      problem,
      problem.again.map((each) => of(each)[task]!),
    );
  return { hands: sum(({ hands }) => hands), machines: sum(({ machines }) => machines) };
}

/** Every list between two, with a smaller sum first. */
function listsBetween(least: readonly number[], most: readonly number[]): number[][] {
  let lists: number[][] = [[]];
  for (const [at, from] of least.entries()) {
    const own = Array.from({ length: most[at]! - from + 1 }, (_, more) => from + more);
    lists = lists.flatMap((list) => own.map((units) => [...list, units]));
  }
  const sum = (list: readonly number[]) => list.reduce((all, each) => all + each, 0);
  return lists.sort((one, two) => sum(one) - sum(two));
}

function supportsOf(work: Work, problem: ScheduleProblem): Supports {
  const takesAny = (block: number) =>
    work.members[block]!.some((task) => problem.equipment[task]!.length > 0);
  const runsAny = (block: number) =>
    work.members[block]!.some((task) => problem.rows.some(({ machines }) => machines[task]! > 0));
  const isShared = work.kinds.some(({ maxCrew }) => maxCrew > 1);
  const isMere = problem.sides === null && !isShared && !problem.hasMachines;
  const mayGo = (block: number) =>
    !problem.holdsMayGrow && work.members[block]!.every((task) => !problem.joins[task]);
  // One row and nothing done again: a shorter task is shorter in every way.
  const isSimple =
    problem.rows.length === 1 && problem.again.every(({ hands }) => hands.every((each) => each === 0));
  const isPlain = (block: number) => !takesAny(block) && !runsAny(block) && work.members[block]!.length === 1;
  const mayChange = (block: number) =>
    problem.sides === null && isSimple && !problem.holdsMayGrow && isPlain(block);
  return {
    // Where no machine runs, hands that touch no equipment do not change how long it is held but in the midst of it.
    isFree: (block) => isMere && !takesAny(block) && !problem.isBetween(work.members[block]!),
    mayMoveUp: mayGo,
    mayLeave: mayGo,
    mayStandFor: (two, one) => mayChange(two) && mayChange(one),
    classOf: (block) => (mayChange(block) ? "" : null),
    anyOrder: true,
  };
}
