import type { BenchFigures } from "../../benches/measure-bench.js";
import type { Finding } from "../../findings/finding.js";
import type { Line, LineOption } from "../../line/line.js";
import type { Plan } from "../../plan/plan.js";
import type { Post } from "../../plan/post.js";
import type { Pace } from "../../time/pace.js";
import type { TaktSum } from "../../time/takt.js";
import type { BalanceAnswer, Outcome } from "../balance/balance-answer.js";

export type { Progress, Watch } from "../../solve/watch-times.js";

/** One column of a comparison that is asked for; plain data, so that it can be handed to another thread. */
export interface AskedOption {
  readonly name: string;
  /** The whole line as the option has it. */
  readonly line: Line;
  /** What changes; null for a line as its file has it. */
  readonly option: LineOption | null;
  readonly pace: Pace;
  /** The sum behind the pace; null where the line cycle was given. */
  readonly takt: TaktSum | null;
  /** Today's plan in task numbers of this line; null where it is not known. */
  readonly today: Plan | null;
  /** Partial plans that each search may look at, and how often they double until a plan is found; never where left out. */
  readonly nodes: number;
  readonly doublings?: number;
}

/** From which demand on the people of a line are fewer than those at tables; demands are whole units in `period`. */
export interface WhereLinePays {
  /** The line that is compared, by the name of its option. */
  readonly line: string;
  readonly period: "shift" | "day" | "hour";
  /** The least demand at which the line needs fewer people, with both numbers; null where there is none. */
  readonly first: { readonly units: number; readonly onLine: number; readonly atTables: number } | null;
  /** At this demand and at every higher one up to `most` the line needs fewer people; null where there is none. */
  readonly always: number | null;
  /** The most looked at: beyond it a task is too long, every task has a person of its own, or no more tables can be staffed. */
  readonly most: number;
  /** So many of the people listed have every skill of whole units, where that is what ends it; else null. */
  readonly mostTables: number | null;
  /** The most units for which the line needs fewer people, where it does at some demands but not at the highest; else null. */
  readonly last: number | null;
  /** "found": numbers of people that are not proved least stand behind it, so that the line may pay earlier. */
  readonly outcome: "proved" | "found";
}

/** Moves from today's plan; "proved": no plan with as few people and stations takes fewer. */
export interface OptionMoves {
  readonly count: number;
  readonly outcome: "proved" | "found";
}

/** A bench of an option. */
export type OptionBench = BenchFigures & { readonly id: string };

/** One column of a comparison. */
export interface OptionAnswer {
  readonly asked: AskedOption;
  readonly outcome: Outcome;
  /** The balance of what stays on the line; null for whole units at tables. */
  readonly balance: BalanceAnswer | null;
  /** The whole plan with its benches, in task numbers of the line; of those with as few people and stations the nearest to today's, where that is known. */
  readonly plan: Plan | null;
  /** Everywhere that people work, the line in order of flow first; empty without a plan. */
  readonly posts: readonly Post[];
  readonly benches: readonly OptionBench[];
  /** People who repair beside the line; 0 where nothing is repaired. */
  readonly repairPeople: number;
  /** From which demand on the line needs fewer people; null but for tables that are compared with a line. */
  readonly pays: WhereLinePays | null;
  /** To this plan from today's; null where one of them is not known. */
  readonly moves: OptionMoves | null;
  readonly findings: readonly Finding[];
  /** It was interrupted, or never begun. */
  readonly isCut: boolean;
}
