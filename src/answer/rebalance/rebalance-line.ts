import { type Finding, finding, tells } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import { peopleOf } from "../../plan/figures/people.js";
import { measurePlan, measureStations } from "../../plan/measure.js";
import type { Plan } from "../../plan/plan.js";
import { verifyPlan } from "../../plan/verify-plan.js";
import { noPlanAllowedWords } from "../../report/words/no-plan-allowed-words.js";
import { type Cost, isCheaper, PEOPLE_FIRST } from "../../solve/cost.js";
import type { Pace } from "../../time/pace.js";
import type { TaktSum } from "../../time/takt.js";
import { answerBalance, withPlan } from "../balance/answer-balance.js";
import { type BalanceAnswer, EMPTY_ANSWER } from "../balance/balance-answer.js";
import { type ShownBalance, shownBalance } from "../balance/shown-balance.js";
import { type StandingTerms, stands } from "./as-checked.js";
import { type AsItIs, asItIs } from "./as-it-is.js";
import { changeSheet, type StationChange } from "./change-sheet.js";
import { leaveOut } from "./keep-benches.js";
import type { LostLearning } from "./lost-learning.js";
import { matchStations } from "./match-stations.js";
import {
  type AllowedRow,
  KEPT,
  type NoPlanAllowed,
  type RebalancingOptions,
  type TradeOff,
  TradeOffs,
} from "./trade-offs.js";

export interface RebalanceAnswer {
  readonly from: Plan;
  /** The balance at the new pace, with the plan of the chosen row; without a plan where none exists. */
  readonly balance: ShownBalance;
  /** People against moves, the fewest people first; empty where no plan exists. */
  readonly tradeOffs: readonly TradeOff[];
  /** Numbers of people between those rows that were not looked at. */
  readonly rowsLeftOut: number;
  /** The row whose plan is shown; null where none keeps to the moves allowed. */
  readonly chosen: TradeOff | null;
  /** Today's plan measured at the new pace. */
  readonly fromAnswer: ShownBalance;
  /** What it gives without any move; null where tasks of the line are at no station of it. */
  readonly asItIs: AsItIs | null;
  /** What changes at each station; empty where there is no new plan. */
  readonly changes: readonly StationChange[];
  /** Which station of today's plan each station of the new one is, -1 for a new one; empty where there is no new plan. */
  readonly matched: readonly number[];
  /** What the moves allowed, or the tasks kept, stand in the way of; null where the plan has the fewest people and stations of all. */
  readonly allowed: AllowedProof | null;
  /** Null where the plan keeps to every station limit. */
  readonly overLimits: OverLimits | null;
  /** Some move costs more than one point. */
  readonly hasPoints: boolean;
  /** What moves lose of what people have learned; null where that was not asked for. */
  readonly learning: LostLearning | null;
  readonly nodes: number;
}

/** Today's plan, shown as it is though stations of it take more than their limit: `check` passes it. */
export interface OverLimits {
  /** One finding of each fault. */
  readonly findings: readonly Finding[];
  /** The plan that keeps to every limit with the fewest people and moves; null where none was found or the moves allowed are fewer. */
  readonly within: TradeOff | null;
  /** Not even a task alone takes more than its limit there, so that a strict limit leads to it. */
  readonly isStrict: boolean;
  /** What is proved of plans that keep to every limit; null where there is none, or none was found. */
  readonly balance: ShownBalance | null;
}

/** What is proved of fewer people where the moves allowed, the tasks kept or few moves leave more people or stations than need be. */
export interface AllowedProof {
  /** The most tasks that may move, and the most that may cost in points; null where nothing was said. */
  readonly maxMoves: number | null;
  readonly maxMoveCost: number | null;
  /** Ids of the tasks that stay where they are. */
  readonly keep: readonly string[];
  /** The fewest people, and stations with so many, that were found whatever the moves; `isProved` where none has less. */
  readonly best: Cost & { readonly isProved: boolean };
  /** The plan shown has more people than that; else it has more stations, for fewer moves. */
  readonly isOfPeople: boolean;
  /** What moves to a plan with fewer people cost at the least. */
  readonly leastCostOfFewer: number;
  /** No number of moves leads to fewer: the tasks kept stand in the way. */
  readonly isForKept: boolean;
  /** That alone is more than is allowed. */
  readonly isBeyond: boolean;
  /** Fewer people take more than is allowed, or no such plan leaves the tasks that are kept. */
  readonly isRuledOut: boolean;
}

