import { countOf } from "../../findings/count-of.js";
import { type Finding, finding, tells } from "../../findings/finding.js";
import { listOf } from "../../findings/list-of.js";
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
import { leaveOut } from "./keep-benches.js";
import { matchStations } from "./match-stations.js";
import { type AllowedRow, KEPT, type RebalancingOptions, type TradeOff, TradeOffs } from "./trade-offs.js";

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
  /** Some move costs more than one point. */
  readonly hasPoints: boolean;
  readonly nodes: number;
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
 * today's plan passes it, there is an answer with no more people than it has.
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
  const answer = unlessItStands(await answerBalance(line, pace, takt, asked), from, strictLimit);
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
      hasPoints: false,
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
  const balance: BalanceAnswer = {
    ...answer,
    balance: null,
    level: null,
    plan,
    outcome: outcomeOf(answer, within, allowed),
    stations: plan === null ? [] : measureStations(line, pace, plan),
    measures: plan === null ? null : measurePlan(line, pace, plan),
    findings:
      chosen === null
        ? [...answer.findings, await whyNone(line, pace, from, trading, rows, within.isProved, options)]
        : answer.findings,
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
    hasPoints: trading.hasPoints,
    rowsLeftOut: trading.leftOut,
    nodes: trading.nodes,
  };
}

/** A search that ended early may know no plan as good as today's where that keeps every rule. */
function unlessItStands(answer: BalanceAnswer, from: Plan, strictLimit: boolean): BalanceAnswer {
  const { line, pace, plan } = answer;
  if (plan !== null && !isCheaper(sizeOf(from), sizeOf(plan), PEOPLE_FIRST)) return answer;
  if (verifyPlan(line, pace, from, strictLimit).length > 0) return answer;
  if (plan !== null) return { ...answer, plan: from, outcome: "found" };
  const { takt, search } = answer;
  return { ...EMPTY_ANSWER, line, pace, takt, search, outcome: "found", plan: from, findings: [] };
}

const sizeOf = (plan: Plan): Cost => ({ people: peopleOf(plan), stations: plan.stations.length });

/** Why no plan is shown although there are plans at this pace. */
async function whyNone(
  line: Line,
  pace: Pace,
  from: Plan,
  trading: TradeOffs,
  rows: readonly TradeOff[],
  isProved: boolean,
  options: RebalancingOptions,
): Promise<Finding> {
  const message =
    rows.length === 0
      ? await whyNoneKept(line, pace, from, trading, options)
      : whyNoneWithin(rows, isProved, options, trading.hasPoints);
  const fact = { kind: "no-plan-kept" } as const;
  return finding({ rule: "no-plan-kept", severity: "error", message, file: line.file, fact });
}

function whyNoneWithin(
  rows: readonly TradeOff[],
  isProved: boolean,
  { maxMoves, maxMoveCost }: RebalancingOptions,
  hasPoints: boolean,
): string {
  const limits = [
    ...(maxMoves === null ? [] : [countOf(maxMoves, "move")]),
    ...(maxMoveCost == null ? [] : [countOf(maxMoveCost, "point")]),
  ];
  const fewest = rows.at(-1)!;
  const points = hasPoints ? ` that cost ${countOf(fewest.cost, "point")}` : "";
  const found = `${countOf(fewest.moves.length, "move")}${points}, with ${fewest.peopleInAll} people in all`;
  const allowed = `keeps to at most ${limits.join(" and ")}`;
  const none = isProved
    ? `no plan at this pace ${allowed}`
    : `no plan that ${allowed} was found, and whether there is one is open`;
  const known = fewest.outcome === "proved" ? "" : " found";
  return `${none}; the ${hasPoints ? "cheapest" : "fewest"}${known}: ${found}`;
}

/** Which of the tasks that are to stay must move, and what in today's plan they do not keep to among themselves. */
async function whyNoneKept(
  line: Line,
  pace: Pace,
  from: Plan,
  trading: TradeOffs,
  { keep, strictLimit }: RebalancingOptions,
): Promise<string> {
  const kept = listOf(keep.map((task) => line.tasks[task]!.id));
  const are = keep.length === 1 ? "it is" : "they are";
  const least = trading.isKeptRuledOut
    ? `no plan at this pace leaves ${kept} where ${are}`
    : `no plan that leaves ${kept} where ${are} was found, and whether there is one is open`;
  const others = [...line.tasks.keys()].filter((task) => !keep.includes(task));
  const alone = leaveOut(line, from, others);
  // A crew or a second place may be there for tasks that are left out.
  const fault = verifyPlan(alone.line, pace, alone.plan, strictLimit).find((each) => !tells(each, "crew"));
  const why = fault === undefined ? "" : `: ${fault.message}`;
  const broken = await trading.breakingKept();
  if (broken === null) return `${least}${why}`;
  const moved = broken.moves.filter(({ task }) => keep.includes(task));
  const names = moved.map(({ task, from, to }) => `${line.tasks[task]!.id} from ${from} to ${to}`);
  const rest = broken.moves.length - moved.length;
  const more = rest === 0 ? "no other task" : countOf(rest, "other task");
  return `${least}${why}; the cheapest way out moves ${listOf(names)} and ${more}, with ${broken.peopleInAll} people in all`;
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
