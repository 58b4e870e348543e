import { findUncountedShares } from "../../benches/count-shares.js";
import { type Finding, finding } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import { measurePlan, measureStations, type StationMeasures } from "../../plan/measure.js";
import { type Balance, type BalancingOptions, balance } from "../../solve/balance.js";
import type { Pace } from "../../time/pace.js";
import { compare } from "../../time/ratio.js";
import type { TaktSum } from "../../time/takt.js";
import { flagFloorLongTasks } from "../long-tasks/answer-floor-long-tasks.js";
import { flagImpossibleTasks, flagTightTasks } from "../long-tasks/flag-long-tasks.js";
import { type FlaggedBlocks, flagBlocks } from "../off-line/flag-blocks.js";
import { answerModels } from "./answer-models.js";
import { answerRules } from "./answer-rules.js";
import { type AnswerLevel, type BalanceAnswer, EMPTY_ANSWER, type HowBalanced } from "./balance-answer.js";
import { boundOf } from "./bound-of-floor.js";
import { findReasons } from "./find-no-plan.js";
import { findRounding } from "./find-rounding.js";
import { findSharedCrew } from "./find-shared-crew.js";
import { findBehindFloor, findShopNotes } from "./find-shop-notes.js";
import { findFloorLongTasks, findFloorTightTasks } from "./floor-long-tasks.js";
import { findLongTaskFaults, findShiftNotes, tightWords } from "./long-task-findings.js";
import { findRuledOutTasks, tellTasksWithoutStation } from "./ruled-out-tasks.js";

const NO_BLOCKS: FlaggedBlocks = { flags: [], leftOut: 0 };

function leftOut({ leftOut: count }: FlaggedBlocks): Finding[] {
  if (count === 0) return [];
  const message = `stopped: ${count} ${count === 1 ? "block" : "blocks"} that might leave the line were not looked at`;
  const fact = { kind: "blocks-left-out" } as const;
  return [finding({ rule: "blocks-left-out", severity: "warning", message, fact })];
}

/** Balances a line and says what is worth taking off it: the whole answer of `balance`. */
export async function answerBalance(
  line: Line,
  pace: Pace,
  takt: TaktSum | null,
  options: BalancingOptions,
): Promise<BalanceAnswer> {
  const found = await balance(line, pace, options);
  const ended = found.search === null || found.search.ended === "first" ? null : found.search.ended;
  const search = {
    nodes: found.search?.nodes ?? 0,
    nodeLimit: found.search?.nodeLimit ?? options.nodes,
    ended,
  };
  const isAsked = options.explain && !found.timeOnly;
  const rules = isAsked ? answerRules(line, pace, options.strictLimit) : null;
  const common = {
    line,
    pace,
    takt,
    search,
    outcome: found.outcome,
    rules,
  };
  const { plan, method } = found;
  if (plan === null || method === null) {
    const tried = isAsked ? howBalanced(found, options.method) : null;
    const why = found.timeOnly
      ? await answerTooLong(line, pace, options)
      : await answerNoPlan(line, pace, found, options);
    const findings = [
      ...why.findings,
      ...findUncountedShares(line),
      ...findRounding(
        line,
        found.within,
        "a plan is ruled out only where a station would have that much to spare",
      ),
    ];
    const answer = { ...EMPTY_ANSWER, ...common, ...why, findings, tried };
    return { ...answer, unfinished: answer.outcome === "stopped" ? found.unfinished : null };
  }
  // A method alone may need a station too many; a block measured against that would seem to free somebody.
  const blocks =
    found.search === null ? NO_BLOCKS : await flagBlocks(line, pace, { plan, proved: found.proved }, options);
  const stations = measureStations(line, pace, plan);
  const models = answerModels(line, pace, plan);
  const crews = found.search === null ? [] : await findSharedCrew(line, pace, plan, options);
  const tight = found.timeOnly
    ? flagTightTasks(line, pace, plan)
    : await flagFloorLongTasks(line, pace, findFloorTightTasks(line, pace, plan), plan, options);
  return {
    ...EMPTY_ANSWER,
    ...common,
    balance: howBalanced(found, method),
    plan,
    stations,
    measures: measurePlan(line, pace, plan),
    bound: boundOf(line, pace, found),
    level: levelOf(found),
    gap: gapOf(found),
    offLine: [...tight, ...blocks.flags],
    findings: [
      ...(found.timeOnly
        ? findLongTaskFaults(line, pace, options.strictLimit)
        : findTightStations(line, stations)),
      ...findBehindFloor(line, plan),
      ...findShiftNotes(line),
      ...findShopNotes(line, pace, plan, models),
      ...crews,
      ...leftOut(blocks),
      ...findUncountedShares(line),
      ...findRounding(
        line,
        found.within,
        "fewer people or stations are ruled out only where a station would have that much to spare",
      ),
      ...findRounding(
        line,
        found.level?.within ?? null,
        "a cycle shorter by less than that is not ruled out",
      ),
    ],
    models,
  };
}