/**
 * Rebalances from today's plan: the fewest people, then the fewest moves, then the fewest stations; and what more people would save in
 * moves, up to the fewest moves of all. Every plan passes the verifier, and its moves are counted anew from the two plans. Where
 * `check` passes today's plan, the answer has no more people than it has, and one row has no move.
 */
export async function rebalanceLine(
  line: Line,
  pace: Pace,
  takt: TaktSum | null,
  from: Plan,
  options: RebalancingOptions,
): Promise<RebalanceAnswer> {
  const { nodes, strictLimit, peopleCheckpoint: checkpoint = options.checkpoint } = options;
  const asked = { method: "best", nodes, strictLimit, level: false, explain: false, from, checkpoint };
  const balanced = await answerBalance(line, pace, takt, asked);
  const answer = unlessItStands(balanced, from, options);
  const today = measureToday(line, pace, takt, from, options);
  if (answer.plan === null)
    return {
      from,
      ...today,
      balance: shownBalance(answer),
      tradeOffs: [],
      chosen: null,
      changes: [],
      matched: [],
      allowed: null,
      overLimits: null,
      hasPoints: false,
      learning: options.learning ?? null,
      rowsLeftOut: 0,
      nodes: 0,
    };
  const trading = new TradeOffs(line, pace, from, answer.plan, options);
  const rows = await trading.rows();
  const within = await trading.allowed(rows);
  const chosen = within.row;
  const tradeOffs =
    chosen === null || rows.includes(chosen)
      ? rows
      : [...rows, chosen].toSorted((one, two) => one.people - two.people || one.cost - two.cost);
  const plan = chosen?.plan ?? null;
  const allowed = proofWithin(line, answer, answer.plan, within, trading.hasPoints, options);
  const overLimits = plan === from ? await lookOverLimits(balanced, from, trading, strictLimit) : null;
  const told = plan === null ? answer : withPlan(answer, plan);
  // Of today's plan over its limits, it is said which stations these are, and that check passes them.
  const ofPlan = told.findings.filter((each) => overLimits === null || !tells(each, "alone-over-limit"));
  const balance: BalanceAnswer = {
    ...told,
    balance: null,
    level: null,
    plan,
    // What is proved is proved of plans that keep to the limits.
    bound: overLimits === null ? answer.bound : null,
    outcome: overLimits === null ? outcomeOf(answer, within, allowed) : "found",
    stations: plan === null ? [] : told.stations,
    measures: plan === null ? null : told.measures,
    findings:
      chosen === null
        ? [...answer.findings, await noPlanAllowed(line, pace, from, trading, rows, within.isProved, options)]
        : [...ofPlan, ...(overLimits?.findings ?? [])],
  };
  const matched =
    chosen === null ? [] : matchStations(line, from, chosen.plan, trading.costs, chosen.moves.length);
  const changes = chosen === null ? [] : changeSheet(line, from, chosen.plan, matched, chosen.moves);
  return {
    from,
    ...today,
    balance: shownBalance(balance),
    tradeOffs,
    chosen,
    changes,
    matched,
    allowed,
    overLimits,
    hasPoints: trading.hasPoints,
    learning: options.learning ?? null,
    rowsLeftOut: trading.leftOut,
    nodes: trading.nodes,
  };
}

/** Today's plan where it stands and has fewer people: a search that ended early may know none as good, or its stations take more than their limit. */
export function unlessItStands(answer: BalanceAnswer, from: Plan, terms: StandingTerms): BalanceAnswer {
  const { line, pace, plan } = answer;
  if (plan !== null && !isCheaper(sizeOf(from), sizeOf(plan), PEOPLE_FIRST)) return answer;
  if (!stands(line, pace, from, terms)) return answer;
  if (plan !== null) return { ...withPlan(answer, from), outcome: "found" };
  const { takt, search } = answer;
  const empty: BalanceAnswer = { ...EMPTY_ANSWER, line, pace, takt, search, outcome: "found", findings: [] };
  return withPlan(empty, from);
}

/** What keeps to the limits where today's plan, which is shown, does not; null where it does. */
async function lookOverLimits(
  balanced: BalanceAnswer,
  from: Plan,
  trading: TradeOffs,
  strictLimit: boolean,
): Promise<OverLimits | null> {
  const { line, pace, plan } = balanced;
  const findings = findOverLimits(line, pace, from, strictLimit);
  if (findings.length === 0) return null;
  if (plan === null) return { findings, within: null, isStrict: false, balance: null };
  const within = await trading.withinLimits(plan);
  const isStrict = within !== null && verifyPlan(line, pace, within.plan, true).length === 0;
  return { findings, within, isStrict, balance: shownBalance({ ...balanced, level: null }) };
}

