import { type Finding, finding } from "../findings/finding.js";
import type { Line } from "../line/line.js";
import { measurePlan, measureStations, type PlanMeasures, type StationMeasures } from "../plan/measure.js";
import { type Balance, type BalanceOptions, balance } from "../solve/balance.js";
import { explainBound, explainGap } from "../solve/explain-bound.js";
import { findImpossibleTasks, toStationProblem } from "../solve/station-problem.js";
import type { Pace } from "../time/pace.js";
import type { TaktSum } from "../time/takt.js";
import { type FlaggedBlocks, flagBlocks } from "./flag-blocks.js";
import { flagImpossibleTasks, flagTightTasks } from "./flag-long-tasks.js";
import { findLongTaskFaults, findShiftNotes } from "./long-task-findings.js";
import type { OffLineFlag } from "./off-line-flag.js";

export type Outcome = "proved" | "found" | "infeasible" | "stopped";

/** Everything that a report says about a balance; reports read it and compute nothing. */
export interface BalanceAnswer {
  readonly line: Line;
  readonly pace: Pace;
  /** The sum behind the pace; null where the line cycle was given. */
  readonly takt: TaktSum | null;
  readonly outcome: Outcome;
  /** Null when no plan exists. */
  readonly balance: Balance | null;
  readonly stations: readonly StationMeasures[];
  readonly measures: PlanMeasures | null;
  readonly bound: { readonly stations: number; readonly kind: string; readonly reason: string } | null;
  /** Why the work-content minimum cannot be reached; null where there is nothing to say. */
  readonly gap: string | null;
  readonly offLine: readonly OffLineFlag[];
  readonly search: { readonly nodes: number; readonly nodeLimit: number | null };
  readonly findings: readonly Finding[];
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
  const search = { nodes: 0, nodeLimit: options.nodes };
  const common = { line, pace, takt };
  if (findImpossibleTasks(line, pace, options.strictLimit).length > 0) {
    const long = await flagImpossibleTasks(line, pace, options);
    const blocks = await flagBlocks(line, pace, null, options);
    const offLine = [...long, ...blocks.flags];
    const none = { balance: null, stations: [], measures: null, bound: null, gap: null };
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
    stations: measureStations(line, pace, found.plan),
    measures: measurePlan(line, pace, found.plan),
    bound: { stations, kind, reason: explainBound(line, found.bound, limit) },
    gap: explainGap(line, minimum, found.bound, limit, found.proved),
    offLine: [...flagTightTasks(line, pace, found), ...blocks.flags],
    search: { ...search, nodes: found.search?.nodes ?? 0 },
    findings: [...findings, ...findShiftNotes(line, pace), ...leftOut(blocks)],
  };
}
