import { learningToLose } from "../answer/rebalance/lost-learning.js";
import { rebalanceLine } from "../answer/rebalance/rebalance-line.js";
import { planSeveralDemands, slackNearToday, withSlowBenches } from "../answer/rebalance/several-demands.js";
import { lookBeside } from "../answer/rebalance/way-there.js";
import { tasksNamed } from "../plan/named.js";
import { rebalanceDocument } from "../report/json/rebalance-json.js";
import { severalDemandsDocument } from "../report/json/several-demands-json.js";
import { readDemandList } from "../time/demand-list.js";
import { knownLine, type Line } from "./line.js";
import { type DemandOptions, PACE_OPTIONS, paceFor } from "./pace.js";
import { besideBenches, type Plan, planMade, planOfToday } from "./plan.js";
import { type Refused, refuse } from "./result.js";
import { limitsOf, SEARCH_OPTIONS, type SearchOptions } from "./search.js";
import { checkOptions, countOption, textOption, valueFor } from "./usage-error.js";

/** What a change is held to. */
export interface RebalancingOptions extends DemandOptions, SearchOptions {
  /** The fewest people with this many moves or fewer. */
  readonly maxMoves?: number;
  /** The same in points: a move costs 1, or the `move-cost` of its task or skill. */
  readonly maxMoveCost?: number;
  /** A move costs the minutes of work that are lost as its task is learned anew, by `learning` of the line; `maxMoveCost` is in minutes then. */
  readonly learning?: boolean;
  /** Ids of tasks that stay at their stations. */
  readonly keep?: readonly string[];
  /** Spread the steps of the change over this many days. */
  readonly steps?: number;
  /** Refuse a task over the station limit, also where it is alone at a station. */
  readonly strictLimit?: boolean;
}

/** Today's plan, the new one, the moves between them, moves against people, the steps of the change, and the slack of today's plan. */
export type RebalanceResult = ReturnType<typeof rebalanceDocument>;

/** An answer with a plan that the other functions take. */
export interface RebalanceAnswered {
  /** The JSON of `linepoise rebalance`. */
  readonly result: RebalanceResult | Refused;
  /** The new plan, with the benches of today's; null where there is none. */
  readonly plan: Plan | null;
}

/**
 * The fewest moves from today's plan to the pace asked for, and how many people each number of moves needs. Stations are matched by id or
 * content, not by number. Tasks that the line does not have any more are left out; benches stay as they are.
 *
 * @param from today's plan
 * @throws UsageError for options that do not exist or cannot be read, and for a task to keep that the line does not have
 */
export async function rebalance(
  line: Line,
  from: Plan,
  options: RebalancingOptions = {},
): Promise<RebalanceAnswered> {
  checkOptions(options, [...PACE_OPTIONS, ...SEARCH_OPTIONS, ...OWN_OPTIONS]);
  const known = knownLine(line);
  const maxMoves = countOption("maxMoves", options.maxMoves, 0) ?? null;
  const maxMoveCost = countOption("maxMoveCost", options.maxMoveCost, 0) ?? null;
  const days = countOption("steps", options.steps, 1) ?? null;
  const { nodes, checkpoint } = limitsOf(options);
  const strictLimit = options.strictLimit === true;
  const refused = (faults: Parameters<typeof refuse>[2], findings = known.findings) => ({
    result: refuse("rebalance", findings, faults),
    plan: null,
  });
  const found = paceFor(known.line, options);
  if (!found.ok) return refused([found.fault]);
  const today = planOfToday(from, found.line);
  if ("faults" in today) return refused(today.faults, []);
  const part = besideBenches(found.line, today.plan, from.file);
  if ("faults" in part) return refused(part.faults);
  const terms = { nodes, strictLimit, maxMoves, maxMoveCost, checkpoint };
  const keep = valueFor("keep", tasksNamed(part.line, options.keep ?? []));
  const learning =
    options.learning === true ? { learning: valueFor("learning", learningToLose(part.line)) } : {};
  const { pace, takt } = found;
  const answer = await rebalanceLine(part.line, pace, takt, part.plan, { ...terms, ...learning, keep });
  const whole = { line: found.line, pace, from: today.plan, strictLimit };
  const { way, slack, findings } = await lookBeside(answer, whole, days, checkpoint);
  const balance = { ...answer.balance, findings: [...answer.balance.findings, ...findings] };
  const { plan } = balance;
  return {
    result: rebalanceDocument(
      { ...answer, balance, peopleAtBenches: part.peopleAtBenches },
      from.file,
      null,
      slack,
      way,
    ),
    plan: planMade(known, pace, plan && part.withBenches(plan)),
  };
}

