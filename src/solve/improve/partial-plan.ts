import { arrangeBlocks } from "../station/arrange-blocks.js";
import type { Closed } from "../station/constraint.js";
import { OpenStation } from "../station/open-station.js";
import { asksOf, mayBeStaffed } from "../station/staff-skills.js";
import { StationTime } from "../station/time.js";
import { type BlockPlan, type FilledStation, kindAt, type Work } from "../work.js";
import { Reach, type Reached } from "./reach.js";

/** Where a block that has no station stands. */
export const NOWHERE = -1;

/** The first and last position at which a block keeps the arrows and waits towards every block that has a station. */
export interface Room {
  readonly from: number;
  readonly to: number;
}

/** Blocks without which a station takes so many people less. */
export interface Release {
  readonly blocks: readonly number[];
  readonly freed: number;
}

/** A plan under way as it was once. */
export interface Snapshot {
  readonly at: Int32Array;
  readonly closed: ReadonlyMap<number, Closed>;
}

/**
 * A plan under way in which blocks join and leave stations in any order. The blocks that have a station keep every rule of the line
 * at any time; since arrows are followed through blocks that have none, those always find positions between what they lie between.
 */
export class PartialPlan {
  /** The position of each block. */
  readonly at: Int32Array;
  readonly reach: Reach;
  people = 0;
  stations = 0;
  placed = 0;
  /** Ways to join a station that were tried, and what was looked at to see whether loads can be worked off. */
  tries = 0;
  private readonly blocks: number[][];
  private readonly closed: (Closed | null)[];
  private readonly releases: (readonly Release[] | null)[];
  private readonly inUse: number[];
  /** No block with a higher number has a station. */
  private highest = NOWHERE;
  private readonly station: OpenStation;
  private readonly time: StationTime;

  constructor(readonly work: Work) {
    this.at = new Int32Array(work.size).fill(NOWHERE);
    this.reach = Reach.of(work);
    this.blocks = Array.from({ length: work.positions }, () => []);
    this.closed = this.blocks.map(() => null);
    this.releases = this.blocks.map(() => null);
    this.inUse = work.equipment.map(() => 0);
    this.station = new OpenStation(work);
    this.time = new StationTime(work);
  }

  blocksAt(position: number): readonly number[] {
    return this.blocks[position]!;
  }

  peopleAt(position: number): number {
    return peopleOf(this.closed[position]!);
  }

  usedPositions(): number[] {
    return [...this.blocks.keys()].filter((position) => this.blocks[position]!.length > 0);
  }

  /** The blocks that have no station. */
  left(): number[] {
    return [...this.at.keys()].filter((block) => this.at[block] === NOWHERE);
  }

  /** The position behind the floor and all stations: those after it are like it. */
  end(): number {
    let end = this.work.positions - 1;
    while (end >= this.work.kinds.length && this.blocks[end - 1]!.length === 0) end--;
    return end;
  }

  roomOf(block: number): Room {
    let from = this.work.first[block]!;
    let to = this.work.last[block]!;
    for (const { block: other, gap } of this.nearest(block, "before")) {
      const at = this.at[other]!;
      if (at >= 0 && at + gap > from) from = at + gap;
    }
    for (const { block: other, gap } of this.nearest(block, "after")) {
      const at = this.at[other]!;
      if (at >= 0 && at - gap < to) to = at - gap;
    }
    return { from, to };
  }

  /** What is before or after a block, as far as it says where the block may stand: the next ones alone where all of them have a station. */
  private nearest(block: number, side: "before" | "after"): readonly Reached[] {
    // What comes after a block has a higher number.
    if (side === "after" && block >= this.highest) return NONE_REACHED;
    const isPlaced = this.work[side][block]!.every((other) => this.at[other]! >= 0);
    if (isPlaced) return this.reach.neighbours(block, side);
    return this.nearestPlaced(block, side) ?? this.reach[side](block);
  }

  /**
   * The next blocks with a station, through blocks that have none; what lies behind them keeps to where they stand. Null where so many have
   * none that what was looked up for good is quicker.
   */
  private nearestPlaced(block: number, side: "before" | "after"): readonly Reached[] | null {
    const gaps = new Map([[block, 0]]);
    // Each before what it leads to: in order of numbers, as arrows go.
    const open = [block];
    const found: Reached[] = [];
    for (let looked = 0; open.length > 0; looked++) {
      if (looked > MOST_WITHOUT_STATION) return null;
      const at = side === "before" ? open.indexOf(Math.max(...open)) : open.indexOf(Math.min(...open));
      const [each] = open.splice(at, 1);
      const gap = gaps.get(each!)!;
      if (each !== block && this.at[each!]! >= 0) {
        found.push({ block: each!, gap });
        continue;
      }
      for (const { block: other, gap: more } of this.reach.neighbours(each!, side)) {
        if (!gaps.has(other)) open.push(other);
        gaps.set(other, Math.max(gaps.get(other) ?? 0, gap + more));
      }
    }
    return found;
  }

