import { Option } from "commander";
import { decodeBytes } from "../findings/decode-bytes.js";
import { type Finding, hasErrors } from "../findings/finding.js";
import { formatFindings } from "../findings/format-findings.js";
import { nearestWordsAmong } from "../findings/nearest.js";
import { idKey } from "../line/ids.js";
import { type IntoJson, studyJson } from "../report/json/study-json.js";
import { studyText } from "../report/terminal/study-text.js";
import { intoLine } from "../study/into-line.js";
import { readReadingsTable } from "../study/read-readings-table.js";
import { isReadingsYaml, readReadingsYaml } from "../study/read-readings-yaml.js";
import type { ReadingsReading } from "../study/readings.js";
import { type StudiedElement, type Study, studyElements } from "../study/study-elements.js";
import {
  ALLOWANCE_BASES,
  type AllowancePart,
  allowanceInAll,
  CLOCKS,
  QUANTILES,
  readAllowance,
  readRating,
  STATISTICS,
  type StudyTerms,
} from "../study/study-terms.js";
import { readTable } from "../table/read-table.js";
import type { TableOptions } from "../table/table.js";
import { readDuration } from "../time/duration.js";
import { quoted } from "../time/quoted.js";
import { compare, ONE, type Ratio, ratio } from "../time/ratio.js";
import type { Reading } from "../time/reading.js";
import { readShareOfSome } from "../time/share.js";
import { type Micros, TIME_UNITS, type TimeUnit } from "../time/units.js";
import { type Context, type Register, UsageError } from "./context.js";
import {
  addFormatName,
  addOutputOptions,
  asJson,
  checkOutput,
  emitRefusal,
  type FormatOptions,
  refuseSameFile,
  refuseTogether,
} from "./emit.js";
import { emitResult } from "./emit-table.js";
import { EXIT_STATUS, type ExitStatus } from "./exit-status.js";
import { checkInto, type IntoOptions, lineSourceOf, loadTarget } from "./into-line.js";
import { decimalsOption, delimiterOption, sheetOption } from "./load-tables.js";
import { collected, taking } from "./option-values.js";
import { findOtherTable } from "./other-table.js";

interface StudyOptions extends FormatOptions, IntoOptions {
  readonly unit?: TimeUnit;
  readonly rating?: Ratio;
  readonly allowance: readonly AllowancePart[];
  readonly allowanceOf?: "job" | "shift";
  readonly confidence?: Ratio;
  readonly precision?: Ratio;
  readonly error?: Micros;
  readonly by?: "t" | "z";
  readonly statistic: StudyTerms["statistic"];
  readonly clock?: "restart" | "continuous";
  readonly leaveOut?: string;
  readonly delimiter?: NonNullable<TableOptions["delimiter"]>;
  readonly decimals?: "," | ".";
  readonly sheet?: string;
  readonly picture?: string;
  readonly keepReadings?: true;
}

export const registerStudy: Register = (program, act) => {
  const command = program
    .command("study")
    .description("standard times from stopwatch readings, and how many readings they need")
    .argument("<readings>", "CSV file, workbook (.xlsx) or YAML; - for standard input")
    .addOption(new Option("--unit <unit>", "what bare readings are in").choices([...TIME_UNITS]))
    .option(
      "--rating <share>",
      "of readings that have none of their own (default: 100 %)",
      taking(readRating),
    )
    .addOption(
      new Option("--allowance <name-and-share>", 'such as "personal 5 %"; give it again for each part')
        .argParser(collected(readAllowance))
        .default([], "none"),
    )
    .addOption(
      new Option("--allowance-of <base>", "job: normal x (1 + a); shift: normal / (1 - a)").choices([
        ...ALLOWANCE_BASES,
      ]),
    )
    .option("--confidence <share>", "of the readings needed (default: 95 %)", taking(readShareOfSome))
    .option("--precision <share>", "how near the mean is to be (default: 5 % of it)", taking(readShareOfSome))
    .option("--error <time>", 'the same as a time, such as "1 cmin"', taking(readError))
    .addOption(
      new Option(
        "--by <quantile>",
        "how readings needed are counted (default: t below 30 readings, then z)",
      ).choices([...QUANTILES]),
    )
    .addOption(
      new Option("--statistic <name>", "what counts as the observed time")
        .choices([...STATISTICS])
        .default("mean"),
    )
    .addOption(
      new Option(
        "--clock <kind>",
        "restart: snapback, the watch starts again with each element (default); continuous: it runs on",
      ).choices([...CLOCKS]),
    )
    .option("--leave-out <mark>", "what stands beside a reading that is foreign to the work")
    .addOption(delimiterOption())
    .addOption(decimalsOption())
    .addOption(sheetOption())
    .option("--picture <element>", "the readings of an element in order, as dots")
    .option("--into <line>", "write times, spread and where they come from into this line file")
    .option(
      "--keep-readings",
      "with --into: write the readings as `measured`, which `simulate` draws from, in place of the spread",
    )
    .option("--dry-run", "show what --into would change, and write nothing");
  addFormatName(addOutputOptions(command)).action((path: string, options: StudyOptions) =>
    act((context) => showStudy(context, path, asJson(options))),
  );
};

