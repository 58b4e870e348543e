import { decodeBytes } from "../findings/decode-bytes.js";
import { hasErrors } from "../findings/finding.js";
import { studyDocument } from "../report/json/study-json.js";
import { readReadingsTable } from "../study/read-readings-table.js";
import { isReadingsYaml, readReadingsYaml } from "../study/read-readings-yaml.js";
import type { ReadingsReading } from "../study/readings.js";
import { studyElements } from "../study/study-elements.js";
import {
  ALLOWANCE_BASES,
  allowanceInAll,
  CLOCKS,
  QUANTILES,
  readAllowance,
  readRating,
  STATISTICS,
  type StudyTerms,
} from "../study/study-terms.js";
import { readTable } from "../table/read-table.js";
import { compare, ONE, ratio } from "../time/ratio.js";
import { readShareOfSome } from "../time/share.js";
import { TIME_UNITS } from "../time/units.js";
import { type Refused, refuse } from "./result.js";
import { bytesOf, decimalsOf, TABLE_OPTIONS, type TableOptions, tableTerms } from "./tables.js";
import {
  checkOptions,
  refuseTogether,
  textIfGiven,
  textOption,
  timeOption,
  UsageError,
  wordOption,
} from "./usage-error.js";

/** How readings are taken, and how times are worked out of them. */
export interface StudyOptions extends TableOptions {
  /** What findings call the file; "readings.csv" where left out. */
  readonly file?: string;
  /** What bare readings are in. */
  readonly unit?: "s" | "min" | "h" | "cmin" | "tmu";
  /** Of readings that have none of their own; "100 %" where left out. */
  readonly rating?: string;
  /** Such as ["personal 5 %", "fatigue 4 %"]; they add up. */
  readonly allowances?: readonly string[];
  /** "job": normal x (1 + a); "shift": normal / (1 - a). To be given with `allowances`. */
  readonly allowanceBase?: "job" | "shift";
  /** Of the readings needed; "95 %" where left out. */
  readonly confidence?: string;
  /** How near the mean is to be; "5 %" of it where left out. Not with `error`. */
  readonly precision?: string;
  /** The same as a time, such as "1 cmin". */
  readonly error?: string;
  /** How readings needed are counted: by Student's t or by the normal curve; t below 30 readings where left out, then z. */
  readonly by?: "t" | "z";
  /** What counts as the observed time; "mean" where left out. */
  readonly statistic?: "mean" | "median" | "lowest-repeated";
  /** "restart": the watch starts again with each element, the default; "continuous": it runs on. */
  readonly clock?: "restart" | "continuous";
  /** What stands beside a reading that is foreign to the work. */
  readonly leaveOut?: string;
  /** "comma" or "point", where 1.033 may be 1033. */
  readonly decimals?: string;
}

/** Observed, normal and standard time of each element, the readings that it needs, and totals: seconds of one time that it is done. */
export type StudyResult = ReturnType<typeof studyDocument>;

/**
 * Standard times from stopwatch readings: observed x rating = normal, and allowances on it; readings needed from the unrated readings of each
 * element, (quantile x deviation / (precision x mean)) squared, rounded up. `shared/terms.md` has each formula with its source.
 *
 * @param readings a CSV file or YAML as text, or the bytes of a file, which may be a workbook (.xlsx)
 * @returns the JSON of `linepoise study`; refused with the faults of the readings; never throws for anything in them
 * @throws UsageError for options that do not exist, cannot be read or do not go together
 */
export async function study(
  readings: string | Uint8Array,
  options: StudyOptions = {},
): Promise<StudyResult | Refused> {
  checkOptions(options, OPTIONS);
  const terms = termsOf(options);
  const read = await readReadings(bytesOf(readings, "study: readings are"), options);
  const studied = read.readings === null ? null : studyElements(read.readings, terms);
  const findings = [...read.findings, ...(studied?.findings ?? [])];
  const answer = studied?.study ?? null;
  return answer === null ? refuse("study", findings, []) : studyDocument(answer, null, findings);
}

const OPTIONS = [
  "file",
  "unit",
  "rating",
  "allowances",
  "allowanceBase",
  "confidence",
  "precision",
  "error",
  "by",
  "statistic",
  "clock",
  "leaveOut",
  "decimals",
  ...TABLE_OPTIONS,
];

function termsOf(options: StudyOptions): StudyTerms {
  refuseTogether(["precision", options.precision], ["error", options.error]);
  const allowances = (options.allowances ?? []).map((each) => textOption("allowances", each, readAllowance));
  const base = wordOption("allowanceBase", options.allowanceBase, ALLOWANCE_BASES);
  if (allowances.length > 0 && base === undefined)
    throw new UsageError(
      "allowances need allowanceBase: job for a share of the job time, normal x (1 + a); shift for a share of the shift, normal / (1 - a)",
    );
  if (base === "shift" && compare(allowanceInAll(allowances), ONE) >= 0)
    throw new UsageError("allowances: allowances of 100 % of the shift or more leave no time to work");
  const precision = textIfGiven("precision", options.precision, readShareOfSome) ?? ratio(5, 100);
  return {
    statistic: wordOption("statistic", options.statistic, STATISTICS) ?? "mean",
    clock: wordOption("clock", options.clock, CLOCKS) ?? null,
    rating: textIfGiven("rating", options.rating, readRating) ?? null,
    allowances,
    allowanceBase: allowances.length > 0 ? base! : null,
    confidence: textIfGiven("confidence", options.confidence, readShareOfSome) ?? ratio(95, 100),
    within:
      options.error === undefined ? { share: precision } : { time: timeOption("error", options.error, null) },
    by: wordOption("by", options.by, QUANTILES) ?? null,
  };
}

async function readReadings(bytes: Uint8Array, options: StudyOptions): Promise<ReadingsReading> {
  const { file = "readings.csv" } = options;
  const leaveOut = options.leaveOut?.trim() ?? null;
  if (leaveOut === "") throw new UsageError("leaveOut: a mark is expected, such as *");
  const given = { unit: wordOption("unit", options.unit, TIME_UNITS) ?? null, leaveOut };
  const [terms, decimals] = [tableTerms(options), decimalsOf(options.decimals) ?? null];
  const decoded = decodeBytes(bytes);
  if (decoded.ok && isReadingsYaml(file, decoded.text)) return readReadingsYaml(file, decoded.text, given);
  const { table, findings } = await readTable(file, bytes, terms);
  if (table === null || hasErrors(findings))
    return { readings: null, findings, source: table?.source ?? null };
  const read = readReadingsTable(table, { ...given, decimals });
  return { ...read, findings: [...findings, ...read.findings] };
}
