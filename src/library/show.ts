import { shownBalance } from "../answer/balance/shown-balance.js";
import { answerShow } from "../answer/show/answer-show.js";
import { findOtherLine } from "../plan/file/find-other-line.js";
import { showDocument } from "../report/json/show-json.js";
import { knownLine, type Line } from "./line.js";
import { type DemandOptions, PACE_OPTIONS, paceFor } from "./pace.js";
import { type Plan, planReading } from "./plan.js";
import { type Refused, refuse } from "./result.js";
import { limitsOf, SEARCH_OPTIONS, type SearchOptions } from "./search.js";
import { checkOptions } from "./usage-error.js";

/** How a plan is shown. */
export interface ShowOptions extends DemandOptions, SearchOptions {
  /** Search for a better plan, and say what is proved of the least; without it nothing is searched. */
  readonly proof?: boolean;
}

/** A plan that stands with every figure that `balance` gives, its benches, and a better plan where a search found one. */
export type ShowResult = ReturnType<typeof showDocument>;

/**
 * A plan that stands, with everything that `balance` says of one and what `check` finds of it.
 *
 * @returns the JSON of `linepoise show`; refused with findings where nothing gives the pace or the plan is of another line
 * @throws UsageError for options that do not exist or cannot be read
 */
export async function show(line: Line, plan: Plan, options: ShowOptions = {}): Promise<ShowResult | Refused> {
  checkOptions(options, [...PACE_OPTIONS, ...SEARCH_OPTIONS, "proof"]);
  const known = knownLine(line);
  const found = paceFor(known.line, options);
  if (!found.ok) return refuse("show", known.findings, [found.fault]);
  const reading = planReading(plan, found.line);
  if (reading.plan === null) return refuse("show", [], reading.findings);
  const foreign = findOtherLine(found.line, reading);
  if (foreign !== null) return refuse("show", [], [foreign]);
  const against = { ...found, asRead: known.line, findings: known.findings };
  const search = options.proof === true ? limitsOf(options) : null;
  const read = { ...reading, plan: reading.plan };
  const { answer, benches } = await answerShow(against, read, null, search);
  return showDocument(shownBalance(answer, benches), benches);
}
