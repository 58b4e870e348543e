import { type Finding, finding } from "../findings/finding.js";
import type { Line } from "../line/line.js";
import { measurePlan, measureStations } from "../plan/measure.js";
import { type BalancingOptions, balance } from "../solve/balance.js";
import { boundSteps, explainBound, explainGap } from "../solve/explain-bound.js";
import { explainLimitBound, limitBoundSteps } from "../solve/explain-limit.js";
import { hasFloorRules } from "../solve/floor/station-rules.js";
import type { LevelAnswer } from "../solve/level/level-stations.js";
import { fromParts } from "../solve/parts.js";
import { findImpossibleTasks, toStationProblem } from "../solve/station-problem.js";
import type { Pace } from "../time/pace.js";
import { add, compare, ratio } from "../time/ratio.js";
import { showTimesIn } from "../time/show-in-unit.js";
import type { TaktSum } from "../time/takt.js";
import { answerFloor } from "./answer-floor.js";
import { answerModels } from "./answer-models.js";
import { type AnswerLevel, type BalanceAnswer, EMPTY_ANSWER } from "./balance-answer.js";
import { findUncountedShares } from "./count-shares.js";
import { findShopNotes } from "./find-shop-notes.js";
import { type FlaggedBlocks, flagBlocks } from "./flag-blocks.js";
import { flagImpossibleTasks, flagTightTasks } from "./flag-long-tasks.js";
import { findLongTaskFaults, findShiftNotes } from "./long-task-findings.js";

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
    steps: limitBoundSteps(line, level.certificate),
    smoothness,
    nodes,
    ended,
  };
}

const NO_BLOCKS: FlaggedBlocks = { flags: [], leftOut: 0 };

/** The rule of the warning that blocks were not looked at. */
export const BLOCKS_LEFT_OUT = "blocks-left-out";

function leftOut({ leftOut: count }: FlaggedBlocks): Finding[] {
  if (count === 0) return [];
  const message = `stopped: ${count} ${count === 1 ? "block" : "blocks"} that might leave the line were not looked at`;
  return [finding({ rule: BLOCKS_LEFT_OUT, severity: "warning", message })];
}

/** Balances a line and says what is worth taking off it: the whole answer of `balance`. */
export async function answerBalance(
  line: Line,
  pace: Pace,
  takt: TaktSum | null,
  options: BalancingOptions,
): Promise<BalanceAnswer> {
  const answer = hasFloorRules(line)
    ? await answerFloor(line, pace, takt, options)
    : await answerPlain(line, pace, takt, options);
  return { ...answer, findings: [...answer.findings, ...findUncountedShares(line)] };
}

async function answerPlain(
  line: Line,
  pace: Pace,
  takt: TaktSum | null,
  options: BalancingOptions,
): Promise<BalanceAnswer> {
  const findings = findLongTaskFaults(line, pace, options.strictLimit);
  const search = { nodes: 0, nodeLimit: options.nodes, ended: null };
  const common = { line, pace, takt };
  if (findImpossibleTasks(line, pace, options.strictLimit).length > 0) {
    const long = await flagImpossibleTasks(line, pace, options);
    const blocks = await flagBlocks(line, pace, null, options);
    const offLine = [...long, ...blocks.flags];
    return {
      ...EMPTY_ANSWER,
      ...common,
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
  const models = answerModels(line, pace, found.plan);
  return {
    ...EMPTY_ANSWER,
    ...common,
    outcome: found.proved ? "proved" : "found",
    balance: found,
    plan: found.plan,
    stations: measureStations(line, pace, found.plan),
    measures: measurePlan(line, pace, found.plan),
    bound: {
      stations,
      people: null,
      cycleOfPlan: null,
      kind,
      reason: explainBound(line, found.bound, limit),
      steps: boundSteps(line, found.bound),
    },
    level: found.level === null ? null : levelOf(line, pace, found.level),
    gap: explainGap(line, minimum, found.bound, limit, found.proved),
    offLine: [...flagTightTasks(line, pace, found), ...blocks.flags],
    search: { ...search, nodes: found.search?.nodes ?? 0, ended: found.search?.ended ?? null },
    findings: [
      ...findings,
      ...findShiftNotes(line),
      ...findShopNotes(line, pace, found.plan, models),
      ...leftOut(blocks),
    ],
    models,
  };
}
