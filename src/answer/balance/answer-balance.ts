import { findUncountedShares } from "../../benches/count-shares.js";
import { type Finding, finding, isAmong } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import { measurePlan, measureStations, type StationMeasures } from "../../plan/measure.js";
import type { Plan } from "../../plan/plan.js";
import { type Balance, type BalancingOptions, balance } from "../../solve/balance.js";
import type { Pace } from "../../time/pace.js";
import { compare } from "../../time/ratio.js";
import type { TaktSum } from "../../time/takt.js";
import { findTightTasks, tightWords } from "../long-tasks/find-long-tasks.js";
import { flagLongTasks } from "../long-tasks/flag-long-tasks.js";
import { type FlaggedBlocks, flagBlocks } from "../off-line/flag-blocks.js";
import { boundOf } from "./answer-bound.js";
import { type AnswerModels, answerModels } from "./answer-models.js";
import { answerRules } from "./answer-rules.js";
import {
  type AnswerBound,
  type AnswerLevel,
  type BalanceAnswer,
  EMPTY_ANSWER,
  type HowBalanced,
} from "./balance-answer.js";
import { findNoPlan } from "./find-no-plan.js";
import { findRounding } from "./find-rounding.js";
import { findSharedCrew } from "./find-shared-crew.js";
import { findBehindFloor, findShiftNotes, findShopNotes } from "./find-shop-notes.js";

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
  const search = searchOf(found, options);
  const rules = options.explain ? answerRules(line, pace, options.strictLimit) : null;
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
    const tried = options.explain ? howBalanced(found, options.method) : null;
    const { tasks, ...why } = await findNoPlan(line, pace, found, options);
    const long = await flagLongTasks(line, pace, tasks, null, options);
    const blocks = tasks.length === 0 ? NO_BLOCKS : await flagBlocks(line, pace, null, options);
    const offLine = [...long, ...blocks.flags];
    const findings = [
      ...why.findings,
      ...leftOut(blocks),
      ...findUncountedShares(line),
      ...findRounding(
        line,
        found.within,
        "a plan is ruled out only where a station would have that much to spare",
      ),
    ];
    const answer = { ...EMPTY_ANSWER, ...common, ...why, offLine, findings, tried };
    return { ...answer, unfinished: answer.outcome === "stopped" ? found.unfinished : null };
  }
  // A method alone may need a station too many; a block measured against that would seem to free somebody.
  const blocks =
    found.search === null ? NO_BLOCKS : await flagBlocks(line, pace, { plan, proved: found.proved }, options);
  const stations = measureStations(line, pace, plan);
  const models = answerModels(line, pace, plan);
  const crews = found.search === null ? [] : await findSharedCrew(line, pace, plan, options);
  const tight = await flagLongTasks(line, pace, findTightTasks(line, pace, plan), plan, options);
  const bound = boundOf(line, pace, found);
  return {
    ...EMPTY_ANSWER,
    ...common,
    balance: howBalanced(found, method),
    plan,
    stations,
    measures: measurePlan(line, pace, plan),
    bound,
    level: levelOf(found),
    gap: gapOf(found, bound),
    offLine: [...tight, ...blocks.flags],
    findings: [
      ...notesOfPlan(line, pace, plan, stations, models),
      ...findShiftNotes(line),
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

/** The answer with another plan of its line in place of its own: measures, models and what is said of the plan are of that plan. */
export function withPlan(answer: BalanceAnswer, plan: Plan): BalanceAnswer {
  const { line, pace } = answer;
  const isGone = isAmong(
    answer.plan === null ? [] : notesOfPlan(line, pace, answer.plan, answer.stations, answer.models),
  );
  const stations = measureStations(line, pace, plan);
  const models = answerModels(line, pace, plan);
  return {
    ...answer,
    balance: null,
    level: null,
    plan,
    stations,
    measures: measurePlan(line, pace, plan),
    models,
    findings: [
      ...notesOfPlan(line, pace, plan, stations, models),
      ...answer.findings.filter((each) => !isGone(each)),
    ],
  };
}

/** What a balance proves, with its plan, in short. */
export async function answerProof(
  line: Line,
  pace: Pace,
  options: BalancingOptions,
): Promise<Pick<BalanceAnswer, "plan" | "outcome" | "bound" | "level" | "search" | "measures">> {
  const found = await balance(line, pace, options);
  const { plan, outcome } = found;
  const proved = plan === null ? null : boundOf(line, pace, found);
  const measures = plan && measurePlan(line, pace, plan);
  return { plan, outcome, bound: proved, level: levelOf(found), search: searchOf(found, options), measures };
}

function searchOf({ search }: Balance, { nodes }: BalancingOptions): BalanceAnswer["search"] {
  return {
    nodes: search?.nodes ?? 0,
    nodeLimit: search?.nodeLimit ?? nodes,
    ended: search === null || search.ended === "first" ? null : search.ended,
  };
}

/** What is said of one plan, and need not be true of another. */
function notesOfPlan(
  line: Line,
  pace: Pace,
  plan: Plan,
  stations: readonly StationMeasures[],
  models: AnswerModels | null,
): Finding[] {
  return [
    ...findTightStations(line, stations),
    ...findBehindFloor(line, plan),
    ...findShopNotes(line, pace, plan, models),
  ];
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

/** The stations that the work content would fill, where these are proved too few. */
function gapOf({ byTime, proved }: Balance, { stations, isOfPeople }: AnswerBound): number | null {
  if (byTime === null || !proved || isOfPeople) return null;
  return stations! > byTime.byWorkContent ? byTime.byWorkContent : null;
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
        fact: { kind: "alone-over-limit" },
        severity: "warning",
        message,
        file: line.file,
        place: task.place,
        task: task.id,
        station: station.id,
      });
    });
}
