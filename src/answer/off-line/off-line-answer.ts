import type { BenchJob } from "../../benches/bench-job.js";
import type { BenchFigures } from "../../benches/measure-bench.js";
import type { BlockVerdict } from "../../benches/why-not.js";
import type { Finding } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import type { Pace } from "../../time/pace.js";
import type { TaktSum } from "../../time/takt.js";
import type { LineFacts } from "../balance/shown-balance.js";
import type { LongTaskAnswers } from "../long-tasks/long-task-answers.js";
import type { OffLinePlan, PeopleCompared } from "./plan-with-benches.js";
import type { Rank } from "./rank-order.js";

/** One block at a bench of its own. */
export interface RatedBlock {
  readonly bench: BenchFigures;
  /** The line without it; null where that was not balanced, because bounds say enough. */
  readonly plan: OffLinePlan | null;
  /** Known without a balance: no plan of the line without it has fewer. */
  readonly least: { readonly people: number; readonly stations: number };
  /** Null where it was not balanced. */
  readonly people: PeopleCompared | null;
}

/** Tasks that somebody wants to build away from the line: an answer to each. */
export interface AskedBlock {
  /** The bench of the file, by name; null for tasks named on the command line. */
  readonly id: string | null;
  readonly verdict: BlockVerdict;
  /** Null where they cannot go. */
  readonly rated: RatedBlock | null;
}

/** Several benches beside the line at once. */
export interface RatedSet {
  readonly plan: OffLinePlan;
  /** Proved that no other choice of as many benches is better in the order of the ranks. */
  readonly isBest: boolean;
  readonly people: PeopleCompared;
}

/** A bench at other hours: places, people, and the stock that bridges them. */
export interface OtherHours {
  readonly bench: BenchFigures;
  readonly isChosen: boolean;
}

/** Everything that a report says about building off the line; reports read it and compute nothing. */
export interface OffLineAnswer {
  readonly line: Line;
  readonly pace: Pace;
  /** The sum behind the pace; null where the line cycle was given. */
  readonly takt: TaktSum | null;
  readonly outcome: "proved" | "found" | "infeasible" | "stopped";
  readonly shown: LineFacts;
  /** The whole line, everything built on it. */
  readonly before: OffLinePlan;
  readonly ranks: readonly Rank[];
  readonly joinsAtSeveral: boolean;
  /** People are compared over a day, as some bench of the file works other shifts than the line. */
  readonly byDay: boolean;
  /** No task says that it works on the base unit. */
  readonly isGuess: boolean;
  /** The blocks asked for on the command line; null where none were. */
  readonly asked: readonly AskedBlock[] | null;
  /** The benches of the file; null where it states none. */
  readonly stated: readonly AskedBlock[] | null;
  /** All that were asked for, or else all stated, at their benches together; null where that is fewer than two, or some cannot go. */
  readonly together: RatedSet | null;
  /** Every block, best first; null where only some were asked for. */
  readonly blocks: readonly RatedBlock[] | null;
  /** The best choice for each number of benches allowed; null where only some blocks were asked for. */
  readonly sets: readonly RatedSet[] | null;
  readonly benchesAllowed: number;
  /** For each bench in full view, what it takes at other hours; empty without a calendar. */
  readonly otherHours: ReadonlyMap<BenchJob, readonly OtherHours[]>;
  readonly longTasks: LongTaskAnswers;
  readonly search: { readonly nodeLimit: number | null; readonly balanced: number };
  readonly findings: readonly Finding[];
}
