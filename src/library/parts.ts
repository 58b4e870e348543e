import { lineOfOption } from "../answer/compare/line-of-option.js";
import { answerParts, batchFor, optionWithTables, type PlanInFile } from "../answer/parts/answer-parts.js";
import type { Finding } from "../findings/finding.js";
import type { Line as InnerLine } from "../line/line.js";
import { eachTaskOnce } from "../plan/check/each-task-once.js";
import { findOtherLine } from "../plan/file/find-other-line.js";
import { modelNamed } from "../plan/named.js";
import { partsDocument } from "../report/json/parts-json.js";
import { knownLine, type Line } from "./line.js";
import { taktFor } from "./pace.js";
import { type Plan, planReading } from "./plan.js";
import { type Refused, refuse } from "./result.js";
import { checkOptions, countOption, refuseTogether, UsageError, valueFor } from "./usage-error.js";

/** What parts are brought for. */
export interface PartsOptions {
  /** Good units of a batch; what the demand asks of the longest shift where left out. */
  readonly units?: number;
  /** All units are of this model; the mix of the line where left out. */
  readonly model?: string;
  /** Good units wanted, such as "176 per day". */
  readonly demand?: string;
  /** Kits of whole units, for the tables of this option of the line; the plan is null then. */
  readonly option?: string;
  /** What goes elsewhere than in this plan, and whether the totals agree. */
  readonly against?: Plan;
}

/** Parts at each station and bench, in all, and the work of who brings them: quantities exact, and rounded up. */
export type PartsResult = ReturnType<typeof partsDocument>;

/**
 * The parts that the material handler brings to each station and bench, for a shift or a batch: units started x pieces, and packs,
 * containers and trips where the part list says what they hold.
 *
 * @param plan null for the kits of an option with tables
 * @returns the JSON of `linepoise parts`; refused with findings where the pace has a fault or a plan is of another line
 * @throws UsageError for options that do not exist or cannot be read, and where nothing says how many units a shift makes
 */
export function parts(line: Line, plan: Plan | null, options: PartsOptions = {}): PartsResult | Refused {
  checkOptions(options, ["units", "model", "demand", "option", "against"]);
  const { units, option: name, against, demand } = options;
  refuseTogether(["a plan", plan ?? undefined], ["option", name]);
  refuseTogether(["against", against], ["option", name]);
  const { line: whole, findings } = knownLine(line);
  const option = name === undefined ? null : valueFor("option", optionWithTables(whole, name));
  if (plan === null && option === null)
    throw new UsageError("parts: a plan is expected, or the option with tables under `option`");
  const asked = option === null ? whole : lineOfOption(whole, option);
  const hasDemand = demand !== undefined || asked.demand !== null;
  const found = hasDemand ? taktFor(asked, demand) : { ok: true as const, line: asked, takt: null };
  if (!found.ok) return refuse("parts", findings, [found.fault]);
  const takt = found.takt?.takt ?? null;
  const model = options.model === undefined ? null : valueFor("model", modelNamed(found.line, options.model));
  const batch = batchFor(found.line, takt, countOption("units", units, 1) ?? null, model);
  if (!batch.ok) throw new UsageError(`units: ${batch.problem}`);
  const read = [plan, against].map((each) => (each == null ? null : planInFile(each, whole)));
  const faults = read.flatMap((each) => (each !== null && "faults" in each ? each.faults : []));
  if (faults.length > 0) return refuse("parts", [], faults);
  const [at, before] = read as (PlanInFile | null)[];
  const tables = option === null ? null : { tables: { id: option.name, people: option.tables.people } };
  const answer = answerParts(found.line, batch.value, at ?? tables!, before ?? null);
  return partsDocument({ ...answer, findings: [...findings, ...answer.findings] });
}

function planInFile(plan: Plan, line: InnerLine): PlanInFile | { readonly faults: readonly Finding[] } {
  const reading = planReading(plan, line);
  const foreign = reading.plan === null ? null : findOtherLine(line, reading);
  if (reading.plan === null || foreign !== null)
    return { faults: foreign === null ? reading.findings : [foreign] };
  const fingerprint = reading.madeFor?.fingerprint ?? null;
  return { file: plan.file, plan: eachTaskOnce(line, reading.plan), fingerprint };
}
