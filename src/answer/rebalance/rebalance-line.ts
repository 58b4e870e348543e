import { type Finding, finding } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import { peopleOf } from "../../plan/figures/people.js";
import { measurePlan, measureStations } from "../../plan/measure.js";
import type { Plan } from "../../plan/plan.js";
import { verifyPlan } from "../../plan/verify-plan.js";
import { type Cost, isCheaper, PEOPLE_FIRST } from "../../solve/cost.js";
import type { Pace } from "../../time/pace.js";
import type { TaktSum } from "../../time/takt.js";
import { answerBalance } from "../balance/answer-balance.js";
import { type BalanceAnswer, EMPTY_ANSWER } from "../balance/balance-answer.js";
import { type ShownBalance, shownBalance } from "../balance/shown-balance.js";
import { type AsItIs, asItIs } from "./as-it-is.js";
import { changeSheet, type StationChange } from "./change-sheet.js";
import { KEPT, type RebalancingOptions, type TradeOff, TradeOffs } from "./trade-offs.js";

export interface RebalanceAnswer {
  readonly from: Plan;
  /** The balance at the new pace, with the plan of the chosen row; without a plan where none exists. */
  readonly balance: ShownBalance;
  /** People against moves, the fewest people first; empty where no plan exists. */
  readonly tradeOffs: readonly TradeOff[];
  /** The row whose plan is shown; null where none keeps to the moves allowed. */
  readonly chosen: TradeOff | null;
  /** Today's plan measured at the new pace. */
  readonly fromAnswer: ShownBalance;
  /** What it gives without any move; null where tasks of the line are at no station of it. */
  readonly asItIs: AsItIs | null;
  /** What changes at each station; empty where there is no new plan. */
  readonly changes: readonly StationChange[];
  /** What the moves allowed, or the tasks kept, stand in the way of; null where the plan has the fewest people and stations of all. */
  readonly allowed: AllowedProof | null;
  readonly nodes: number;
}

/** What is proved of fewer people where the moves allowed, or the tasks kept, leave more people or stations than need be. */
export interface AllowedProof {
  /** The most that moves may cost; null where nothing was said. */
  readonly maxMoves: number | null;
  /** Ids of the tasks that stay where they are. */
  readonly keep: readonly string[];
  /** The fewest people, and stations with so many, that were found whatever the moves; `isProved` where none has less. */
  readonly best: Cost & { readonly isProved: boolean };
  /** What moves to a plan with fewer people cost at the least; null where there are as few people as in the best. */
  readonly leastCostOfFewer: number | null;
  /** No number of moves leads to fewer: the tasks kept stand in the way. */
  readonly isForKept: boolean;
  /** Whether that is more than what is allowed, or no such plan leaves the tasks that are kept. */
  readonly isRuledOut: boolean;
}

/**
 * Rebalances from today's plan: the fewest people, then the fewest stations, then the fewest moves; and what more people would save in
 * moves, up to the fewest moves of all. Every plan passes the verifier, and its moves are counted anew from the two plans.
 */
