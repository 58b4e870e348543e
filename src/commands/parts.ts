import { lineOfOption } from "../answer/compare/line-of-option.js";
import {
  answerParts,
  batchFor,
  optionWithTables,
  type PartsAnswer,
  type PlanInFile,
} from "../answer/parts/answer-parts.js";
import { hasErrors } from "../findings/finding.js";
import { formatFindings } from "../findings/format-findings.js";
import { idKey } from "../line/ids.js";
import type { Line } from "../line/line.js";
import { eachTaskOnce } from "../plan/check/each-task-once.js";
import { modelNamed, stationNamed } from "../plan/named.js";
import { partsJson } from "../report/json/parts-json.js";
import { partsMarkdown } from "../report/markdown/parts-markdown.js";
import { partsSheet } from "../report/sheet/parts-sheet.js";
import { partsText } from "../report/terminal/parts-text.js";
import { quoted } from "../time/quoted.js";
import type { Ratio } from "../time/ratio.js";
import { type Context, type Register, UsageError } from "./context.js";
import {
  addOutputOptions,
  checkOutput,
  emit,
  type FormatOptions,
  formatOf,
  type OutputOptions,
  refuseSameFile,
  refuseTogether,
  withFormat,
} from "./emit.js";
import { addFormatOptions, writtenTable } from "./emit-table.js";
import { EXIT_STATUS, type ExitStatus } from "./exit-status.js";
import { findTakt } from "./find-pace.js";
import { type LoadedLine, loadLine } from "./load-line.js";
import { readEachOrRefuse, readNamed, type TextOfFile, tasksTwice } from "./load-plan.js";
import { positiveWholeNumber, valueFor } from "./option-values.js";

const FORMATS = ["text", "markdown", "csv", "json"] as const;
type Format = (typeof FORMATS)[number];

interface PartsOptions extends FormatOptions<Format> {
  readonly units?: number;
  readonly model?: string;
  readonly demand?: string;
  readonly station?: string;
  readonly option?: string;
  readonly against?: string;
}

export const registerParts: Register = (program, act) => {
  const command = program
    .command("parts")
    .description("parts that the material handler brings to each station and bench, for a shift or a batch")
    .argument("<line>", "line file; - for standard input")
    .argument("[plan]", "plan file; left out with --option")
    .option(
      "--units <count>",
      "good units of a batch (default: what the demand asks of the longest shift)",
      positiveWholeNumber,
    )
    .option("--model <id>", "all units are of this model (default: the mix of the line)")
    .option("--demand <text>", 'good units wanted instead of the file\'s, such as "176 per day"')
    .option("--station <id>", "this station or bench only")
    .option("--option <name>", "kits of whole units, for the tables of this option of the line")
    .option("--against <plan>", "what goes elsewhere than in this plan, and whether the totals agree");
  addFormatOptions(addOutputOptions(command), FORMATS).action(
    (path: string, plan: string | undefined, options: PartsOptions) =>
      act((context) => showParts(context, path, plan, withFormat(options))),
  );
};

async function showParts(
  context: Context,
  path: string,
  planPath: string | undefined,
  options: PartsOptions,
): Promise<ExitStatus> {
  refuseTogether(["a plan", planPath], ["--option", options.option]);
  refuseTogether(["--against", options.against], ["--option", options.option]);
  if (planPath === undefined && options.option === undefined)
    throw new UsageError("a plan is missing: name its file, or the option with tables by --option");
  await checkOutput(context, path, options);
  for (const read of [planPath, options.against])
    if (options.out !== undefined && read !== undefined)
      refuseSameFile(context, ["--out", options.out], ["the plan", read]);
  const loaded = await loadLine(context, "parts", path, options);
  if (loaded === null) return EXIT_STATUS.wrongInput;
  const option =
    options.option === undefined ? null : valueFor("--option", optionWithTables(loaded.line, options.option));
  const line = option === null ? loaded.line : lineOfOption(loaded.line, option);
  const pace = await taktIfAny(loaded, line, options.demand);
  if (pace === null) return EXIT_STATUS.wrongInput;
  const model =
    options.model === undefined ? null : valueFor("--model", modelNamed(pace.line, options.model));
  const batch = batchFor(pace.line, pace.takt, options.units ?? null, model);
  if (!batch.ok) throw new UsageError(`${batch.problem}; give --units`);
  const named = [planPath, options.against].filter((each) => each !== undefined);
  const plans = await loadInFiles(context, named, loaded.line, options);
  if (plans === null) return EXIT_STATUS.wrongInput;
  const [plan = null, against = null] = plans;
  const at = plan ?? { tables: { id: option!.name, people: option!.tables.people } };
  const answer = answerParts(pace.line, batch.value, at, against);
  const told = { ...answer, findings: [...loaded.findings, ...answer.findings] };
  const station = stationOf(answer, options.station);
  if (!options.json) {
    loaded.tell(loaded.findings, false);
    context.note(formatFindings(answer.findings, new Map(), context.noteWidth));
  }
  await emit(context, await reportOf(told, station, context, options), options);
  return hasErrors(answer.findings) ? EXIT_STATUS.answerIsNo : EXIT_STATUS.fine;
}

async function reportOf(
  answer: PartsAnswer,
  station: string | null,
  context: Context,
  options: PartsOptions,
): Promise<string | Uint8Array> {
  switch (formatOf(options)) {
    case "json":
      return partsJson(answer);
    case "csv":
      return writtenTable("parts", partsSheet(answer, station), options);
    case "markdown":
      return partsMarkdown(answer, station);
    default:
      return partsText(answer, station, context);
  }
}

/** The takt where a demand gives one; null where the file's pace has a fault, which is told. */
async function taktIfAny(
  loaded: LoadedLine,
  line: Line,
  demand: string | undefined,
): Promise<{ readonly line: Line; readonly takt: Ratio | null } | null> {
  if (demand === undefined && line.demand === null) return { line, takt: null };
  const found = findTakt(line, demand);
  if (found.ok) return { line: found.line, takt: found.takt.takt };
  await loaded.refuse([...loaded.findings, found.fault]);
  return null;
}

/** The station, bench or tables of that id; null where none is asked for. */
function stationOf({ plan, posts }: PartsAnswer, id: string | undefined): string | null {
  if (id === undefined) return null;
  if (plan !== null) return valueFor("--station", stationNamed(plan, id)).id;
  const [tables] = posts;
  if (tables !== undefined && idKey(tables.id) === idKey(id)) return tables.id;
  throw new UsageError(`--station: the option has its tables only, ${quoted(tables!.id)}`);
}

/** Plans with their fingerprints; null where a file is no plan of the line, which is told. */
async function loadInFiles(
  context: Context,
  paths: readonly string[],
  line: Line,
  options: OutputOptions,
): Promise<PlanInFile[] | null> {
  const files: TextOfFile[] = [];
  for (const path of paths) files.push(await readNamed(context, path));
  const readings = await readEachOrRefuse(context, "parts", files, line, options);
  if (readings === null) return null;
  const texts = new Map(files.map(({ path, text }) => [path, text]));
  return readings.map((reading, at) => {
    const { path: file } = files[at]!;
    const told = [...reading.findings, ...tasksTwice(file, line, reading)];
    const shown = told.filter(({ severity }) => severity !== "note");
    context.note(formatFindings(shown, texts, context.noteWidth));
    return {
      file,
      plan: eachTaskOnce(line, reading.plan),
      fingerprint: reading.madeFor?.fingerprint ?? null,
    };
  });
}
