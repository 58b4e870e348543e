import type { Finding } from "../findings/finding.js";
import type { Line } from "../line/line.js";
import type { Plan } from "../plan/plan.js";
import type { Ratio } from "../time/ratio.js";
import type { Interval } from "./intervals.js";
import type { ShiftDemand } from "./shift-demand.js";
import type { SimulatedBench } from "./simulated-benches.js";
import type { State } from "./watched-line.js";

export interface SimulatedStation {
  readonly id: string;
  /** Shares of the time of its places; together 1. */
  readonly shares: Readonly<Record<State, Ratio>>;
  /** Share of its units that take longer than the line cycle leaves them; null where nothing gives the pace, and without units. */
  readonly overrun: Ratio | null;
}

/** Room between a station and the next one, and the units there; those that stay at a place for want of room are not in it. */
export interface SimulatedBuffer {
  /** Names of the stations. */
  readonly after: string;
  readonly before: string;
  /** Units that find room. */
  readonly size: number;
  /** Units there, on average over the hours watched, and most at a time. */
  readonly mean: Ratio;
  readonly most: number;
  /** Share of the units that come to the next station which wait there, and how long each of all these units does, in microseconds; null where none came. */
  readonly waiting: Ratio | null;
  readonly wait: Ratio | null;
}

/** A part at a station, whose containers are followed. */
export interface SimulatedPart {
  readonly station: string;
  readonly id: string;
  readonly pack: number;
  readonly containers: number;
  /** Units that waited for it, on average over the hours watched. */
  readonly waiting: Ratio;
}

/** What units ride on along a line that moves together. */
export interface CarriersOfRun {
  /** Of good units in the line cycle. */
  readonly perGoodUnit: Ratio;
  /** One comes so often, in microseconds, which is so many in an hour. */
  readonly every: Ratio;
  readonly perHour: Ratio;
  /** How often one should come for the demand, by what was made; null where the demand may be met, and where stations hold the line up. */
  readonly everyForDemand: Ratio | null;
}

/** What tests found, and who repairs off the line. */
export interface RepairsOfRun {
  readonly people: number;
  /** Share of their time that they repair. */
  readonly busy: Ratio;
  /** Of the hours watched. */
  readonly repairsPerHour: Ratio;
  readonly scrappedPerHour: Ratio;
  /** Null on an unpaced line, and where nothing gives the pace. */
  readonly carriers: CarriersOfRun | null;
}

/** One of the equal parts of the hours that are watched. */
export interface CourseSlice {
  /** When it ends, in microseconds of those hours. */
  readonly until: number;
  /** Good units made up to then, and those wanted; null where nothing gives the pace. */
  readonly made: Ratio;
  readonly wanted: Ratio | null;
  /** Units in the line, on average of the slice. */
  readonly inLine: Ratio;
}

/** One change of a line, run again with the random numbers of the line as it is. */
export interface Help {
  /** Room for one unit more after the station, one workplace more there, one container more of a part, or room for more sets after a bench. */
  readonly kind: "buffer" | "workplace" | "container" | "room";
  /** Or bench. */
  readonly station: string;
  /** For so many more; of room after a bench only. */
  readonly sets?: number;
  /** Of one container more; else null. */
  readonly part: string | null;
  /** People whom it takes. */
  readonly people: number;
  /** Good units an hour. */
  readonly perHour: Interval;
  /** Good units an hour more, of each replication against itself. */
  readonly more: Interval;
  /** The interval of what it brings leaves out 0. */
  readonly isShown: boolean;
}

/** How far stations may be loaded for the demand to be met: all work is made shorter or longer by one factor, handling is not. */
export interface PlanToHelp {
  /** Share of its working time that the station with the most work takes now. */
  readonly now: Ratio;
  /** The highest such share, in whole percents up to 100 %, at which the lower end of the interval is no less than what is wanted (by one replication: at which it made no less); null where none from 50 % is. */
  readonly planTo: Ratio | null;
  /** Good units an hour at that share; null without one. */
  readonly perHour: Interval | null;
  /** Good units wanted an hour. */
  readonly wanted: Ratio;
}

