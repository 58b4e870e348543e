import type { Work } from "../work.js";
import type { Carry, Constraint, Site } from "./constraint.js";
import { asksOf, mayBeStaffed, NO_TEAM, type Team } from "./staff-skills.js";
import { Teams } from "./teams.js";

/** What is handed on: the skills asked of people so far, ascending, and of whom at the last station. */
interface Asked {
  readonly all: readonly bigint[];
  readonly last: Team;
}

/**
 * Skills that only some people have: of the people at each task one has all that it needs, each of them at one place only. A further block
 * may bring the people whom those here need, so only a closed station is held against the people it has.
 */
export class Skills implements Constraint {
  /** The blocks here that need a skill. */
  private readonly skilled: number[] = [];
  private readonly teams: Teams;
  private others: readonly bigint[] = [];
  private kind = 0;
  readonly carry: Carry = {
    first: { all: [], last: NO_TEAM } satisfies Asked,
    after: (carried, { places, team }): Asked | null => {
      const all = withPlaces((carried as Asked).all, team, places);
      return mayBeStaffed(all, this.problem.people) ? { all, last: team } : null;
    },
    isNoWorse: (one, two) => isPartOf((one as Asked).all, (two as Asked).all),
  };
  readonly supports: Constraint["supports"];

  constructor(
    work: Work,
    private readonly problem: NonNullable<Work["skills"]>,
  ) {
    this.teams = new Teams(work, problem);
    const isMere = (block: number) => this.needsOf(block) === 0n;
    // Who comes for a task of several people may be needed at others.
    const bringsPeople = (block: number) => work.people[block]! > 1;
    const mayGo = (block: number) => isMere(block) && !bringsPeople(block);
    this.supports = {
      isFree: mayGo,
      mayMoveUp: mayGo,
      mayLeave: (block) => !bringsPeople(block),
      mayStandFor: (two, one) => isMere(two) && isMere(one) && work.people[two] === work.people[one],
      classOf: (block) => (isMere(block) ? String(work.people[block]) : null),
      anyOrder: true,
    };
  }

  static of(work: Work): Skills | null {
    return work.skills === null ? null : new Skills(work, work.skills);
  }

  start({ kind }: Site, carried: unknown): void {
    this.skilled.length = 0;
    this.kind = kind;
    this.others = (carried as Asked).all;
  }

  allows(block: number): boolean {
    if (this.needsOf(block) === 0n) return true;
    this.skilled.push(block);
    const isAllowed = this.holds(1);
    this.skilled.pop();
    return isAllowed;
  }

  join(block: number): void {
    if (this.needsOf(block) !== 0n) this.skilled.push(block);
  }

  leave(block: number): void {
    if (this.needsOf(block) !== 0n) this.skilled.splice(this.skilled.lastIndexOf(block), 1);
  }

  /** With as many people as there may ever be at a place. */
  holds(places: number): boolean {
    if (this.skilled.length === 0) return true;
    const teams = this.teams.of(this.skilled, this.kind, this.teams.mostCrew(this.kind));
    return teams.some((team) => this.areThere(team, places));
  }

  /** Teams of so many people that the line has left for so many places. */
  teamsFor(places: number, crew: number): readonly Team[] {
    const teams = this.teams.of(this.skilled, this.kind, crew);
    if (this.skilled.length === 0) return teams;
    if (teams.length !== 1) return teams.filter((team) => this.areThere(team, places));
    return this.areThere(teams[0]!, places) ? teams : [];
  }

  private areThere(team: Team, places: number): boolean {
    return mayBeStaffed(withPlaces(this.others, team, places), this.problem.people);
  }

  private needsOf(block: number): bigint {
    return this.problem.needs[block]!;
  }
}

/** The team of the station closed last. */
export const lastTeam = (carried: unknown): Team => (carried as Asked).last;

function withPlaces(others: readonly bigint[], team: Team, places: number): readonly bigint[] {
  const own = asksOf(team, places);
  return own.length === 0 ? others : [...others, ...own].sort(byValue);
}

/** Whether all that is asked of people in the first is asked in the second; both ascend. */
function isPartOf(one: readonly bigint[], two: readonly bigint[]): boolean {
  let at = 0;
  for (const each of two) if (at < one.length && one[at] === each) at++;
  return at === one.length;
}

const byValue = (one: bigint, two: bigint): number => (one < two ? -1 : one > two ? 1 : 0);
