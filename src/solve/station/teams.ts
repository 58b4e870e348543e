import type { SkillProblem, Work } from "../work.js";
import { asksOf, mayBeStaffed, NO_TEAMS, type Team } from "./staff-skills.js";

/** A task that needs skills, with the people of a place who may be at it, as bits. */
interface Ask {
  readonly need: bigint;
  readonly by: number;
}

/**
 * The teams that a place may have: of the people at each task one has all the skills that it needs. Each person of a team has as much of the
 * skills asked there as somebody of the line has; whoever has more can take that place.
 */
export class Teams {
  private readonly known = new Map<string, readonly Team[]>();
  private readonly single = new Map<bigint, readonly Team[]>();
  private readonly isSided: boolean;
  private readonly mostTogether: number;

  constructor(
    private readonly work: Work,
    private readonly problem: SkillProblem,
  ) {
    this.isSided = work.schedule !== null && work.schedule.sides !== null;
    this.mostTogether = work.people.reduce((most, each) => Math.max(most, each), 1);
  }

  /** The most people of a place of a kind, whatever joins. */
  mostCrew(kind: number): number {
    return Math.max(this.mostTogether, this.work.kinds[kind]!.maxCrew, this.isSided ? 2 : 1);
  }

  /** Those of so many people for some blocks, the least asked first. */
  of(blocks: readonly number[], kind: number, crew: number): readonly Team[] {
    const { needs } = this.problem;
    if (crew === 1) {
      let all = 0n;
      for (const block of blocks) all |= needs[block]!;
      return this.ofOne(all);
    }
    const skilled = blocks.filter((block) => needs[block] !== 0n);
    if (skilled.length === 0) return NO_TEAMS;
    const isShared = this.isSided || this.work.kinds[kind]!.maxCrew > 1;
    const key = `${isShared}/${crew}/${skilled.toSorted((one, two) => one - two).join()}`;
    let teams = this.known.get(key);
    if (teams === undefined) {
      const asks = this.asksAt(skilled, crew);
      teams = this.isSided
        ? this.atSides(asks, crew)
        : isShared
          ? this.sharing(asks, crew)
          : this.together(asks, crew);
      if (this.known.size < MOST_REMEMBERED) this.known.set(key, teams);
    }
    return teams;
  }

  private ofOne(skills: bigint): readonly Team[] {
    let teams = this.single.get(skills);
    if (teams === undefined) {
      const isThere = this.problem.people.some((own) => (skills & ~own) === 0n);
      teams = skills === 0n ? NO_TEAMS : isThere ? [[skills]] : [];
      this.single.set(skills, teams);
    }
    return teams;
  }

  private asksAt(skilled: readonly number[], crew: number): Ask[] {
    const { needsOfTasks } = this.problem;
    return skilled
      .flatMap((block) => this.work.members[block]!)
      .filter((task) => needsOfTasks[task] !== 0n)
      .map((task) => ({ need: needsOfTasks[task]!, by: this.mayDo(task, crew) }));
  }

  private mayDo(task: number, crew: number): number {
    const all = crew > MOST_BITS ? -1 : 2 ** crew - 1;
    const { schedule } = this.work;
    const side = schedule?.sides?.[task];
    if (side === undefined) return all;
    if (side === "both" && schedule!.people[task]! > 2) return all;
    return side === "left" ? 1 : side === "right" ? 2 : 3;
  }

  /** What people of the line have of the skills asked for, as far as it makes up whole needs. */
  private typesFor(asks: readonly Ask[]): bigint[] {
    const types = this.problem.people.map((own) =>
      asks.reduce((all, { need }) => ((need & ~own) === 0n ? all | need : all), 0n),
    );
    return [...new Set(types)].filter((type) => type !== 0n).sort(fewestSkillsFirst);
  }

  /** All of them are at one task at a time, so that only who is there matters: somebody for each task, and nobody more. */
  private together(asks: readonly Ask[], crew: number): Team[] {
    const types = this.typesFor(asks);
    const covers = new Map<string, Team>();
    const cover = (chosen: readonly bigint[]) => {
      const open = asks.find((ask) => !isCovered([ask], chosen));
      if (open === undefined) covers.set(chosen.toSorted(fewestSkillsFirst).join(), withOthers(chosen, crew));
      else if (chosen.length < crew)
        for (const type of types) if ((open.need & ~type) === 0n) cover([...chosen, type]);
    };
    cover([]);
    const all = this.staffable([...covers.values()]);
    return all.filter(
      (team, at) =>
        !all.some((other, before) => asksLess(other, team) && (before < at || !asksLess(team, other))),
    );
  }

  /** Each is at a task of their own: two who can do the same may both be needed. Who has which number changes nothing. */
  private sharing(asks: readonly Ask[], crew: number): Team[] {
    const types = this.typesFor(asks);
    const most = Math.min(crew, asks.length, this.problem.people.length);
    const teams: Team[] = [];
    const choose = (from: number, chosen: readonly bigint[]) => {
      if (isCovered(asks, chosen)) teams.push(withOthers(chosen, crew));
      if (chosen.length === most) return;
      for (let type = from; type < types.length; type++) choose(type, [...chosen, types[type]!]);
    };
    choose(0, []);
    return this.staffable(teams);
  }

  /** With one at each side, and others who are at tasks of more than two people only. */
  private atSides(asks: readonly Ask[], crew: number): Team[] {
    const types = [0n, ...this.typesFor(asks)];
    const others = asks.some(({ by }) => by > 3) ? Math.min(crew - 2, asks.length) : 0;
    const teams: Team[] = [];
    const chooseOthers = (from: number, chosen: readonly bigint[]) => {
      if (isCovered(asks, chosen)) teams.push(withOthers(chosen, crew));
      if (chosen.length === 2 + others) return;
      for (let type = Math.max(1, from); type < types.length; type++)
        chooseOthers(type, [...chosen, types[type]!]);
    };
    for (const left of types) for (const right of types) chooseOthers(1, [left, right]);
    return this.staffable(teams);
  }

  private staffable(teams: Team[]): Team[] {
    const sum = (team: Team) => team.reduce((all, own) => all + countSkills(own), 0);
    return teams
      .filter((team) => mayBeStaffed(asksOf(team, 1), this.problem.people))
      .sort((one, two) => sum(one) - sum(two));
  }
}

/** Whether for everything that the first team is asked the second has somebody of its own. */
const asksLess = (one: Team, two: Team): boolean => mayBeStaffed(asksOf(one, 1), asksOf(two, 1));

const isCovered = (asks: readonly Ask[], team: Team): boolean =>
  asks.every(({ need, by }) =>
    team.some((own, person) => (by < 0 || ((by >>> person) & 1) === 1) && (need & ~own) === 0n),
  );

const withOthers = (team: Team, crew: number): Team => [
  ...team,
  ...Array<bigint>(Math.max(0, crew - team.length)).fill(0n),
];

function countSkills(skills: bigint): number {
  let count = 0;
  for (let left = skills; left !== 0n; left &= left - 1n) count++;
  return count;
}

const fewestSkillsFirst = (one: bigint, two: bigint): number =>
  countSkills(one) - countSkills(two) || (one < two ? -1 : one > two ? 1 : 0);

const MOST_BITS = 30;
const MOST_REMEMBERED = 100_000;