async function showStudy(context: Context, path: string, options: StudyOptions): Promise<ExitStatus> {
  const terms = termsOf(options);
  await checkTargets(context, path, options);
  const read = await loadReadings(context, path, options);
  const sources = new Map(read.source === null ? [] : [[nameOf(path), read.source]]);
  const studied = read.readings === null ? null : studyElements(read.readings, terms);
  const findings = [...read.findings, ...(studied?.findings ?? [])];
  const refuse = async (faults: readonly Finding[]): Promise<ExitStatus> => {
    await emitRefusal(context, "study", faults, options, () =>
      context.note(formatFindings(faults, sources, context.noteWidth)),
    );
    return EXIT_STATUS.wrongInput;
  };
  const study = studied?.study ?? null;
  if (study === null) return refuse(findings);
  const pictured = picturedOf(study, options.picture);
  let into: IntoJson | null = null;
  if (options.into !== undefined) {
    const target = await loadTarget(context, options.into);
    sources.set(target.file, target.source);
    const line = lineSourceOf(target);
    if (line === null) return refuse(target.findings);
    const result = intoLine(study, line, options.keepReadings === true);
    findings.push(...result.findings);
    sources.set(target.file, result.source);
    if (result.written === null) return refuse(findings);
    into = { file: options.into, isWritten: options.dryRun !== true, line: result.written };
    if (into.isWritten) await context.writeText(options.into, result.written.text, { force: true });
  }
  if (!options.json) context.note(formatFindings(findings, sources, context.noteWidth));
  const json = () => studyJson(study, into, findings);
  const text = () => studyText(study, pictured, into, context);
  // Of the readings, not of the answer.
  const { delimiter: _delimiter, decimals: _decimals, ...form } = options;
  await emitResult(context, { json, text, list: ["elements"] }, form);
  return EXIT_STATUS.fine;
}

/** What the command line says of how times are worked out. Throws a UsageError for what does not go together. */
function termsOf(options: StudyOptions): StudyTerms {
  const { allowance, allowanceOf: base } = options;
  refuseTogether(["--precision", options.precision], ["--error", options.error]);
  if (allowance.length > 0 && base === undefined) {
    throw new UsageError(
      "--allowance needs --allowance-of: job for a share of the job time, normal x (1 + a); shift for a share of the shift, normal / (1 - a)",
    );
  }
  if (base === "shift" && compare(allowanceInAll(allowance), ONE) >= 0)
    throw new UsageError("--allowance: allowances of 100 % of the shift or more leave no time to work");
  return {
    statistic: options.statistic,
    clock: options.clock ?? null,
    rating: options.rating ?? null,
    allowances: allowance,
    allowanceBase: allowance.length > 0 ? base! : null,
    confidence: options.confidence ?? ratio(95, 100),
    within:
      options.error === undefined ? { share: options.precision ?? ratio(5, 100) } : { time: options.error },
    by: options.by ?? null,
  };
}

async function checkTargets(context: Context, path: string, options: StudyOptions): Promise<void> {
  const { into, out, keepReadings } = options;
  if (keepReadings && into === undefined)
    throw new UsageError("--keep-readings says what --into writes; give --into as well");
  if (options.leaveOut?.trim() === "") throw new UsageError("--leave-out: a mark is expected, such as *");
  await checkOutput(context, path, options);
  if (into !== undefined && out !== undefined) refuseSameFile(context, ["--into", into], ["--out", out]);
  await checkInto(context, ["the readings", path], options);
}

const nameOf = (path: string): string => (path === "-" ? "standard input" : path);

async function loadReadings(context: Context, path: string, options: StudyOptions): Promise<ReadingsReading> {
  const bytes = await context.readBytes(path);
  const file = nameOf(path);
  const given = { unit: options.unit ?? null, leaveOut: options.leaveOut?.trim() ?? null };
  const decoded = decodeBytes(bytes);
  if (decoded.ok && isReadingsYaml(file, decoded.text)) return readReadingsYaml(file, decoded.text, given);
  const { delimiter, sheet, decimals } = options;
  const { table, findings } = await readTable(file, bytes, {
    ...(delimiter !== undefined && { delimiter }),
    ...(sheet !== undefined && { sheet }),
  });
  if (table === null || hasErrors(findings))
    return { readings: null, findings, source: table?.source ?? null };
  const read = readReadingsTable(table, { ...given, decimals: decimals ?? null });
  const other = read.readings === null ? findOtherTable("study", table) : null;
  return { ...read, findings: [...findings, ...(other === null ? read.findings : [other])] };
}

/** The element of that name; null where none is asked for. Throws a UsageError that names what is near. */
function picturedOf({ elements }: Study, name: string | undefined): StudiedElement | null {
  if (name === undefined) return null;
  const found = elements.find((each) => idKey(each.name) === idKey(name));
  if (found !== undefined) return found;
  const names = elements.map((each) => each.name);
  const near = nearestWordsAmong(names)(name) || `; known: ${names.join(", ")}`;
  throw new UsageError(`--picture: no element is called ${quoted(name)}${near}`);
}

function readError(text: string): Reading<Micros> {
  const read = readDuration(text, null);
  if (read.ok && read.value === 0)
    return { ok: false, problem: "a time above 0 is expected, such as 1 cmin" };
  return read;
}
