import { kindAt, type Work } from "../work.js";
import { Apart } from "./apart.js";
import type { Carried, Carry, Closed, Constraint, Supports } from "./constraint.js";
import { Crew } from "./crew.js";
import { Equipment } from "./equipment.js";
import { KeepPace } from "./keep-pace.js";
import { type KeptSoFar, Labels } from "./labels.js";
import { Limits } from "./limits.js";
import { ModelLoads } from "./models.js";
import { Passes } from "./passes.js";
import { Schedule } from "./schedule.js";
import { lastTeam, Skills } from "./skills.js";
import { asksOf, mayBeStaffed, NO_TEAM, NO_TEAMS, type Team } from "./staff-skills.js";
import { StationTime } from "./time.js";
import { Waits } from "./waits.js";
import { Where } from "./where.js";
import { Zones } from "./zones.js";

/** The constraints of a work beside the time of its stations; none on a plain line. */
function constraintsOf(work: Work) {
  const crew = Crew.of(work);
  const schedule = Schedule.of(work);
  const equipment = Equipment.of(work);
  const zones = Zones.of(work);
  const waits = Waits.of(work);
  const labels = Labels.of(work);
  const skills = Skills.of(work);
  const all: (Constraint | null)[] = [
    Where.of(work),
    zones,
    Apart.of(work),
    waits,
    crew,
    ModelLoads.of(work),
    Passes.of(work),
    Limits.of(work),
    KeepPace.of(work),
    equipment,
    skills,
    labels,
    schedule,
  ];
  return {
    crew,
    schedule,
    equipment,
    skills,
    zones,
    waits,
    labels,
    all: all.filter((each) => each !== null),
  };
}

/**
 * The station being filled: which blocks may join those it holds already, and how it may be closed. It asks the constraints of the
 * work in turn; where none applies there is only the time. What holds of every constraint holds of the station: a block refused now is
 * refused by every larger load too.
 */
export class OpenStation {
  readonly blocks: number[] = [];
  /** Those that apply to the work, beside time. */
  readonly constraints: readonly Constraint[];
  private readonly time: StationTime;
  private readonly all: readonly Constraint[];
  // Those among them that are asked each of these.
  private readonly holders: readonly Constraint[];
  private readonly suiters: readonly Constraint[];
  private readonly carriers: readonly { readonly at: number; readonly carry: Carry }[];
  private readonly crew: Crew | null;
  private readonly schedule: Schedule | null;
  private readonly equipment: Equipment | null;
  private readonly skills: Skills | null;
  private readonly zones: Zones | null;
  private readonly waits: Waits | null;
  private readonly labels: Labels | null;
  private readonly inside: Uint8Array;
  /** Whether what each constraint allows may still not hold together at any number of places. */
  private readonly mustTryPlaces: boolean;
  /** No station has parallel places, so that what each constraint allows holds together but for the schedule. */
  private readonly hasOnePlace: boolean;
  /** The most people that any block brings. */
  private readonly mostTogether: number;
  private kind = 0;
  private carried: Carried = [];

  constructor(private readonly work: Work) {
    const { all, ...known } = constraintsOf(work);
    this.time = new StationTime(work);
    this.constraints = all;
    this.all = [this.time, ...all];
    this.holders = this.all.filter(({ holds }) => holds !== undefined);
    this.suiters = this.all.filter(({ suits }) => suits !== undefined);
    this.carriers = this.all.flatMap(({ carry }, at) => (carry === undefined ? [] : [{ at, carry }]));
    this.crew = known.crew;
    this.schedule = known.schedule;
    this.equipment = known.equipment;
    this.skills = known.skills;
    this.zones = known.zones;
    this.waits = known.waits;
    this.labels = known.labels;
    this.nothingCarried = this.all.map(({ carry }) => carry?.first ?? null);
    this.inside = new Uint8Array(work.size);
    this.mostTogether = work.people.reduce((most, each) => Math.max(most, each), 1);
    this.hasOnePlace = work.kinds.every(({ limits }) => limits.length === 1);
    this.mustTryPlaces = this.schedule !== null || !this.hasOnePlace;
  }

  /** What a search may rely on beside each constraint, time among them. */
  get supports(): Supports[] {
    return this.all.map(({ supports }) => supports);
  }

  /** What the first station is handed on. */
  readonly nothingCarried: Carried;

  /**
   * Begins an empty station; `inUse` is the counted equipment used by the stations before it. Other things that are handed on from
   * station to station are not looked at here.
   */
  start(position: number, inUse: readonly number[]): void {
    const nothing = this.nothingCarried;
    this.startAfter(
      position,
      this.all.map((each, at) =>
        each === this.equipment ? inUse : each === this.waits || each === this.labels ? null : nothing[at],
      ),
    );
  }

  /** Begins an empty station after others that hand on this. */
  startAfter(position: number, carried: Carried): void {
    for (const block of this.blocks) this.inside[block] = 0;
    this.blocks.length = 0;
    this.kind = kindAt(this.work, position);
    this.carried = carried;
    const site = { position, kind: this.kind };
    for (let at = 0; at < this.all.length; at++) this.all[at]!.start(site, carried[at]);
  }

