import { shownTakt } from "../answer/balance/shown-takt.js";
import { taktDocument } from "../report/json/takt-json.js";
import { knownLine, type Line } from "./line.js";
import type { DemandOptions } from "./pace.js";
import { taktFor } from "./pace.js";
import { type Refused, refuse } from "./result.js";
import { checkOptions } from "./usage-error.js";

/** Takt, line cycle and station limit with every term of the sum: times in seconds, shares as fractions. */
export type TaktResult = ReturnType<typeof taktDocument>;

/**
 * Takt is available time / good units wanted in it; the line cycle is takt x uptime x yield; the station limit is (line cycle - handling) x
 * plan-to. `shared/terms.md` has each formula with its source.
 *
 * @returns the JSON of `linepoise takt`; refused with findings where nothing gives the pace
 * @throws UsageError for a demand that cannot be read
 */
export function takt(line: Line, options: Pick<DemandOptions, "demand"> = {}): TaktResult | Refused {
  checkOptions(options, ["demand"]);
  const known = knownLine(line);
  const found = taktFor(known.line, options.demand);
  if (!found.ok) return refuse("takt", known.findings, [found.fault]);
  return taktDocument(shownTakt(found.line, found.takt), known.findings);
}
