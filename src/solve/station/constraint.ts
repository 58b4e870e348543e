import type { Team } from "./staff-skills.js";

/** A closed station: at so many places, by so many people at each. */
export interface Closed {
  readonly places: number;
  readonly crew: number;
  /** Units of each counted equipment that it uses. */
  readonly equipment: readonly number[];
  /** Skills asked of each of its people. */
  readonly team: Team;
}

/** What the stations of a partial plan hand on to later ones: an entry for each constraint of the work, null where it hands on nothing. */
export type Carried = readonly unknown[];

/** Where the station being filled stands. */
export interface Site {
  readonly position: number;
  /** The number of its kind in `Work.kinds`. */
  readonly kind: number;
}

/**
 * One thing that the floor asks of a station, or of stations together. A constraint only ever forbids more as blocks join, so a block
 * refused now is refused by every larger load too, and a station that loses a block breaks nothing.
 */
export interface Constraint {
  /** Begins an empty station; `carried` is what this constraint handed on. */
  start(site: Site, carried: unknown): void;
  /** Whether a block, whose predecessors are done, may join those here at one place or another. */
  allows(block: number): boolean;
  join(block: number): void;
  /** Takes a block out again, in any order. */
  leave(block: number): void;
  /** Whether what is here can be worked at so many places; absent where places change nothing. */
  holds?(places: number): boolean;
  /**
   * Whether it can be worked by so many people at each of so many places. Absent where `holds` says it all; asked only of a station that is
   * closed, as blocks still to come may bring more.
   */
  suits?(places: number, crew: number): boolean;
  /** What is handed on across stations; absent where every station stands by itself. */
  readonly carry?: Carry;
  /** What a search may rely on beside this constraint. */
  readonly supports: Supports;
}

/** What a constraint hands on from station to station. */
export interface Carry {
  readonly first: unknown;
  /** After the station as it stands, closed in this way; null where the line has not got what that takes. */
  after(carried: unknown, closed: Closed): unknown;
  /** Whatever goes on from the second goes on from the first. */
  isNoWorse(one: unknown, two: unknown): boolean;
}

/** Which arguments of a search hold beside a constraint; each is used only where all constraints of the work support it. */
export interface Supports {
  /** The constraint never speaks of the block: it may join any station that has the time. */
  isFree(block: number): boolean;
  /** Where the block stands at a later station, an earlier one that may hold it does as well (full loads, Jackson 1956). */
  mayMoveUp(block: number): boolean;
  /** A station that loses the block breaks nothing; absent where that holds of every block. */
  mayLeave?(block: number): boolean;
  /** Wherever the first stands at a later station, the second may take its place (the exchange of Jackson 1956). */
  mayStandFor(two: number, one: number): boolean;
  /** Blocks of one class may change places freely as far as this constraint goes; null: the block has no equals. */
  classOf(block: number): string | null;
  /** Stations may change places as far as this constraint goes. */
  readonly anyOrder: boolean;
  /** Blocks that may not share a station with this one, which is all that the constraint asks; absent where it asks anything else. */
  partedFrom?(block: number): readonly number[];
}

/** What holds beside a constraint that speaks of every block by amounts that add up. */
export const EVERY_BLOCK_COUNTS: Pick<Supports, "isFree" | "mayMoveUp" | "classOf" | "anyOrder"> = {
  isFree: () => false,
  mayMoveUp: () => true,
  classOf: () => null,
  anyOrder: true,
};
