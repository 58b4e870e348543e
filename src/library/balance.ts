import { answerBalance } from "../answer/balance/answer-balance.js";
import { answerStations } from "../answer/balance/answer-stations.js";
import type { BalanceAnswer } from "../answer/balance/balance-answer.js";
import { explainBalance } from "../answer/balance/explanation.js";
import { shownBalance } from "../answer/balance/shown-balance.js";
import type { FoundPace } from "../answer/set-pace.js";
import type { Line as InnerLine } from "../line/line.js";
import { asksToKeepPace } from "../line/parts/keep-pace.js";
import type { Plan as InnerPlan } from "../plan/plan.js";
import { type balanceAsJson, balanceDocument } from "../report/json/balance-json.js";
import type { flagJson, obstaclesJson } from "../report/json/flag-json.js";
import type { stationJson } from "../report/json/station-json.js";
import { DEFAULT_METHOD, METHODS } from "../solve/methods.js";
import { type KnownLine, knownLine, type Line } from "./line.js";
import { type DemandOptions, PACE_OPTIONS, paceFor } from "./pace.js";
import { type Plan, planMade, planOfToday } from "./plan.js";
import { type Refused, refuse } from "./result.js";
import { limitsOf, SEARCH_OPTIONS, type SearchOptions } from "./search.js";
import { checkOptions, countOption, refuseTogether, UsageError, wordOption } from "./usage-error.js";

/** How to balance. */
export interface BalancingOptions extends DemandOptions, SearchOptions {
  /** "best" where left out: every ranking, then the search, then even loads. */
  readonly method?:
    | "positional-weight"
    | "largest-candidate"
    | "columns"
    | "most-followers"
    | "exact"
    | "best";
  /** The shortest cycle for this number of stations, with one workplace each, from 1 to the number of tasks. Not with `cycle`, a ranking, `from`, `level`, `strictLimit` or `explain`. */
  readonly stations?: number;
  /** A plan to start from; tasks that it leaves out get a station. */
  readonly from?: Plan;
  /** False: the loads of the stations are not evened out. */
  readonly level?: boolean;
  /** Refuse a task over the station limit, also where it is alone at a station. */
  readonly strictLimit?: boolean;
  /** Add how each ranking ordered the tasks, under `rankings`. */
  readonly explain?: boolean;
}

/** Stations, figures, proof and what is worth taking off the line: times in seconds, shares as fractions, null for what is not known. */
export type BalanceResult = ReturnType<typeof balanceDocument>;

/** What the results of other functions nest of a balance. */
export type NestedBalance = ReturnType<typeof balanceAsJson>;

/** A station of a balance. */
export type StationResult = ReturnType<typeof stationJson>;

/** A reason why there is no plan, in words, and its facts where work does not fit what it is held to. */
export type Obstacle = ReturnType<typeof obstaclesJson>[number];

/** Something worth taking off the line, or a task that is too long and what helps: its facts, and the reason in words. */
export type OffLineFlag = ReturnType<typeof flagJson>;

/** An answer with a plan that the other functions take. */
export interface BalanceAnswered {
  /** The JSON of `linepoise balance`. */
  readonly result: BalanceResult | Refused;
  /** Null where there is none: `result` says why. */
  readonly plan: Plan | null;
}

/**
 * Spreads the tasks over stations: the fewest people, then the fewest stations, then even loads, with a proof where there is one. Every plan
 * has passed an independent verifier. The methods are after Helgeson and Birnie (1961), Moodie and Young (1965), Kilbridge and Wester
 * (1961) and Tonge (1961); the search is a station-oriented branch and bound after Scholl and Klein (1997), Sewell and Jacobson (2012) and
 * Morrison, Sewell and Jacobson (2014).
 *
 * `result.outcome`: "proved" (nothing less is possible), "found", "infeasible" (proved that no plan exists; `findings` and `obstacles` say
 * why), "stopped" (a limit or the signal ended it before there was a plan) or "refused" (wrong input; `findings` say what).
 *
 * @throws UsageError for options that do not exist, cannot be read or exclude each other
 */
export async function balance(line: Line, options: BalancingOptions = {}): Promise<BalanceAnswered> {
  checkOptions(options, [...PACE_OPTIONS, ...SEARCH_OPTIONS, ...OWN_OPTIONS]);
  const known = knownLine(line);
  const method = wordOption("method", options.method, METHODS) ?? DEFAULT_METHOD;
  const stations = countOption("stations", options.stations, 1, known.line.tasks.length);
  refuseWithStations(known.line, options, method);
  const refused = (faults: Parameters<typeof refuse>[2]) => ({
    result: refuse("balance", known.findings, faults),
    plan: null,
  });
  const found = paceIfAny(known.line, options);
  if (!found.ok && stations === undefined) return refused([found.fault]);
  const from = options.from === undefined ? null : planOfToday(options.from, known.line);
  if (from !== null && "faults" in from) return refused(from.faults);
  const asked = { options, method, stations, from: from?.plan ?? null };
  const answer = await solve(known.line, found, asked);
  const told = found.ok ? [] : [{ ...found.fault, severity: "warning" as const }];
  const shown = shownBalance({ ...answer, findings: [...known.findings, ...told, ...answer.findings] });
  const explanation = options.explain === true ? explainBalance(shown) : null;
  return { result: balanceDocument(shown, null, explanation), plan: planOf(known, answer) };
}

const OWN_OPTIONS = ["method", "stations", "from", "level", "strictLimit", "explain"];

const planOf = (known: KnownLine, { pace, plan }: BalanceAnswer) => planMade(known, pace, plan);

/** A fixed number of stations is a question of its own: what sets a pace, a ranking or a limit does not go with it. */
function refuseWithStations(line: InnerLine, options: BalancingOptions, method: string): void {
  const { stations, cycle, level, strictLimit, explain, from } = options;
  if (stations === undefined) return;
  const ranking = method === "exact" || method === DEFAULT_METHOD ? undefined : method;
  const given = { cycle, level, strictLimit, explain, from, method: ranking };
  for (const [name, value] of Object.entries(given)) refuseTogether(["stations", stations], [name, value]);
  if (asksToKeepPace(line))
    throw new UsageError(
      `stations: ${line.file} has \`keep-pace\`, and a fixed number of stations sets its own pace, which nothing is held to`,
    );
}

/** With a fixed number of stations a demand is only compared, and need not be there. */
function paceIfAny(
  line: InnerLine,
  options: BalancingOptions,
): FoundPace | { ok: true; line: InnerLine; pace: null; takt: null } {
  const isFree = options.stations !== undefined && options.demand === undefined && line.demand === null;
  return isFree ? { ok: true, line, pace: null, takt: null } : paceFor(line, options);
}

interface Asked {
  readonly options: BalancingOptions;
  readonly method: string;
  readonly stations: number | undefined;
  readonly from: InnerPlan | null;
}

function solve(
  whole: InnerLine,
  found: ReturnType<typeof paceIfAny>,
  { options, method, stations, from }: Asked,
): Promise<BalanceAnswer> {
  const limits = limitsOf(options);
  const { line, pace, takt } = found.ok ? found : { line: whole, pace: null, takt: null };
  if (stations !== undefined) return answerStations(line, stations, takt, limits);
  return answerBalance(line, pace!, takt, {
    ...limits,
    method,
    level: options.level !== false,
    strictLimit: options.strictLimit === true,
    explain: options.explain === true,
    from,
  });
}