  get load(): number {
    return this.time.load;
  }

  /** The zone of the blocks here; null where none of them has one. */
  get zone(): string | null {
    return this.zones?.zone ?? null;
  }

  /** What was asked last is not known, since the steps allowed for orders were used up; what was answered then means nothing. */
  get isUndecided(): boolean {
    return this.schedule?.isUndecided ?? false;
  }

  /** Tasks put in order so far, to see whether loads can be worked off. */
  get orderSteps(): number {
    return this.schedule?.steps ?? 0;
  }

  /** Lets questions about orders of work take so many further steps; without a word there is no limit. What was begun goes on. */
  allowOrderSteps(most: number): void {
    this.schedule?.allowSteps(most);
  }

  has(block: number): boolean {
    return this.inside[block] === 1;
  }

  /** Whether a block, whose predecessors are done, may join. */
  canTake(block: number): boolean {
    for (const each of this.all) if (!each.allows(block)) return false;
    if (!this.mustTryPlaces || (this.hasOnePlace && this.schedule?.isMereWith(block))) return true;
    this.take(block);
    const fits = this.mayComeToSomething();
    this.leave(block);
    return fits;
  }

  take(block: number): void {
    this.blocks.push(block);
    this.inside[block] = 1;
    for (const each of this.all) each.join(block);
  }

  giveBack(): void {
    this.leave(this.blocks.at(-1)!);
  }

  /** Takes a block out again, in any order. */
  leave(block: number): void {
    // Mostly the last.
    if (this.blocks.at(-1) === block) this.blocks.pop();
    else this.blocks.splice(this.blocks.lastIndexOf(block), 1);
    this.inside[block] = 0;
    for (const each of this.all) each.leave(block);
  }

  /** The fewest places that hold the load, with the crew; null where not even the most places do. */
  close(): Closed | null {
    return this.schedule === null ? this.closeAlike(true) : (this.ways()[0] ?? null);
  }

  /**
   * Every way to close the station that may be of use, the one of the fewest people last: more places only where they take fewer people in
   * all, more of either only where they take fewer units of counted equipment. Three places with one person each do for either side what two
   * places with two people do.
   */
  closings(): Closed[] {
    if (this.schedule !== null) return this.ways().sort(mostPeopleFirst);
    const closed = this.close();
    if (closed === null) return [];
    const { places, crew } = closed;
    return this.skills === null || crew === 1
      ? [closed]
      : this.teamsFor(places, crew).map((team) => ({ ...closed, team }));
  }

  /** The ways to close a station that is a schedule with so many places and people at each, whether or not fewer would do. */
  closingsAs(places: number, crew: number): Closed[] {
    const left = this.equipment?.left ?? this.work.equipment.map(({ count }) => count);
    return this.teamsFor(places, crew).flatMap((team) =>
      this.schedule!.unitsFor(places, crew, left, team).map((equipment) => ({
        places,
        crew,
        equipment,
        team,
      })),
    );
  }

  /** The same where stations are schedules, the fewest places first. */
  private ways(): Closed[] {
    const schedule = this.schedule!;
    const together = this.crew?.most ?? 1;
    const left = this.equipment?.left ?? this.work.equipment.map(({ count }) => count);
    const needed = this.equipment?.needed ?? this.noUnits();
    const found: Closed[] = [];
    const isOfUse = (way: Closed) => !found.some((other) => takesNoMore(other, way));
    for (let places = 1; places <= this.mostPlaces; places++) {
      if (!this.allHold(places)) continue;
      for (let crew = together; crew <= schedule.mostCrew(together); crew++) {
        const teams = this.teamsFor(places, crew).filter((team) =>
          isOfUse({ places, crew, equipment: needed, team }),
        );
        if (teams.length === 0) continue;
        if (!this.allSuit(places, crew)) continue;
        for (const team of teams) {
          if (!isOfUse({ places, crew, equipment: needed, team })) continue;
          for (const equipment of schedule.unitsFor(places, crew, left, team)) {
            const way = { places, crew, equipment, team };
            if (isOfUse(way)) found.push(way);
          }
        }
      }
    }
    return found.filter((way) => !found.some((other) => other !== way && takesNoMore(other, way)));
  }

  private teamsFor(places: number, crew: number): readonly Team[] {
    return this.skills === null ? NO_TEAMS : this.skills.teamsFor(places, crew);
  }

  /** What the station may hand on, closed in this way; none where the line has not got what that takes. */
  carriedOn(closed: Closed): Carried[] {
    const next: unknown[] = this.all.map(() => null);
    for (const { at, carry } of this.carriers) {
      const after = carry.after(this.carried[at], closed);
      if (after === null) return [];
      next[at] = after;
    }
    const { labels } = this;
    return labels === null
      ? [next]
      : labels.choices().map((each) => next.with(this.all.indexOf(labels), each));
  }

