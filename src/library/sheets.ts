import { checkAndAnswer, chooseSheets } from "../answer/sheets/answer-sheets.js";
import { findOtherLine } from "../plan/file/find-other-line.js";
import { sheetsPage } from "../report/html/sheets-page.js";
import { sheetsDocument } from "../report/json/sheets-json.js";
import { knownLine, type Line } from "./line.js";
import { type DemandOptions, PACE_OPTIONS, paceFor } from "./pace.js";
import { type Plan, planReading } from "./plan.js";
import { type Refused, refuse } from "./result.js";
import { checkOptions, refuseTogether, UsageError } from "./usage-error.js";

/** Which sheets are made. */
export interface SheetsOptions extends DemandOptions {
  /** The sheet of this station or bench only. */
  readonly station?: string;
  /** The training matrix only. */
  readonly training?: boolean;
  /** Shown on every sheet as it stands; none where left out. */
  readonly date?: string;
}

/** The facts of each sheet, and the training matrix. */
export type SheetsResult = ReturnType<typeof sheetsDocument>;

/** Sheets as facts and as a page. */
export interface SheetsAnswered {
  /** The JSON of `linepoise sheets`. */
  readonly result: SheetsResult | Refused;
  /** A page of HTML to print, one sheet of paper each, which loads nothing from elsewhere; null where refused. */
  readonly html: string | null;
}

/**
 * Sheets to print: one for each station and bench of a plan, and the training matrix. Errors that a check finds of the plan are under
 * `findings`.
 *
 * @throws UsageError for options that do not exist or exclude each other, and for a station that the plan does not have
 */
export async function sheets(line: Line, plan: Plan, options: SheetsOptions = {}): Promise<SheetsAnswered> {
  checkOptions(options, [...PACE_OPTIONS, "station", "training", "date"]);
  const training = options.training === true;
  refuseTogether(["station", options.station], ["training", training || undefined]);
  const { line: asRead, findings } = knownLine(line);
  const refused = (faults: Parameters<typeof refuse>[2], known = findings) => ({
    result: refuse("sheets", known, faults),
    html: null,
  });
  const found = paceFor(asRead, options);
  if (!found.ok) return refused([found.fault]);
  const reading = planReading(plan, found.line);
  if (reading.plan === null) return refused(reading.findings, []);
  const foreign = findOtherLine(found.line, reading);
  if (foreign !== null) return refused([foreign], []);
  const read = { ...reading, plan: reading.plan };
  const { answer } = await checkAndAnswer({ ...found, asRead, findings }, read, null, options.date ?? null);
  const chosen = chooseSheets(answer, { ...options, training });
  if (!chosen.ok) throw new UsageError(chosen.problem);
  const asked = [answer, chosen.value.sheets, chosen.value.training] as const;
  return { result: sheetsDocument(...asked), html: sheetsPage(...asked) };
}
