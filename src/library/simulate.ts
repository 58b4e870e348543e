import { isPaceGiven } from "../answer/set-pace.js";
import { benchesToRun, lineBeside } from "../benches/bench-of-plan.js";
import { type Finding, finding } from "../findings/finding.js";
import type { Line as InnerLine } from "../line/line.js";
import { simulateDocument } from "../report/json/simulate-json.js";
import { brokenRules, MOST_REPLICATIONS, MOST_SEED, type RunOptions, runPlan } from "../simulate/run-plan.js";
import { readDuration } from "../time/duration.js";
import type { Pace } from "../time/pace.js";
import { readShareOfSome } from "../time/share.js";
import { knownLine, type Line } from "./line.js";
import { type DemandOptions, PACE_OPTIONS, paceFor } from "./pace.js";
import { type Plan, planOfToday } from "./plan.js";
import { type Refused, refuse } from "./result.js";
import { goesOnUntil, type StopSignal } from "./search.js";
import { checkOptions, countOption, textIfGiven, timeOption, UsageError } from "./usage-error.js";

/** How a plan is simulated. */
export interface SimulateOptions extends DemandOptions {
  /** Random numbers to begin with, from 0; 1 where left out. The same seed gives the same answer on any machine. */
  readonly seed?: number;
  /** Productive hours of each replication, such as "40 h"; 1,000 units of the slowest station where left out. */
  readonly hours?: string;
  /** Hours before that, which do not count, such as "2 h"; until trial runs have settled by MSER-5 (White 1997) where left out. */
  readonly warmUp?: string;
  /** How often it is run, each time with other random numbers; 20 where left out, or 1 where nothing varies. */
  readonly replications?: number;
  /** Replications until half of the interval is so narrow, such as "1 %" of the output; `replications` are the most then, 1,000 where left out. */
  readonly within?: string;
  /** How sure the intervals are; "95 %" where left out. */
  readonly confidence?: string;
  /** Run it again with more room, a workplace more and other loads, and rank what that brings. */
  readonly whatHelps?: boolean;
  /** Looked at between replications. Once it is aborted the answer rests on those that were run; nothing is thrown. */
  readonly signal?: StopSignal;
}

/** Output with its interval, how stations spend their time, units in the line, and what limits it. */
export type SimulateResult = ReturnType<typeof simulateDocument>;

/**
 * A plan on simulated days, where times vary and stations stop: replications with independent streams of random numbers, and confidence
 * intervals by Student's t over them. A line without a demand is simulated without a pace, where nothing moves it.
 *
 * @returns the JSON of `linepoise simulate`; refused with findings where the plan is of another line or cannot be run, and where the signal
 *   ended it before there was anything to show
 * @throws UsageError for options that do not exist, cannot be read or ask for a run that takes too long
 */
export async function simulate(
  line: Line,
  plan: Plan,
  options: SimulateOptions = {},
): Promise<SimulateResult | Refused> {
  checkOptions(options, [...PACE_OPTIONS, ...OWN_OPTIONS]);
  const known = knownLine(line);
  const run = runOptions(options);
  const found = paceIfAny(known.line, options);
  if (!found.ok) return refuse("simulate", known.findings, [found.fault]);
  const today = planOfToday(plan, found.line);
  if ("faults" in today) return refuse("simulate", [], today.faults);
  const { plan: running } = today;
  const whole = found.line;
  const benchesAt = (pace: Pace) => benchesToRun(whole, pace, running);
  const toRun = { line: lineBeside(whole, running), whole, plan: running, pace: found.pace, benchesAt };
  const answer = await runPlan(toRun, run, null, goesOnUntil(options.signal));
  if (answer === null) return refuse("simulate", known.findings, [nothingRun(plan.file)]);
  if ("tooLong" in answer) throw new UsageError(answer.tooLong(NAMES));
  if ("faults" in answer) return refuse("simulate", known.findings, answer.faults);
  const broken = brokenRules(whole, found.pace, running);
  return simulateDocument({ ...answer, findings: [...known.findings, ...broken, ...answer.findings] });
}

const NAMES = { hours: "hours", replications: "replications", warmUp: "warmUp" };

const nothingRun = (file: string): Finding =>
  finding({
    rule: "nothing-run",
    severity: "error",
    message: "ended in the midst of the first replication: there is nothing to show",
    file,
  });

const OWN_OPTIONS = [
  "seed",
  "hours",
  "warmUp",
  "replications",
  "within",
  "confidence",
  "whatHelps",
  "signal",
];

function runOptions(options: SimulateOptions): RunOptions {
  const seed = countOption("seed", options.seed, 0, MOST_SEED);
  const replications = countOption("replications", options.replications, 1, MOST_REPLICATIONS);
  const hours = options.hours === undefined ? undefined : timeOption("hours", options.hours, "h");
  const warmUp = textIfGiven("warmUp", options.warmUp, (text) => readDuration(text, "h"));
  const within = textIfGiven("within", options.within, readShareOfSome);
  const confidence = textIfGiven("confidence", options.confidence, readShareOfSome);
  return {
    ...(seed !== undefined && { seed }),
    ...(replications !== undefined && { replications }),
    ...(hours !== undefined && { hours }),
    ...(warmUp !== undefined && { warmUp }),
    ...(within !== undefined && { within }),
    ...(confidence !== undefined && { confidence }),
    whatHelps: options.whatHelps === true,
  };
}

/** A line that nothing gives a pace may run without one. */
function paceIfAny(line: InnerLine, options: DemandOptions) {
  return isPaceGiven(line, options) ? paceFor(line, options) : { ok: true as const, line, pace: null };
}
