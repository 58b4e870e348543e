import type { Finding } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import type { PlanMeasures, StationMeasures } from "../../plan/measure.js";
import type { Plan } from "../../plan/plan.js";
import type { Balance, UnfinishedBalance } from "../../solve/balance.js";
import type { Bound } from "../../solve/bounds/bound.js";
import type { BoundFacts } from "../../solve/explain/bound-facts.js";
import type { AtOnce, CycleReason } from "../../solve/explain/cycle-facts.js";
import type { FillingStep } from "../../solve/fill-stations.js";
import type { LevelLine } from "../../solve/level/level-line.js";
import type { Ranking } from "../../solve/rank-tasks.js";
import type { RankedTasks } from "../../solve/rules/rule.js";
import type { SearchAnswer } from "../../solve/search/fewest-stations.js";
import type { Pace } from "../../time/pace.js";
import type { Ratio } from "../../time/ratio.js";
import type { TaktSum } from "../../time/takt.js";
import type { OffLineFlag } from "../off-line/off-line-flag.js";
import type { AnswerModels } from "./answer-models.js";
import type { AnswerRules } from "./answer-rules.js";
import type { Obstacle } from "./obstacle.js";
import type { StationsRate } from "./rate-stations.js";

/** How a plan came about, as far as reports tell it: by which method, and what the others got. */
export interface HowBalanced {
  readonly method: string;
  readonly methods: readonly {
    readonly method: string;
    /** Null where the method ran into a rule of the line. */
    readonly stations: number | null;
    readonly people: number | null;
  }[];
  readonly rules: readonly (Ranking & {
    /** Null where the ranking ran into a rule of the line. */
    readonly stations: readonly unknown[] | null;
    readonly steps: readonly FillingStep[];
  })[];
  readonly ranked: RankedTasks;
  readonly search: { readonly nodes: number; readonly ended: SearchEnd } | null;
  readonly evened: boolean;
}

/** How a search ended. */
export type SearchEnd = SearchAnswer["ended"];

export type Outcome = "proved" | "found" | "infeasible" | "stopped";

/** Why no plan has fewer people or stations, or a shorter cycle where their number is given; times in microseconds. */
export type BoundReason =
  /** By time and precedence alone; `leavesOut`: more is asked of stations, which can only add to that. */
  | { readonly kind: "by-time"; readonly bound: BoundFacts; readonly leavesOut: boolean }
  /** Every plan with less was ruled out by a search. */
  | { readonly kind: "ruled-out"; readonly nodes: number }
  /** What each zone needs by itself, as no station holds work of two zones. */
  | { readonly kind: "zones"; readonly zones: Balance["zones"] }
  /** The work shared among people, and where they are more, why it needs so many stations. */
  | {
      readonly kind: "people";
      readonly work: Ratio;
      /** The most that one person may be loaded with. */
      readonly perPerson: Ratio;
      /** People, before they are rounded up. */
      readonly share: Ratio;
      /** Tasks of several people count for each of them. */
      readonly countsSeveral: boolean;
      /** The people that are proved, and whether the share rounded up gives them; else the tasks are less divisible than work. */
      readonly people: number;
      readonly isEnough: boolean;
      /** A task that takes all of these people at once; null where there is none, or the share gives them. */
      readonly team: { readonly task: string } | null;
      readonly stations:
        | { readonly kind: "by-time"; readonly bound: BoundFacts }
        | {
            readonly kind: "work";
            readonly work: Ratio;
            /** Of a station, at all its places and with all who work there at once. */
            readonly limit: Ratio;
            readonly atOnce: AtOnce | null;
            readonly share: Ratio;
            readonly least: number;
            readonly isEnough: boolean;
          }
        | null;
    }
  | { readonly kind: "cycle"; readonly cycle: CycleReason };

