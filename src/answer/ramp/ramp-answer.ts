import type { Finding } from "../../findings/finding.js";
import type { Learning, Line } from "../../line/line.js";
import type { HeldBy } from "../../plan/figures/cycle.js";
import type { Plan } from "../../plan/plan.js";
import type { Pace } from "../../time/pace.js";
import type { Ratio } from "../../time/ratio.js";
import type { TaktSum } from "../../time/takt.js";
import type { LineFacts } from "../balance/shown-balance.js";

/** A unit of the batch, counted from 1, and the working day on which it is finished; the day is null without a calendar. */
export interface UnitAndDay {
  readonly unit: number;
  readonly day: number | null;
}

/** Tasks that are learned in the same way. */
export interface LearnedTasks {
  readonly learning: Learning;
  readonly tasks: readonly number[];
}

/** A station, or a station of a bench, while it learns. */
export interface RampPost {
  readonly id: string;
  readonly people: number;
  /** From there on it keeps the pace; null where it does not within the batch. */
  readonly paceFrom: UnitAndDay | null;
}

/** Where a station does not keep the pace and more hands would not help: units of the batch one after another. */
export interface HeldUp {
  readonly id: string;
  readonly by: HeldBy;
  readonly from: number;
  readonly to: number;
}

/** What a plan takes at a unit of the batch; times in microseconds. */
export interface PlanAtUnit {
  readonly cycle: Ratio;
  /** How often a good unit comes: the same, or more where waits hold the line up. */
  readonly outputCycle: Ratio;
  /** Null for a plan without stations. */
  readonly slowest: string | null;
  /** The station time and the cycle of each post, in their order: the cycle has handling in it, and is shared among places. */
  readonly times: readonly Ratio[];
  readonly cycles: readonly Ratio[];
  /** Stations that do not keep the pace. */
  readonly overPace: number;
  /** People that these lack, in parts of a person; none where more hands would not help. */
  readonly extraHands: Ratio;
}

/** A plan at one unit of the batch. */
export interface RampUnit extends UnitAndDay, PlanAtUnit {}

/** A working day from its start, the first of the batch being 1. */
export interface RampDay {
  readonly day: number;
  /** Units finished on the day, and at its end in all. */
  readonly made: number;
  readonly madeInAll: number;
  /** The plan at the unit that the day begins with. */
  readonly first: RampUnit;
  /** Good units of the batch wanted so far less those made, never below 0; null without a demand, and where the batch is done. */
  readonly behind: Ratio | null;
  /** People that stations lack, on the mean of the units made that day, or of the first one where none is; in parts of a person. */
  readonly extraHands: Ratio;
  /** Whole people for what stations lack over the day, those units counted that leave them time to spare. */
  readonly hands: number;
}

/** What a batch takes, in microseconds; the same at the times that the file states. */
export interface BatchTime {
  /** Available time of the line. */
  readonly line: Ratio;
  /** Work of all people, person-time, on all units started: the good ones and those that the yield takes. */
  readonly work: Ratio;
}

/** What a plan does unit by unit while its people learn the work. */
export interface RampAnswer {
  readonly line: Line;
  readonly pace: Pace;
  readonly takt: TaktSum | null;
  readonly plan: Plan;
  readonly shown: LineFacts;
  /** Good units of the batch, as far as it was worked out. */
  readonly units: number;
  /** Good units that were asked for: more than those where the work was ended before. */
  readonly unitsAsked: number;
  /** Units started for those of the batch by the yield, in parts of a unit; null for a yield of 100 %. What tests scrap is in the times. */
  readonly unitsStarted: Ratio | null;
  readonly learned: readonly LearnedTasks[];
  readonly posts: readonly RampPost[];
  /** People of all posts. */
  readonly people: number;
  /** Ascending by unit: some of the batch, or each. */
  readonly rows: readonly RampUnit[];
  /** By post, then by unit. */
  readonly heldUp: readonly HeldUp[];
  /** Null without a calendar. */
  readonly days: readonly RampDay[] | null;
  /** From there on every station keeps the pace; null where that is not reached within the batch. */
  readonly paceFrom: UnitAndDay | null;
  /** The unit from which no time falls any more, and the plan then; null where that lies beyond all units that are counted. */
  readonly settled: (Pick<PlanAtUnit, "cycle" | "outputCycle"> & { readonly unit: number }) | null;
  readonly batch: BatchTime;
  readonly atStatedTimes: BatchTime;
  /** Person-time of the extra hands that keep the pace at every unit, in microseconds. */
  readonly extraHandsTime: Ratio;
  /** Rules of the line that the plan breaks, its loads aside: each has its finding. */
  readonly brokenRules: number;
  readonly findings: readonly Finding[];
}