export interface WhatHelps {
  /** What brings most first; those that show no difference by name, along the line. */
  readonly helps: readonly Help[];
  /** Changes to be run: more than those where the work was ended before. */
  readonly changes: number;
  /** The work was ended before all of it was done. */
  readonly isEnded: boolean;
  /** Null where nothing gives a demand, and on lines that never make more than their pace. */
  readonly planTo: PlanToHelp | null;
}

/** How long a simulation is; times in microseconds. */
export interface SimulationLength {
  readonly seed: number;
  readonly replications: number;
  /** Watched in each replication. */
  readonly hours: number;
  /** Before that. */
  readonly warmUp: number;
}

/** Where a line that starts empty has settled in trial runs. */
export interface Settled {
  /** In microseconds from the start. */
  readonly after: number;
  readonly trials: number;
  /** Units of the slowest station in each of them. */
  readonly units: number;
  /** It had not by half of the longest trial where this is false; that is when `after` is. */
  readonly isSettled: boolean;
}

/** What of a length the tool chose, and why. */
export interface ChosenLength {
  /** Hours for so many units of the slowest station; null where they were given. */
  readonly units: number | null;
  /** Null where the warm-up was given, and where Ctrl-C came before it was found. */
  readonly settled: Settled | null;
  readonly isWarmUpGiven: boolean;
  readonly areReplicationsGiven: boolean;
}

/** A half-width that was asked for. */
export interface Within {
  /** Share of the good units an hour. */
  readonly share: Ratio;
  /** Replications that are run for it at most. */
  readonly most: number;
}

/** A plan on simulated days. */
export interface SimulationAnswer extends SimulationLength {
  readonly line: Line;
  readonly plan: Plan;
  /** Replications that were to be run: more than those where the work was ended before. */
  readonly replicationsAsked: number;
  readonly confidence: Ratio;
  readonly chosen: ChosenLength;
  /** Null where none was asked for. */
  readonly within: (Within & { readonly isReached: boolean }) | null;
  /** Whether anything varies. */
  readonly isRandom: boolean;
  readonly perHour: Interval;
  /** Good units wanted in an hour in which the line runs; null where nothing gives the pace. */
  readonly wantedPerHour: Ratio | null;
  /** Null without a calendar, where nothing gives the pace, and where no whole shift was watched. */
  readonly shiftDemand: ShiftDemand | null;
  /** Null without a calendar and where shifts differ. */
  readonly perShift: Interval | null;
  readonly stations: readonly SimulatedStation[];
  /** Where there is room for a unit at least, along the line. */
  readonly buffers: readonly SimulatedBuffer[];
  /** Those that are simulated. */
  readonly benches: readonly SimulatedBench[];
  /** Parts whose containers are followed. */
  readonly parts: readonly SimulatedPart[];
  /** Units may wait at a station for what they need there. */
  readonly canWait: boolean;
  /** Units in the line, those that are worked and those that are blocked included. */
  readonly workInProcess: Ratio;
  /** In microseconds; null where no unit left the line. */
  readonly passThrough: Ratio | null;
  /** The station that is busy or down, or waits for parts or equipment, most; the first of equal ones. Null where another one may be that, as far as can be told. */
  readonly bottleneck: string | null;
  /** That station and those that may be it instead, along the line; none where the pace of a line that moves together limits it. */
  readonly bottlenecks: readonly string[];
  /** In microseconds; null where nothing gives the pace. */
  readonly lineCycle: number | null;
  /** Null where no failures are drawn. */
  readonly repair: RepairsOfRun | null;
  /** What was made and what was in the line as the hours went by, on average of all replications. */
  readonly course: readonly CourseSlice[];
  /** Null where nobody asked. */
  readonly whatHelps: WhatHelps | null;
  /** Waits or machines of the line go on in pauses of its calendar. */
  readonly goesOnInPauses: boolean;
  /** Units wait between two tasks of the line. */
  readonly hasWaits: boolean;
  /** Stations on the way at which nobody works and a unit stands, as the line moves together. */
  readonly emptyStations: number;
  /** Several units may stand at a workplace, whose people work on one at a time. */
  readonly sharesPeople: boolean;
  /** Numbers of models; null on a line that builds one. */
  readonly sequence: { readonly models: readonly number[]; readonly isGiven: boolean } | null;
  /** What the line says that is not simulated; told among the findings, too. */
  readonly leftOut: readonly Finding[];
  readonly findings: readonly Finding[];
}
