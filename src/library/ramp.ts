import { rampLine } from "../answer/ramp/ramp-line.js";
import { MOST_UNITS } from "../line/learning-curve.js";
import { rampDocument } from "../report/json/ramp-json.js";
import { knownLine, type Line } from "./line.js";
import { type DemandOptions, PACE_OPTIONS, paceFor } from "./pace.js";
import { type Plan, planOfToday } from "./plan.js";
import { type Refused, refuse } from "./result.js";
import { goesOnUntil, type StopSignal } from "./search.js";
import { checkOptions, countOption, UsageError } from "./usage-error.js";

/** Which units are followed. */
export interface RampOptions extends DemandOptions {
  /** Good units of the batch, counted after those that are built already. */
  readonly units: number;
  /** Each unit and each day under `byUnit` and `byDay`, not some of them. */
  readonly each?: boolean;
  /** Looked at between units. Once it is aborted the answer is of those that were reached; nothing is thrown. */
  readonly signal?: StopSignal;
}

/** From which unit and day on the pace is kept, stations by unit, output by day, and hands that are missing until then. */
export type RampResult = ReturnType<typeof rampDocument>;

/**
 * How a plan gets up to pace while its people learn: the time of each task at each unit by its learning curve, after Wright (1936) and
 * Crawford (1944), in whole microseconds.
 *
 * @returns the JSON of `linepoise ramp`; refused with findings where nothing gives the pace or the plan is of another line
 * @throws UsageError for options that do not exist or cannot be read
 */
export async function ramp(line: Line, plan: Plan, options: RampOptions): Promise<RampResult | Refused> {
  checkOptions(options, [...PACE_OPTIONS, "units", "each", "signal"]);
  const units = countOption("units", options.units, 1, MOST_UNITS);
  if (units === undefined) throw new UsageError("units: the good units of the batch are expected");
  const { line: inner, findings } = knownLine(line);
  const found = paceFor(inner, options);
  if (!found.ok) return refuse("ramp", findings, [found.fault]);
  const today = planOfToday(plan, found.line);
  if ("faults" in today) return refuse("ramp", [], today.faults);
  const goesOn = goesOnUntil(options.signal);
  const asked = { units, each: options.each === true, goesOn };
  const answer = await rampLine(found.line, found.pace, found.takt, today.plan, asked);
  return rampDocument({ ...answer, findings: [...findings, ...answer.findings] });
}