export async function rebalanceLine(
  line: Line,
  pace: Pace,
  takt: TaktSum | null,
  from: Plan,
  options: RebalancingOptions,
): Promise<RebalanceAnswer> {
  const { nodes, strictLimit, checkpoint } = options;
  const asked = { method: "best", nodes, strictLimit, level: false, explain: false, from, checkpoint };
  const answer = await answerBalance(line, pace, takt, asked);
  const today = measureToday(line, pace, takt, from, options);
  if (answer.plan === null)
    return {
      from,
      ...today,
      balance: shownBalance(answer),
      tradeOffs: [],
      chosen: null,
      changes: [],
      allowed: null,
      nodes: 0,
    };
  const trading = new TradeOffs(line, pace, from, answer.plan, options);
  const tradeOffs = await trading.rows();
  const chosen =
    options.maxMoves === null ? tradeOffs[0] : tradeOffs.find((row) => row.cost <= options.maxMoves!);
  const plan = chosen?.plan ?? null;
  const allowed = proofWithin(line, answer, answer.plan, chosen, options);
  const balance: BalanceAnswer = {
    ...answer,
    balance: null,
    level: null,
    plan,
    outcome: outcomeOf(answer, chosen, allowed),
    stations: plan === null ? [] : measureStations(line, pace, plan),
    measures: plan === null ? null : measurePlan(line, pace, plan),
    findings:
      chosen === undefined ? [...answer.findings, whyNone(line, tradeOffs, options)] : answer.findings,
  };
  const changes = plan === null ? [] : changeSheet(line, from, plan, trading.costs);
  return {
    from,
    ...today,
    balance: shownBalance(balance),
    tradeOffs,
    chosen: chosen ?? null,
    changes,
    allowed,
    nodes: trading.nodes,
  };
}

/** Why no plan is shown although there are plans at this pace. */
function whyNone(
  line: Line,
  tradeOffs: readonly TradeOff[],
  { keep, maxMoves }: RebalancingOptions,
): Finding {
  const fewest = tradeOffs.at(-1);
  const message =
    fewest === undefined
      ? `no plan at this pace leaves ${keep.map((task) => line.tasks[task]!.id).join(", ")} where ${keep.length === 1 ? "it is" : "they are"}`
      : `no plan at this pace keeps to moves of at most ${maxMoves}; the fewest found are ${fewest.cost}, with ${fewest.peopleInAll} people in all`;
  return finding({ rule: "no-plan-kept", severity: "error", message, file: line.file });
}

function proofWithin(
  line: Line,
  answer: BalanceAnswer,
  plan: Plan,
  chosen: TradeOff | undefined,
  { keep, maxMoves }: RebalancingOptions,
): AllowedProof | null {
  const best = {
    people: peopleOf(plan),
    stations: plan.stations.length,
    isProved: answer.outcome === "proved",
  };
  if (chosen === undefined || !isCheaper(best, chosen, PEOPLE_FIRST)) return null;
  const least = chosen.people > best.people ? (chosen.leastCostOfFewer ?? 0) : null;
  return {
    maxMoves,
    keep: keep.map((task) => line.tasks[task]!.id),
    best,
    leastCostOfFewer: least,
    isForKept: least !== null && least >= KEPT,
    isRuledOut: least !== null && least > (maxMoves ?? KEPT - 1),
  };
}

/** "proved": neither fewer people, of what is allowed, nor with so many fewer moves are possible. */
function outcomeOf(
  answer: BalanceAnswer,
  chosen: TradeOff | undefined,
  allowed: AllowedProof | null,
): BalanceAnswer["outcome"] {
  if (chosen === undefined) return "infeasible";
  const isProved = allowed?.isRuledOut || (allowed?.leastCostOfFewer == null && answer.outcome === "proved");
  return isProved && chosen.outcome === "proved" ? "proved" : "found";
}

/** Today's plan at the new pace, faults and all. */
function measureToday(
  line: Line,
  pace: Pace,
  takt: TaktSum | null,
  from: Plan,
  { nodes, strictLimit }: RebalancingOptions,
): Pick<RebalanceAnswer, "fromAnswer" | "asItIs"> {
  const known = new Set(from.stations.flatMap(({ tasks }) => tasks));
  const isWhole = line.tasks.every((_, task) => known.has(task));
  const fromAnswer = shownBalance({
    ...EMPTY_ANSWER,
    line,
    pace,
    takt,
    outcome: "found",
    plan: from,
    stations: measureStations(line, pace, from),
    measures: isWhole ? measurePlan(line, pace, from) : null,
    search: { nodes: 0, nodeLimit: nodes, ended: null },
    findings: verifyPlan(line, pace, from, strictLimit),
  });
  return { fromAnswer, asItIs: isWhole ? asItIs(line, pace, from) : null };
}
