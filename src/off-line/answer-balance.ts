import { type Finding, finding } from "../findings/finding.js";
import type { Line } from "../line/line.js";
import { measurePlan, measureStations, type PlanMeasures, type StationMeasures } from "../plan/measure.js";
import type { Plan } from "../plan/plan.js";
import { type Balance, type BalanceOptions, balance } from "../solve/balance.js";
import { explainBound, explainGap } from "../solve/explain-bound.js";
import { explainLimitBound } from "../solve/explain-limit.js";
import type { LevelAnswer } from "../solve/level/level-stations.js";
import { fromParts } from "../solve/parts.js";
import type { SearchAnswer } from "../solve/search/fewest-stations.js";
import { findImpossibleTasks, toStationProblem } from "../solve/station-problem.js";
import type { Pace } from "../time/pace.js";
import { add, compare, type Ratio, ratio } from "../time/ratio.js";
import { showTimesIn } from "../time/show-in-unit.js";
import type { TaktSum } from "../time/takt.js";
import { type FlaggedBlocks, flagBlocks } from "./flag-blocks.js";
import { flagImpossibleTasks, flagTightTasks } from "./flag-long-tasks.js";
import { findLongTaskFaults, findShiftNotes } from "./long-task-findings.js";
import type { OffLineFlag } from "./off-line-flag.js";
import type { StationsRate } from "./rate-stations.js";

export type Outcome = "proved" | "found" | "infeasible" | "stopped";

/** What was proved about the plan, in words. */
export interface AnswerBound {
  /** No plan has fewer stations; null where their number was given. */
  readonly stations: number | null;
  /** No plan with that number of stations has a shorter cycle, in microseconds; null where the number was free. */
  readonly cycleOfPlan: Ratio | null;
  readonly kind: string;
  readonly reason: string;
}

/** What was proved about the slowest station at that number of stations, and about the evenness of the others. */
export interface AnswerLevel {
  readonly outcome: "proved" | "found";
  /** No plan with as many stations has a shorter cycle, in microseconds. */
  readonly cycleOfPlan: Ratio;
  readonly reason: string;
  readonly smoothness: "proved" | "found";
  /** Partial plans looked at, beside those for the number of stations. */
  readonly nodes: number;
  readonly ended: LevelAnswer["ended"];
}

/** Everything that a report says about a balance; reports read it and compute nothing. */
export interface BalanceAnswer {
  readonly line: Line;
  readonly pace: Pace;
  /** The sum behind the pace; null where the line cycle was given. */
  readonly takt: TaktSum | null;
  readonly outcome: Outcome;
  /** How the plan came about; null when there is none, and where the number of stations was given. */
  readonly balance: Balance | null;
  /** The verified plan; null when none exists. */
  readonly plan: Plan | null;
  readonly stations: readonly StationMeasures[];
  readonly measures: PlanMeasures | null;
  readonly bound: AnswerBound | null;
  /** How even the loads are and whether that is proved; null where nothing was evened out. */
  readonly level: AnswerLevel | null;
  /** What a fixed number of stations gives, beside one more and one fewer; null where the number was free. */
  readonly rates: readonly StationsRate[] | null;
  /** Why the work-content minimum cannot be reached; null where there is nothing to say. */
  readonly gap: string | null;
  readonly offLine: readonly OffLineFlag[];
  readonly search: {
    readonly nodes: number;
    readonly nodeLimit: number | null;
    /** How the search ended; null where none was asked for. */
    readonly ended: SearchAnswer["ended"] | null;
  };
  readonly findings: readonly Finding[];
}

/** A task alone over the limit counts as a full station in the search; its own time is then the slowest there can be. */
function levelOf(line: Line, pace: Pace, level: LevelAnswer): AnswerLevel {
  const { nodes, ended, smoothness } = level;
  const longest = line.tasks.reduce((one, two) => (compare(two.load, one.load) > 0 ? two : one));
  if (compare(longest.load, fromParts(line, level.slowest)) > 0) {
    const reason = `${longest.id} alone takes ${showTimesIn(line.unit)(longest.load)}`;
    return {
      outcome: "proved",
      cycleOfPlan: add(longest.load, ratio(pace.handling)),
      reason,
      smoothness: "found",
      nodes,
      ended,
    };
  }
  const reason = explainLimitBound(line, level.certificate);
  return {
    outcome: level.outcome,
    cycleOfPlan: add(fromParts(line, level.slowestBound), ratio(pace.handling)),
    reason,
    smoothness,
    nodes,
    ended,
  };
}

const NO_BLOCKS: FlaggedBlocks = { flags: [], leftOut: 0 };

function leftOut({ leftOut: count }: FlaggedBlocks): Finding[] {
  if (count === 0) return [];
  const message = `stopped: ${count} ${count === 1 ? "block" : "blocks"} that might leave the line were not looked at`;
  return [finding({ rule: "blocks-left-out", severity: "warning", message })];
}

/** Balances a line and says what is worth taking off it: the whole answer of `balance`. */
export async function answerBalance(
  line: Line,
  pace: Pace,
  takt: TaktSum | null,
  options: BalanceOptions,
): Promise<BalanceAnswer> {
  const findings = findLongTaskFaults(line, pace, options.strictLimit);
  const search = { nodes: 0, nodeLimit: options.nodes, ended: null };
  const common = { line, pace, takt };
  if (findImpossibleTasks(line, pace, options.strictLimit).length > 0) {
    const long = await flagImpossibleTasks(line, pace, options);
    const blocks = await flagBlocks(line, pace, null, options);
    const offLine = [...long, ...blocks.flags];
    const none = {
      balance: null,
      plan: null,
      stations: [],
      measures: null,
      bound: null,
      level: null,
      rates: null,
      gap: null,
    };
    return {
      ...common,
      ...none,
      outcome: "infeasible",
      offLine,
      search,
      findings: [...findings, ...leftOut(blocks)],
    };
  }
  const found = await balance(line, pace, options);
  // A rule alone may need a station too many; a block measured against that would seem to free somebody.
  const blocks = found.search === null ? NO_BLOCKS : await flagBlocks(line, pace, found, options);
  const { limit } = toStationProblem(line, pace);
  const minimum = found.rootBounds.find((each) => each.kind === "work-content")!.stations;
  const { kind, stations } = found.bound;
  return {
    ...common,
    outcome: found.proved ? "proved" : "found",
    balance: found,
    plan: found.plan,
    stations: measureStations(line, pace, found.plan),
    measures: measurePlan(line, pace, found.plan),
    bound: { stations, cycleOfPlan: null, kind, reason: explainBound(line, found.bound, limit) },
    level: found.level === null ? null : levelOf(line, pace, found.level),
    rates: null,
    gap: explainGap(line, minimum, found.bound, limit, found.proved),
    offLine: [...flagTightTasks(line, pace, found), ...blocks.flags],
    search: { ...search, nodes: found.search?.nodes ?? 0, ended: found.search?.ended ?? null },
    findings: [...findings, ...findShiftNotes(line), ...leftOut(blocks)],
  };
}
