import { rebalanceLine } from "../answer/rebalance/rebalance-line.js";
import { lookBeside } from "../answer/rebalance/way-there.js";
import { nearestWordsAmong } from "../findings/nearest.js";
import { idKey } from "../line/ids.js";
import type { Line as InnerLine } from "../line/line.js";
import { rebalanceDocument } from "../report/json/rebalance-json.js";
import { knownLine, type Line } from "./line.js";
import { type DemandOptions, PACE_OPTIONS, paceFor } from "./pace.js";
import { besideBenches, type Plan, planMade, planOfToday } from "./plan.js";
import { type Refused, refuse } from "./result.js";
import { limitsOf, SEARCH_OPTIONS, type SearchOptions } from "./search.js";
import { checkOptions, countOption, UsageError } from "./usage-error.js";

/** What a change is held to. */
export interface RebalancingOptions extends DemandOptions, SearchOptions {
  /** The fewest people with this many moves or fewer. */
  readonly maxMoves?: number;
  /** The same in points: a move costs 1, or the `move-cost` of its task or skill. */
  readonly maxMoveCost?: number;
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
  const keep = tasksToKeep(part.line, options.keep ?? []);
  const { pace, takt } = found;
  const answer = await rebalanceLine(part.line, pace, takt, part.plan, { ...terms, keep });
  const whole = { line: found.line, pace, from: today.plan, strictLimit };
  const { way, slack, findings } = await lookBeside(answer, whole, days, checkpoint);
  const balance = { ...answer.balance, findings: [...answer.balance.findings, ...findings] };
  const { plan } = balance;
  return {
    result: rebalanceDocument({ ...answer, balance }, from.file, null, slack, way),
    plan: planMade(known, pace, plan && part.withBenches(plan)),
  };
}

const OWN_OPTIONS = ["maxMoves", "maxMoveCost", "keep", "steps", "strictLimit"];

function tasksToKeep({ tasks }: InnerLine, ids: readonly string[]): number[] {
  const numbers = new Map(tasks.map(({ id }, at) => [idKey(id), at]));
  return ids.map((id) => {
    const at = numbers.get(idKey(id));
    if (at !== undefined) return at;
    const near = nearestWordsAmong(tasks.map((task) => task.id))(id);
    throw new UsageError(`keep: no task of the line is called "${id}"${near}`);
  });
}