/** Where stations are asked nothing but time, there is a plan unless a task is too long for any of them. */
async function answerTooLong(
  line: Line,
  pace: Pace,
  options: BalancingOptions,
): Promise<Pick<BalanceAnswer, "offLine" | "findings">> {
  const long = await flagImpossibleTasks(line, pace, options);
  const blocks = await flagBlocks(line, pace, null, options);
  const faults = findLongTaskFaults(line, pace, options.strictLimit);
  return { offLine: [...long, ...blocks.flags], findings: [...faults, ...leftOut(blocks)] };
}

/** Why there is no plan, and what would help tasks for which no station has the time. */
async function answerNoPlan(
  line: Line,
  pace: Pace,
  found: Balance,
  options: BalancingOptions,
): Promise<Pick<BalanceAnswer, "outcome" | "obstacles" | "findings" | "offLine">> {
  const { strictLimit } = options;
  const long = findFloorLongTasks(line, pace, strictLimit);
  const ruledOut = findRuledOutTasks(line, pace, strictLimit);
  const tasks = [...new Set([...long, ...ruledOut].map(({ task }) => task))].sort((one, two) => one - two);
  const offLine = await flagFloorLongTasks(line, pace, tasks, null, options);
  // One smallest set of reasons names one of several tasks only.
  if (long.length === 0 && ruledOut.length <= 1) {
    const proved = ruledOut.length === 0 ? found : { ...found, outcome: "infeasible" as const };
    const reasons = await findReasons(line, pace, proved, options);
    if (ruledOut.length === 0 || reasons.obstacles.length > 0) return { ...reasons, offLine };
  }
  const findings = tellTasksWithoutStation(line, pace, long, ruledOut, strictLimit);
  return { outcome: "infeasible", obstacles: [], findings, offLine };
}

function howBalanced(found: Balance, method: string): HowBalanced {
  const { methods, ranked, evened, search } = found;
  const ended = search === null || search.ended === "first" ? null : search.ended;
  const rules = found.rules.map(({ plan, ...run }) => ({ ...run, stations: plan?.stations ?? null }));
  return {
    method,
    methods,
    rules,
    ranked,
    search: search === null || ended === null ? null : { nodes: search.nodes, ended },
    evened,
  };
}

function levelOf({ level }: Balance): AnswerLevel | null {
  if (level === null) return null;
  const { outcome, bound, reason, within, smoothness, nodes, ended } = level;
  return { outcome, cycleOfPlan: bound, reason, within, smoothness, nodes, ended };
}

/** The stations that the work content would fill, where these are proved too few; only where stations are asked nothing but time. */
function gapOf({ timeOnly, bound, rootBounds, proved }: Balance): number | null {
  if (!timeOnly || !proved) return null;
  const minimum = rootBounds.find((each) => each.kind === "work-content")!.stations;
  return bound!.stations > minimum ? minimum : null;
}

/** A task alone above the limit of its station. */
function findTightStations(line: Line, stations: readonly StationMeasures[]): Finding[] {
  return stations
    .filter((station) => compare(station.stationTime, station.stationLimit) > 0)
    .map((station) => {
      const task =
        line.tasks[
          station.tasks.reduce((one, two) =>
            compare(line.tasks[two]!.load, line.tasks[one]!.load) > 0 ? two : one,
          )
        ]!;
      const message = `${tightWords(line, task, station)}: placed alone`;
      return finding({
        rule: "over-limit",
        severity: "warning",
        message,
        file: line.file,
        place: task.place,
        task: task.id,
        station: station.id,
      });
    });
}