/** The station limits that today's plan does not keep to where `check` passes it. */
export const findOverLimits = (line: Line, pace: Pace, from: Plan, strictLimit: boolean): Finding[] =>
  verifyPlan(line, pace, from, strictLimit).map((each) => ({
    ...each,
    rule: "over-limit",
    severity: "warning",
    message: `${each.message}; check passes it`,
    file: line.file,
  }));

const sizeOf = (plan: Plan): Cost => ({ people: peopleOf(plan), stations: plan.stations.length });

async function noPlanAllowed(
  line: Line,
  pace: Pace,
  from: Plan,
  trading: TradeOffs,
  rows: readonly TradeOff[],
  isProved: boolean,
  options: RebalancingOptions,
): Promise<Finding> {
  const { maxMoves, maxMoveCost = null } = options;
  const fewest = rows.at(-1);
  const why: NoPlanAllowed =
    fewest === undefined
      ? await noPlanKept(line, pace, from, trading, options)
      : { kind: "moves", isProved, maxMoves, maxMoveCost, fewest, hasPoints: trading.hasPoints };
  const message = noPlanAllowedWords(why);
  const fact = { kind: "no-plan-kept" } as const;
  return finding({ rule: "no-plan-kept", severity: "error", message, file: line.file, fact });
}

/** Which of the tasks that are to stay must move, and what in today's plan they do not keep to among themselves. */
async function noPlanKept(
  line: Line,
  pace: Pace,
  from: Plan,
  trading: TradeOffs,
  { keep, strictLimit }: RebalancingOptions,
): Promise<NoPlanAllowed> {
  const idOf = (task: number) => line.tasks[task]!.id;
  const others = [...line.tasks.keys()].filter((task) => !keep.includes(task));
  const alone = leaveOut(line, from, others);
  // A crew or a second place may be there for tasks that are left out.
  const fault = verifyPlan(alone.line, pace, alone.plan, strictLimit).find((each) => !tells(each, "crew"));
  const broken = await trading.breakingKept();
  const moved = broken?.moves.filter(({ task }) => keep.includes(task)) ?? [];
  return {
    kind: "kept",
    isProved: trading.isKeptRuledOut,
    kept: keep.map(idOf),
    fault: fault?.message ?? null,
    wayOut: broken && {
      moved: moved.map(({ task, ...move }) => ({ ...move, task: idOf(task) })),
      others: broken.moves.length - moved.length,
      peopleInAll: broken.peopleInAll,
    },
  };
}

function proofWithin(
  line: Line,
  answer: BalanceAnswer,
  plan: Plan,
  { row: chosen, isProved }: AllowedRow,
  hasPoints: boolean,
  { keep, maxMoves, maxMoveCost }: RebalancingOptions,
): AllowedProof | null {
  const best = { ...sizeOf(plan), isProved: answer.outcome === "proved" };
  if (chosen === null || !isCheaper(best, chosen, PEOPLE_FIRST)) return null;
  const isOfPeople = chosen.people > best.people;
  const least = chosen.leastCostOfFewer ?? 0;
  return {
    maxMoves,
    maxMoveCost: maxMoveCost ?? null,
    keep: keep.map((task) => line.tasks[task]!.id),
    best,
    isOfPeople,
    leastCostOfFewer: least,
    isForKept: least >= KEPT,
    isBeyond: least > (hasPoints ? (maxMoveCost ?? KEPT) : Math.min(maxMoves ?? KEPT, maxMoveCost ?? KEPT)),
    isRuledOut: isOfPeople && isProved,
  };
}

/** "proved": neither fewer people, of what is allowed, nor with so many fewer moves are possible. */
function outcomeOf(
  answer: BalanceAnswer,
  { row, isProved }: AllowedRow,
  allowed: AllowedProof | null,
): BalanceAnswer["outcome"] {
  if (row === null) return isProved ? "infeasible" : "stopped";
  const isFewest = allowed?.isOfPeople ? allowed.isRuledOut : answer.outcome === "proved";
  return isFewest && row.outcome === "proved" ? "proved" : "found";
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