/** What was proved about the plan. */
export interface AnswerBound {
  /** No plan has fewer stations; null where their number was given. */
  readonly stations: number | null;
  /** No plan has fewer people; null where the number of stations was given. */
  readonly people: number | null;
  /** Some plan of the line may have more people than stations. */
  readonly isOfPeople: boolean;
  /** No plan with that number of stations has a shorter cycle, in microseconds; null where the number was free. */
  readonly cycleOfPlan: Ratio | null;
  readonly kind: Bound["kind"] | CycleReason["kind"] | "zones";
  readonly reason: BoundReason;
  /** A shorter cycle is at most one part in so many shorter; null where that is not proved, or there is none at all. */
  readonly within?: bigint | null;
}

/** What was proved about the slowest station at that number of stations, and about the evenness of the others. */
export interface AnswerLevel {
  readonly outcome: "proved" | "found";
  /** No plan with as many stations has a shorter cycle, in microseconds. */
  readonly cycleOfPlan: Ratio;
  readonly reason: CycleReason;
  /** A shorter cycle is at most one part in so many shorter; null where that is not proved, or there is none at all. */
  readonly within: bigint | null;
  readonly smoothness: "proved" | "found";
  /** Partial plans looked at, beside those for the number of stations. */
  readonly nodes: number;
  readonly ended: LevelLine["ended"];
}

/** What a plan takes on the line, without what is beside it. */
export interface LineSize {
  readonly people: number;
  readonly stations: number;
  /** Cycle of the plan in microseconds. */
  readonly cycle: Ratio;
}

/** Everything that a report says about a balance; reports read it and compute nothing. */
export interface BalanceAnswer {
  readonly line: Line;
  readonly pace: Pace;
  /** The sum behind the pace; null where the line cycle was given. */
  readonly takt: TaktSum | null;
  readonly outcome: Outcome;
  /** How the plan came about; null when there is none, and where the number of stations was given. */
  readonly balance: HowBalanced | null;
  /** How stations were filled though no plan came of it; null where there is a plan, and unless `explain` was asked for. */
  readonly tried: HowBalanced | null;
  /** The verified plan; null when none exists. */
  readonly plan: Plan | null;
  readonly stations: readonly StationMeasures[];
  readonly measures: PlanMeasures | null;
  readonly bound: AnswerBound | null;
  /** How even the loads are and whether that is proved; null where nothing was evened out. */
  readonly level: AnswerLevel | null;
  /** What a fixed number of stations gives, beside one more and one fewer; null where the number was free. */
  readonly rates: readonly StationsRate[] | null;
  /** What a plan that stands takes, and a better one that a search found beside it, if any; null where none was looked for. */
  readonly standing: { readonly size: LineSize; readonly better: LineSize | null } | null;
  /** The fewer stations that the work content alone would fill; null where these are enough, or that is not known. */
  readonly gap: number | null;
  readonly offLine: readonly OffLineFlag[];
  readonly search: {
    readonly nodes: number;
    readonly nodeLimit: number | null;
    /** How the search ended; null where none was asked for. */
    readonly ended: SearchAnswer["ended"] | null;
  };
  readonly findings: readonly Finding[];
  /** What the models do to the plan; null on a line that builds one, and without a plan. */
  readonly models: AnswerModels | null;
  /** How the rules of the line bear on single tasks; null on a line without shop-floor rules, and unless `explain` was asked for. */
  readonly rules: AnswerRules | null;
  /** How far a search came that was stopped without a plan; null where there is a plan, where none exists and where none was begun. */
  readonly unfinished: UnfinishedBalance | null;
  /** What no plan can keep together; empty where there is a plan, and where that could not be singled out. */
  readonly obstacles: readonly Obstacle[];
}

/** What an answer without a plan does not have. */
export const EMPTY_ANSWER = {
  balance: null,
  tried: null,
  plan: null,
  stations: [],
  measures: null,
  bound: null,
  level: null,
  rates: null,
  standing: null,
  gap: null,
  offLine: [],
  models: null,
  rules: null,
  obstacles: [],
  unfinished: null,
} as const;
