import { costOfPlan } from "../answer/compare/figures.js";
import { noPace } from "../answer/set-pace.js";
import { staffLine } from "../answer/staff/staff-line.js";
import { staffDocument } from "../report/json/staff-json.js";
import { availableTimeOf } from "../time/calendar.js";
import { readDemandRange } from "../time/demand-range.js";
import { knownLine, type Line } from "./line.js";
import { besideBenches, type Plan, planOfToday } from "./plan.js";
import { type Refused, refuse } from "./result.js";
import { limitsOf, SEARCH_OPTIONS, type SearchOptions } from "./search.js";
import { checkOptions, textOption } from "./usage-error.js";

/** How far demand moves. */
export interface StaffOptions extends SearchOptions {
  /** Good units as FROM..TO/STEP, in the period of the line or with its own, such as "120..240/20 per day". */
  readonly demand: string;
  /** Today's plan, for the moves to each demand and the hours of its crew. */
  readonly from?: Plan;
  /** Refuse a task over the station limit, also where it is alone at a station. */
  readonly strictLimit?: boolean;
}

/** A row for each demand, the demands at which people change, and other ways to make one of them. */
export type StaffResult = ReturnType<typeof staffDocument>;

/**
 * People, stations and figures as demand moves. A row is what `balance` gives for it alone; where people change is narrowed down to the
 * exact demand.
 *
 * @returns the JSON of `linepoise staff`; refused with findings where the calendar gives no time for the period, or `from` is no plan of the line
 * @throws UsageError for options that do not exist or cannot be read
 */
export async function staff(line: Line, options: StaffOptions): Promise<StaffResult | Refused> {
  checkOptions(options, [...SEARCH_OPTIONS, "demand", "from", "strictLimit"]);
  const { line: inner, findings } = knownLine(line);
  const range = textOption("demand", options.demand, (text) =>
    readDemandRange(text, inner.demand?.period ?? null),
  );
  const time = availableTimeOf(inner.calendar, range.period);
  if (!time.ok) return refuse("staff", findings, [noPace(inner, time.problem).fault]);
  const today = options.from === undefined ? null : planOfToday(options.from, inner);
  if (today !== null && "faults" in today) return refuse("staff", [], today.faults);
  const part =
    today === null ? { line: inner, plan: null } : besideBenches(inner, today.plan, options.from!.file);
  if ("faults" in part) return refuse("staff", findings, part.faults);
  const answer = await staffLine(part.line, range, {
    ...limitsOf(options),
    strictLimit: options.strictLimit === true,
    today: part.plan,
    beside: today === null ? null : { line: inner, plan: today.plan },
    costOf: costOfPlan,
  });
  return staffDocument({ ...answer, findings: [...findings, ...answer.findings] });
}