const OWN_OPTIONS = ["maxMoves", "maxMoveCost", "learning", "keep", "steps", "strictLimit"];

/** What plans for several demands are held to. */
export interface SeveralDemandsOptions extends SearchOptions {
  /** Two demands or more, such as "140, 165, 190 per day". */
  readonly demand: string;
  /** How many people more than the fewest a plan may have to save moves; 0 where left out. */
  readonly peopleAbove?: number;
  /** Refuse a task over the station limit, also where it is alone at a station. */
  readonly strictLimit?: boolean;
}

/** A plan for each demand under `demands`, lowest first, the moves from each to the next, and the change from today's plan. */
export type SeveralDemandsResult = ReturnType<typeof severalDemandsDocument>;

/** An answer with plans that the other functions take. */
export interface SeveralDemandsAnswered {
  /** The JSON of `linepoise rebalance` for several demands. */
  readonly result: SeveralDemandsResult | Refused;
  /** As many as `result.demands`, with the benches of today's plan; null for a demand without one. Empty where refused. */
  readonly plans: readonly (Plan | null)[];
}

/**
 * A plan for each of several demands between which a line changes, with few moves from one to the next and from today's plan to that of the
 * demand nearest to today's. Each has as few people as a balance of its demand alone, or up to `peopleAbove` more.
 *
 * @param from today's plan
 * @throws UsageError for options that do not exist or cannot be read
 */
export async function rebalanceSeveral(
  line: Line,
  from: Plan,
  options: SeveralDemandsOptions,
): Promise<SeveralDemandsAnswered> {
  checkOptions(options, [...SEARCH_OPTIONS, "demand", "peopleAbove", "strictLimit"]);
  const known = knownLine(line);
  const period = known.line.demand?.period ?? null;
  const demands = textOption("demand", options.demand, (text) => readDemandList(text, period));
  const peopleAbove = countOption("peopleAbove", options.peopleAbove, 0) ?? 0;
  const strictLimit = options.strictLimit === true;
  const { nodes, checkpoint } = limitsOf(options);
  const today = planOfToday(from, known.line);
  if ("faults" in today) return { result: refuse("rebalance", [], today.faults), plans: [] };
  const part = besideBenches(known.line, today.plan, from.file);
  if ("faults" in part) return { result: refuse("rebalance", known.findings, part.faults), plans: [] };
  const terms = { nodes, strictLimit, peopleAbove, checkpoint };
  const planned = await planSeveralDemands(part.line, demands, part.plan, terms);
  const answer = withSlowBenches(planned, known.line, today.plan);
  const near = answer.fromToday?.demand ?? demands[0]!;
  const isStopped = options.signal?.aborted === true;
  const slack = isStopped ? null : slackNearToday(known.line, near, today.plan, strictLimit);
  const plans = answer.demands.map(({ demand, takt, balance }) => {
    if (takt === null || balance?.plan == null) return null;
    const asked = { ...known, line: { ...known.line, demand } };
    return planMade(asked, takt.pace, part.withBenches(balance.plan));
  });
  return {
    result: severalDemandsDocument(
      { ...answer, peopleAtBenches: part.peopleAtBenches },
      from.file,
      null,
      slack,
    ),
    plans,
  };
}