  /** Blocks that must not stand where they do if this block stands at the position. */
  inTheWay(block: number, position: number): number[] {
    const found: number[] = [];
    for (const { block: other, gap } of this.reach.before(block))
      if (this.at[other]! >= 0 && this.at[other]! + gap > position) found.push(other);
    for (const { block: other, gap } of this.reach.after(block))
      if (this.at[other]! >= 0 && this.at[other]! - gap < position) found.push(other);
    return found;
  }

  /** For each position what the blocks weigh that are in the way of this block there, as `inTheWay` lists them. */
  weighInTheWay(block: number, weights: Int32Array): Float64Array {
    const { positions } = this.work;
    // What comes into the way at a position, and what goes out of it there; then sums of these.
    const weighed = new Float64Array(positions + 1);
    for (const { block: other, gap } of this.reach.before(block)) {
      const end = this.at[other]! < 0 ? 0 : Math.min(this.at[other]! + gap, positions);
      weighed[0]! += end === 0 ? 0 : weights[other]!;
      weighed[end]! -= end === 0 ? 0 : weights[other]!;
    }
    for (const { block: other, gap } of this.reach.after(block))
      if (this.at[other]! >= 0) weighed[Math.max(0, this.at[other]! - gap + 1)]! += weights[other]!;
    for (let position = 1; position < positions; position++) weighed[position]! += weighed[position - 1]!;
    return weighed;
  }

  /**
   * How the station would be closed, with the fewest people, if the block joined it and some others left; null where the station
   * cannot hold it. Arrows and waits are for `roomOf`.
   */
  joined(block: number, position: number, leaving: readonly number[] = []): Closed | null {
    this.tries++;
    if (!this.hasTimeFor(block, position, leaving)) return null;
    this.begin(position);
    const { station } = this;
    for (const each of this.blocks[position]!) if (!leaving.includes(each)) station.take(each);
    const before = station.orderSteps;
    const mayJoin = station.canTake(block);
    this.countOrderSteps(before);
    if (!mayJoin) return null;
    station.take(block);
    return this.fewestPeople(position);
  }

  /** The block joins a station that is then closed as `joined` said. */
  put(block: number, position: number, closed: Closed): void {
    this.at[block] = position;
    this.blocks[position]!.push(block);
    this.placed++;
    this.highest = Math.max(this.highest, block);
    this.close(position, closed);
  }

  /** Whether the block could join the station, and did. */
  tryPut(block: number, position: number): boolean {
    const { from, to } = this.roomOf(block);
    if (position < from || position > to) return false;
    const closed = this.joined(block, position);
    if (closed !== null) this.put(block, position, closed);
    return closed !== null;
  }

  /** The block leaves its station. */
  remove(block: number): void {
    const position = this.at[block]!;
    const closed = this.without(position, [block]);
    const blocks = this.blocks[position]!;
    blocks.splice(blocks.indexOf(block), 1);
    this.at[block] = NOWHERE;
    this.placed--;
    this.close(position, closed);
  }

  clear(): void {
    for (const block of this.at.keys()) if (this.at[block]! >= 0) this.remove(block);
    this.highest = NOWHERE;
  }

  /** Sets of blocks without which a station takes fewer people: all of it, or those that ask for the people or for the places. */
  releasesAt(position: number): readonly Release[] {
    this.releases[position] ??= this.findReleases(position);
    return this.releases[position]!;
  }

  snapshot(): Snapshot {
    const closed = new Map<number, Closed>();
    for (const position of this.usedPositions()) closed.set(position, this.closed[position]!);
    return { at: this.at.slice(), closed };
  }

  restore({ at, closed }: Snapshot): void {
    for (const position of this.usedPositions()) {
      this.blocks[position]!.length = 0;
      this.close(position, null);
    }
    this.at.set(at);
    this.placed = 0;
    for (const [block, position] of at.entries()) {
      if (position < 0) continue;
      this.blocks[position]!.push(block);
      this.placed++;
      this.highest = Math.max(this.highest, block);
    }
    for (const [position, each] of closed) this.close(position, each);
  }

  /** Every block stands where a whole plan has it, which keeps every rule; false, and nothing changes, where it does not. */
  stand(positionOf: readonly number[]): boolean {
    const { first, last, positions } = this.work;
    const isWithin = positionOf.every(
      (position, block) => position >= first[block]! && position <= Math.min(last[block]!, positions - 1),
    );
    const plan = isWithin ? arrangeBlocks(this.work, positionOf) : null;
    if (plan === null) return false;
    const closed = plan.map(
      ({ position, places, crew, equipment, team }) =>
        [position, { places, crew, equipment: equipment!, team: team! }] as const,
    );
    this.restore({ at: Int32Array.from(positionOf), closed: new Map(closed) });
    return true;
  }

