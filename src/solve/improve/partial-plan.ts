import { type Closed, OpenStation } from "../station/open-station.js";
import { mayBeStaffed } from "../station/staff-skills.js";
import type { BlockPlan, FilledStation, Work } from "../work.js";
import { Reach } from "./reach.js";

/** Where a block that has no station stands. */
export const NOWHERE = -1;

/** The first and last position at which a block keeps the arrows and waits towards every block that has a station. */
export interface Room {
  readonly from: number;
  readonly to: number;
}

/**
 * A plan under way in which blocks join and leave stations in any order. What has a station keeps every rule of the line at any
 * time, also towards blocks that have none: those always find positions that keep their arrows.
 */
export class PartialPlan {
  /** The position of each block. */
  readonly at: Int32Array;
  readonly reach: Reach;
  people = 0;
  stations = 0;
  placed = 0;
  /** Ways to join a station that were tried. */
  tries = 0;
  private readonly blocks: number[][];
  private readonly closed: (Closed | null)[];
  private readonly inUse: number[];
  private readonly station: OpenStation;

  constructor(readonly work: Work) {
    this.at = new Int32Array(work.size).fill(NOWHERE);
    this.reach = new Reach(work);
    this.blocks = Array.from({ length: work.positions }, () => []);
    this.closed = this.blocks.map(() => null);
    this.inUse = work.equipment.map(() => 0);
    this.station = new OpenStation(work);
  }

  blocksAt(position: number): readonly number[] {
    return this.blocks[position]!;
  }

  peopleAt(position: number): number {
    const closed = this.closed[position]!;
    return closed === null ? 0 : closed.places * closed.crew;
  }

  closedAt(position: number): Closed | null {
    return this.closed[position]!;
  }

  usedPositions(): number[] {
    return [...this.blocks.keys()].filter((position) => this.blocks[position]!.length > 0);
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
    for (const { block: other, gap } of this.reach.before(block)) {
      const at = this.at[other]!;
      if (at >= 0 && at + gap > from) from = at + gap;
    }
    for (const { block: other, gap } of this.reach.after(block)) {
      const at = this.at[other]!;
      if (at >= 0 && at - gap < to) to = at - gap;
    }
    return { from, to };
  }

  /** How the station would be closed if the block joined it and some others left; null where a rule of the station forbids that. */
  joined(block: number, position: number, leaving: readonly number[] = []): Closed | null {
    this.tries++;
    const { station } = this;
    const own = this.closed[position]!;
    station.start(
      position,
      own === null ? this.inUse : this.inUse.map((used, each) => used - own.equipment[each]!),
    );
    for (const each of this.blocks[position]!) if (!leaving.includes(each)) station.take(each);
    if (!station.canTake(block)) return null;
    station.take(block);
    const closed = station.closings().at(-1)!;
    return this.canStaff(position, closed.places) ? closed : null;
  }

  /** A block joins a station as `joined` said it may. */
  put(block: number, position: number, closed: Closed): void {
    this.at[block] = position;
    this.blocks[position]!.push(block);
    this.placed++;
    this.close(position, closed);
  }

  /** The block leaves its station. */
  remove(block: number): void {
    const position = this.at[block]!;
    const blocks = this.blocks[position]!;
    blocks.splice(blocks.indexOf(block), 1);
    this.at[block] = NOWHERE;
    this.placed--;
    this.close(position, blocks.length === 0 ? null : this.closing(position));
  }

  /** The plan so far, in order of flow. */
  plan(): BlockPlan {
    return this.usedPositions().map((position): FilledStation => {
      const { places, crew } = this.closed[position]!;
      return { position, blocks: [...this.blocks[position]!].sort((one, two) => one - two), places, crew };
    });
  }

  clear(): void {
    for (const position of this.usedPositions()) for (const block of [...this.blocks[position]!]) this.remove(block);
  }

  private closing(position: number): Closed {
    const own = this.closed[position]!;
    this.station.start(
      position,
      this.inUse.map((used, each) => used - own.equipment[each]!),
    );
    for (const each of this.blocks[position]!) this.station.take(each);
    return this.station.closings().at(-1)!;
  }

  private close(position: number, closed: Closed | null): void {
    const before = this.closed[position]!;
    if (before !== null) {
      this.people -= before.places * before.crew;
      this.stations--;
      for (const [each, units] of before.equipment.entries()) this.inUse[each]! -= units;
    }
    if (closed !== null) {
      this.people += closed.places * closed.crew;
      this.stations++;
      for (const [each, units] of closed.equipment.entries()) this.inUse[each]! += units;
    }
    this.closed[position] = closed;
  }

  /** Whether there are people for the skills of all stations, that being filled in the place of the one at its position. */
  private canStaff(position: number, places: number): boolean {
    const { skills } = this.work;
    if (skills === null) return true;
    const needs: bigint[] = [];
    const add = (blocks: readonly number[], times: number) => {
      const need = blocks.reduce((all, block) => all | skills.needs[block]!, 0n);
      if (need !== 0n) needs.push(...Array<bigint>(times).fill(need));
    };
    add(this.station.blocks, places);
    for (const [other, closed] of this.closed.entries())
      if (closed !== null && other !== position) add(this.blocks[other]!, closed.places);
    return mayBeStaffed(needs, skills.people);
  }
}
