import type { Finding } from "../findings/finding.js";
import type { Line } from "../line/line.js";
import type { Plan } from "../plan/plan.js";
import type { Ratio } from "../time/ratio.js";
import type { State } from "./watched-line.js";

/** A mean over replications with what it may be off by. */
export interface Interval {
  readonly mean: Ratio;
  /** Half of the confidence interval; null where one replication says nothing of that. */
  readonly halfWidth: Ratio | null;
}

export interface SimulatedStation {
  readonly id: string;
  /** Shares of the time of its places; together 1. */
  readonly shares: Readonly<Record<State, Ratio>>;
  /** Share of its units that take longer than the line cycle leaves them; null where nothing gives the pace, and without units. */
  readonly overrun: Ratio | null;
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

/** A plan on simulated days. */
export interface SimulationAnswer extends SimulationLength {
  readonly line: Line;
  readonly plan: Plan;
  /** Replications that were asked for: more than those where the work was ended before. */
  readonly replicationsAsked: number;
  readonly confidence: Ratio;
  /** Whether anything varies. */
  readonly isRandom: boolean;
  readonly perHour: Interval;
  /** Null without a calendar and where shifts differ. */
  readonly perShift: Interval | null;
  readonly stations: readonly SimulatedStation[];
  /** Units in the line, those that are worked and those that are blocked included. */
  readonly workInProcess: Ratio;
  /** In microseconds; null where no unit left the line. */
  readonly passThrough: Ratio | null;
  /** The station that is busy or down most; the first of equal ones. */
  readonly bottleneck: string;
  /** In microseconds; null where nothing gives the pace. */
  readonly lineCycle: number | null;
  /** Numbers of models; null on a line that builds one. */
  readonly sequence: { readonly models: readonly number[]; readonly isGiven: boolean } | null;
  /** What the line says that is not simulated; told among the findings, too. */
  readonly leftOut: readonly Finding[];
  readonly findings: readonly Finding[];
}