  /** Units of counted equipment that a station uses between two of what is handed on. */
  unitsBetween(before: Carried, after: Carried): number[] {
    const used = (carried: Carried) =>
      this.equipment === null
        ? this.noUnits()
        : (carried[this.all.indexOf(this.equipment)] as readonly number[]);
    const [from, to] = [used(before), used(after)];
    return to.map((units, at) => units - (from[at] ?? 0));
  }

  /** What is asked of the people of the station after which this is handed on. */
  teamOf(carried: Carried): Team {
    return this.skills === null ? NO_TEAM : lastTeam(carried[this.all.indexOf(this.skills)]);
  }

  /** Whether it matters which blocks stay behind for later stations. */
  get mindsWhatStays(): boolean {
    return this.labels !== null;
  }

  /** A block that could stand here is left for a later station, or may be taken again. */
  passOver(block: number, isBack: boolean): void {
    this.labels?.passOver(block, isBack);
  }

  /** Whether anything can come of the blocks here with those passed over. */
  get mayClose(): boolean {
    return this.labels?.mayClose ?? true;
  }

  /** How today's plan is kept so far, of what is handed on; null where nothing is to be kept. */
  keptOf(carried: Carried): KeptSoFar | null {
    return this.labels === null ? null : (carried[this.all.indexOf(this.labels)] as KeptSoFar);
  }

  /** Whatever goes on from the second goes on from the first, as far as stations hand on anything. */
  isNoWorse(one: Carried, two: Carried): boolean {
    for (const { at, carry } of this.carriers) if (!carry.isNoWorse(one[at], two[at])) return false;
    return true;
  }

  /**
   * Where the crew is the same at any number of places.
   *
   * @param isLast no block is to come that brings more people
   */
  private closeAlike(isLast: boolean): Closed | null {
    const crew = this.crew?.most ?? 1;
    for (let places = 1; places <= this.mostPlaces; places++) {
      if (!this.allHold(places)) continue;
      if (isLast && !this.allSuit(places, crew)) continue;
      const [team] = isLast ? this.teamsFor(places, crew) : NO_TEAMS;
      if (team === undefined) continue;
      return { places, crew, equipment: this.equipment?.needed ?? this.noUnits(), team };
    }
    return null;
  }

  private get mostPlaces(): number {
    return this.work.kinds[this.kind]!.limits.length;
  }

  private allSuit(places: number, crew: number): boolean {
    for (const each of this.suiters) if (!each.suits!(places, crew)) return false;
    return true;
  }

  private allHold(places: number): boolean {
    for (const each of this.holders) if (!each.holds!(places)) return false;
    return true;
  }

  /** Whether anything can come of the blocks here, with others or without. */
  private mayComeToSomething(): boolean {
    const { schedule } = this;
    if (schedule === null) return this.closeAlike(false) !== null;
    const left = this.equipment?.left ?? this.work.equipment.map(({ count }) => count);
    for (let places = 1; places <= this.mostPlaces; places++)
      if (this.allHold(places) && schedule.mayHold(places, this.mostTogether, left)) return true;
    return false;
  }

  private noUnits(): number[] {
    return this.work.equipment.map(() => 0);
  }

  /**
   * Whether a further block could just as well stand here: whatever plan goes on from this load, the block may move here from
   * its later station. Not where the block takes something that other stations share.
   *
   * @param closings how this load may be closed
   */
  couldHold(block: number, closings: readonly Closed[]): boolean {
    if (!this.all.every(({ supports }) => supports.mayMoveUp(block)) || !this.canTake(block)) return false;
    this.take(block);
    const larger = this.closings();
    this.leave(block);
    return takeNoMore(larger, closings);
  }
}

/** Whether for each way of the second list there is one of the first that takes no more places, people and units. */
export const takeNoMore = (ones: readonly Closed[], others: readonly Closed[]): boolean =>
  others.every((other) =>
    ones.some((each) => each.places <= other.places && each.crew <= other.crew && usesNoMore(each, other)),
  );

/** Whether the first takes no more people and no more units of any equipment. */
const takesNoMore = (one: Closed, two: Closed): boolean =>
  one.places * one.crew <= two.places * two.crew && usesNoMore(one, two);

/** Whether the first uses no more units of any equipment, and asks no more of people than the second. */
const usesNoMore = (one: Closed, two: Closed): boolean =>
  one.equipment.every((units, at) => units <= two.equipment[at]!) &&
  (one.team.length === 0 || (one.team === two.team && one.places <= two.places) || asksNoMore(one, two));

const asksNoMore = (one: Closed, two: Closed): boolean =>
  mayBeStaffed(asksOf(one.team, one.places), asksOf(two.team, two.places));

function mostPeopleFirst(one: Closed, two: Closed): number {
  const sum = ({ equipment }: Closed) => equipment.reduce((all, units) => all + units, 0);
  return two.places * two.crew - one.places * one.crew || sum(two) - sum(one);
}
