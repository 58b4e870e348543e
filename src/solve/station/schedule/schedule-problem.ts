import type { StationSide } from "../../../plan/plan.js";
import type { Ratio } from "../../../time/ratio.js";

/** "both": two people, one at each side, busy at the same time. */
export type WorkSide = "left" | "right" | "either" | "both";

/** What stations that are small schedules know of the tasks of the line, by task number; times in parts of a microsecond. */
export interface ScheduleProblem {
  /** Where each task is worked on a wide product; null on a line without sides. */
  readonly sides: readonly WorkSide[] | null;
  /** People together at each task. */
  readonly people: readonly number[];
  /** What each person is loaded with by a task per good unit. */
  readonly loads: readonly number[];
  /** The same of each model; empty where models are held on average only. */
  readonly modelLoads: readonly (readonly number[])[];
  readonly rows: readonly ScheduleRow[];
  /** For each model share x time done again, which comes on top of all ends. */
  readonly again: readonly { readonly hands: readonly number[]; readonly machines: readonly number[] }[];
  /** Whether units of a model are in the mix: one with a share of 0 counts with a share of 1, and only towards its own limit. */
  readonly isBuilt: readonly boolean[];
  readonly before: readonly (readonly number[])[];
  /** Names of equipment that each task takes, by number. */
  readonly equipment: readonly (readonly number[])[];
  /** For each name its number in `Work.equipment`; -1 where it is not counted. */
  readonly countedAs: readonly number[];
  /** For each name the tasks that may come to be one hold, by the arrows of the whole line. */
  readonly joined: readonly (readonly (readonly number[])[])[];
  /** Whether something may join two holds of one name to one. */
  readonly mayJoinHolds: boolean;
  /** By task whether it may do so itself: several tasks before it, or after it, take equipment of its own. */
  readonly joins: readonly boolean[];
  readonly hasMachines: boolean;
  /** Whether a station that loses a task may hold its equipment for longer: a hold then begins sooner and ends as late. */
  readonly holdsMayGrow: boolean;
  /** Whether one of the tasks lies between two that take the same equipment. */
  isBetween(tasks: readonly number[]): boolean;
}

/** The units of one model and one kind: share of units x time of each task on them. Each row is worked off by itself. */
export interface ScheduleRow {
  readonly model: number;
  readonly hands: readonly number[];
  readonly machines: readonly number[];
  /** The same for one unit, in microseconds. */
  readonly ofUnit: { readonly hands: readonly number[]; readonly machines: readonly number[] };
}

/** What a station with so many places and people must keep; in parts of a microsecond. */
export interface ScheduleLimits {
  /** People at one place who may each be at a task of their own; 1 where all of them work together. */
  readonly persons: number;
  /** How long a unit may stand there, on average. */
  readonly dwell: number;
  /** The busiest person. */
  readonly hands: number;
  /** The same of each model; endless where models are held on average only. */
  readonly model: number;
  /** For each model its share x how long it may stand; endless but with sides, where one of them may wait for the other. */
  readonly modelDwell: readonly number[];
  /** For each counted equipment how long the units at the station have for a unit of the line; endless where nothing says so. */
  readonly equipment: readonly number[];
}

/** Tasks of a station in order of work, with who does them, and what they come to. */
export interface StationOrder {
  readonly tasks: readonly number[];
  /** The side of each task; null on a line without sides. */
  readonly sides: readonly StationSide[] | null;
  /** Who does each task, numbered from 1; null where people work together. */
  readonly persons: readonly (readonly number[])[] | null;
  /** Station time: of the busiest person. */
  readonly hands: number;
  /** The same of each model, with sides no less than dwell / holds; empty where models are held on average only. */
  readonly ofModels: readonly Ratio[];
  readonly dwell: number;
  /** How long each counted equipment is held. */
  readonly equipment: readonly number[];
}