  /** Where positions do not matter by themselves, leaves an empty one before, between and after all stations if there are so many. */
  spread(): void {
    const { at, closed } = this.snapshot();
    const used = [...closed.keys()];
    if (this.work.isPositional || 2 * used.length + 1 > this.work.size) return;
    const moved = new Map(used.map((position, each) => [position, 2 * each + 1]));
    this.restore({
      at: at.map((position) => moved.get(position) ?? NOWHERE),
      closed: new Map(used.map((position) => [moved.get(position)!, closed.get(position)!])),
    });
  }

  /** The plan so far, in order of flow. */
  plan(): BlockPlan {
    return this.usedPositions().map((position): FilledStation => {
      const blocks = [...this.blocks[position]!].sort((one, two) => one - two);
      return { position, blocks, ...this.closed[position]! };
    });
  }

  private findReleases(position: number): Release[] {
    const blocks = this.blocks[position]!;
    const people = this.peopleAt(position);
    const found: Release[] = [{ blocks: [...blocks], freed: people }];
    if (people === 1) return found;
    const offer = (gone: readonly number[]): boolean => {
      if (gone.length === 0 || gone.length === blocks.length) return false;
      const freed = people - peopleOf(this.without(position, gone));
      if (freed > 0) found.push({ blocks: gone, freed });
      return freed > 0;
    };
    const crews = new Set(blocks.map((block) => this.work.people[block]!));
    for (const crew of crews) offer(blocks.filter((block) => this.work.people[block]! > crew));
    if (blocks.length > MOST_IN_PAIRS) return found;
    for (const [at, one] of blocks.entries()) {
      if (offer([one])) continue;
      for (const two of blocks.slice(at + 1)) offer([one, two]);
    }
    return found;
  }

  /** How the station is closed without some of its blocks; null where none is left. */
  private without(position: number, leaving: readonly number[]): Closed | null {
    const blocks = this.blocks[position]!;
    if (blocks.length === leaving.length) return null;
    this.tries++;
    this.begin(position);
    for (const each of blocks) if (!leaving.includes(each)) this.station.take(each);
    // Fewer blocks can always stand as more of them did.
    return this.fewestPeople(position) ?? this.closed[position]!;
  }

  /** Most that cannot join fail by their load, which is quicker to see than by all that is asked of a station. */
  private hasTimeFor(block: number, position: number, leaving: readonly number[]): boolean {
    this.time.start({ position, kind: kindAt(this.work, position) });
    for (const each of this.blocks[position]!) if (!leaving.includes(each)) this.time.join(each);
    return this.time.allows(block);
  }

  private begin(position: number): void {
    const own = this.closed[position]!;
    const inUse = own === null ? this.inUse : this.inUse.map((used, each) => used - own.equipment[each]!);
    this.station.start(position, inUse);
    this.station.allowOrderSteps(MOST_ORDER_STEPS);
  }

  private countOrderSteps(before: number): void {
    this.tries += Math.floor((this.station.orderSteps - before) / ORDER_STEPS);
  }

  /** With people who have their skills beside those of all other stations. */
  private fewestPeople(position: number): Closed | null {
    const before = this.station.orderSteps;
    const closings = this.station.closings();
    this.countOrderSteps(before);
    const { skills } = this.work;
    if (skills === null) return closings.at(-1) ?? null;
    const others = this.closed.flatMap((closed, other) =>
      closed === null || other === position || closed.team.length === 0
        ? []
        : asksOf(closed.team, closed.places),
    );
    const isStaffed = ({ team, places }: Closed) =>
      mayBeStaffed([...others, ...asksOf(team, places)], skills.people);
    return closings.findLast(isStaffed) ?? null;
  }

  private close(position: number, closed: Closed | null): void {
    const before = this.closed[position]!;
    if (before !== null) {
      this.people -= peopleOf(before);
      this.stations--;
      for (const [each, units] of before.equipment.entries()) this.inUse[each]! -= units;
    }
    if (closed !== null) {
      this.people += peopleOf(closed);
      this.stations++;
      for (const [each, units] of closed.equipment.entries()) this.inUse[each]! += units;
    }
    this.closed[position] = closed;
    this.releases[position] = null;
  }
}

/** So many blocks without a station are followed each time they are met. */
const MOST_WITHOUT_STATION = 30;

const NONE_REACHED: readonly Reached[] = [];

const peopleOf = (closed: Closed | null): number => (closed === null ? 0 : closed.places * closed.crew);

/** Tasks put in order that count as a way tried, and the most for one question; what takes longer counts as not fitting. */
const ORDER_STEPS = 32;
const MOST_ORDER_STEPS = 16_000;
/** Pairs of blocks are looked at where a station holds no more than this. */
const MOST_IN_PAIRS = 12;
