import { shownBalance } from "../answer/balance/shown-balance.js";
import { answerReport, type PlanBefore } from "../answer/report/answer-report.js";
import { answerShow } from "../answer/show/answer-show.js";
import { hasErrors, sortFindings } from "../findings/finding.js";
import { formatFindings } from "../findings/format-findings.js";
import { visibleText } from "../findings/visible-text.js";
import { eachTaskOnce } from "../plan/check/each-task-once.js";
import { reportPage } from "../report/html/report-page.js";
import { reportJson } from "../report/json/report-json.js";
import { reportMarkdown } from "../report/markdown/report-markdown.js";
import type { Reported } from "../report/report-sections.js";
import { reportSheet } from "../report/sheet/report-sheet.js";
import { lineFileOf } from "./check-baseline.js";
import { compareAll } from "./compare.js";
import { type Context, type Register, UsageError } from "./context.js";
import {
  addOutputOptions,
  checkOutput,
  emit,
  formatOrElse,
  type OutputOptions,
  refuseSameFile,
  type TableOptions,
} from "./emit.js";
import { addFormatOptions, writtenTable } from "./emit-table.js";
import { EXIT_STATUS, type ExitStatus } from "./exit-status.js";
import { cycleOption, demandOption } from "./find-pace.js";
import { loadPacedLine, type PacedLine } from "./load-paced-line.js";
import { readNamed, readOrRefuse } from "./load-plan.js";
import { runWatched } from "./simulate.js";
import {
  addProofOptions,
  type ProofOptions,
  proofSearch,
  type SearchWatch,
  watchSearch,
} from "./watch-search.js";

const FORMATS = ["html", "markdown", "csv", "json"] as const;
type Format = (typeof FORMATS)[number];

interface ReportOptions extends OutputOptions, TableOptions, ProofOptions {
  readonly against?: string;
  readonly options?: true;
  readonly simulate?: true;
  readonly cycle?: string;
  readonly demand?: string;
  readonly format?: Format;
  readonly watch?: true;
}

export const registerReport: Register = (program, act) => {
  const command = addProofOptions(
    program
      .command("report")
      .description("a page for the lead: the answer, what to do, loads, order of work, figures, cautions")
      .argument("<line>", "line file; - for standard input")
      .argument("<plan>", "plan file")
      .option("--against <plan>", "what changed since this plan, and which tasks moved")
      .option("--options", "the options of the line side by side, as `compare` works them out")
      .option("--simulate", "the plan on simulated days, as `simulate` runs it by default"),
    "with --proof or --options: partial plans that each search may look at",
  )
    .addOption(cycleOption())
    .addOption(demandOption())
    .option("--watch", "with --out: write it again whenever one of the files changes, until Ctrl-C");
  addOutputOptions(addFormatOptions(command, FORMATS)).action(
    (path: string, plan: string, options: ReportOptions) =>
      act((context) => makeReport(context, path, plan, options)),
  );
};

async function makeReport(
  context: Context,
  path: string,
  planPath: string,
  options: ReportOptions,
): Promise<ExitStatus> {
  const format = formatOrElse<Format>(options, "html");
  const read = [path, planPath, ...(options.against === undefined ? [] : [options.against])];
  await checkOutput(context, path, options);
  for (const each of read.slice(1))
    if (options.out !== undefined) refuseSameFile(context, ["--out", options.out], ["the plan", each]);
  if (!options.watch) return writeOnce(context, path, planPath, format, options);
  if (options.out === undefined || options.out === "-")
    throw new UsageError("--watch writes a file again and again: give --out, such as --out report.html");
  if (read.includes("-")) throw new UsageError("--watch: standard input can be read once; name the files");
  // The first report replaces nothing unless forced; the later ones replace the first.
  const isChanged = context.watchFiles(read);
  let status = await writeOnce(context, path, planPath, format, options);
  while (await isChanged()) {
    status = await writeOnce(context, path, planPath, format, { ...options, force: true }).catch((error) => {
      // A file that cannot be read at this moment may be read at the next.
      if (!(error instanceof UsageError)) throw error;
      context.note(`error: ${error.message}\n`);
      return EXIT_STATUS.wrongInput;
    });
    const file = visibleText(options.out);
    context.note(
      status === EXIT_STATUS.wrongInput
        ? `${file} stays as it was; it is written again once that is mended\n`
        : `${file} is written again\n`,
    );
  }
  return status;
}

async function writeOnce(
  context: Context,
  path: string,
  planPath: string,
  format: Format,
  options: ReportOptions,
): Promise<ExitStatus> {
  const asked = { ...options, ...(format === "json" && { json: true as const }) };
  const paced = await loadPacedLine(context, "report", path, asked);
  if (paced === null) return EXIT_STATUS.wrongInput;
  const watch = watchSearch(context, options.seconds);
  const now = await reportOf(context, { path, planPath, ...paced }, asked, watch);
  watch.close();
  if (now === null) return EXIT_STATUS.wrongInput;
  await emit(context, await contentOf(now, format, options), options);
  if (context.interrupted()) return EXIT_STATUS.interrupted;
  return hasErrors(now.shown.findings) ? EXIT_STATUS.answerIsNo : EXIT_STATUS.fine;
}

interface Against extends PacedLine {
  readonly path: string;
  readonly planPath: string;
}

/** Everything of the plan, beside the one before where that is asked for; null where a file is refused, which is told. */
async function reportOf(
  context: Context,
  against: Against,
  options: ReportOptions,
  watch: SearchWatch,
): Promise<Reported | null> {
  const { path, planPath, loaded, found } = against;
  const search = proofSearch(options, watch);
  const stand = async (file: string, proved: typeof search) => {
    const shown = await readNamed(context, file);
    const reading = await readOrRefuse(context, "report", shown, found.line, options);
    if (reading === null) return null;
    const ofLine = { ...found, asRead: loaded.line, findings: loaded.findings };
    const standing = await answerShow(ofLine, reading, lineFileOf(context, file, path), proved);
    const { benches, plan } = reading;
    const whole = eachTaskOnce(found.line, benches.length > 0 ? { ...plan, benches } : plan);
    return { shown, standing, plan: whole, fingerprint: reading.madeFor?.fingerprint ?? null };
  };
  const now = await stand(planPath, search);
  if (now === null) return null;
  const compared =
    options.options && loaded.line.options.length > 0
      ? await compareAll(context, loaded, now.shown.text, { ...options, from: now.shown.path }, watch)
      : null;
  if (compared === null && options.options && loaded.line.options.length > 0) return null;
  const old = options.against === undefined ? null : await stand(options.against, null);
  if (old === null && options.against !== undefined) return null;
  const run = options.simulate
    ? await runWatched(found.line, found.pace, now.plan, watch, {}, context.beside ?? null)
    : null;
  if (run !== null && !("stations" in run)) {
    await loaded.refuse(sortFindings([...loaded.findings, ...run.faults]));
    return null;
  }
  if (!options.json) {
    const { findings } = now.standing.answer;
    loaded.tell(
      findings.filter(({ file }) => file === loaded.line.file),
      false,
    );
    const told = findings.filter(({ file, severity }) => file !== loaded.line.file && severity !== "note");
    const { path: name, text } = now.shown;
    context.note(formatFindings(told, new Map([[name, text]]), context.noteWidth));
  }
  const before: PlanBefore | null =
    old === null
      ? null
      : {
          file: old.shown.path,
          shown: shownBalance(old.standing.answer, old.standing.benches),
          plan: old.plan,
        };
  const { fingerprint } = now;
  const about = { file: now.shown.path, fingerprint, before, options: compared };
  return { ...answerReport(now.standing, now.plan, found.pace, about), simulation: run };
}

async function contentOf(
  answer: Reported,
  format: Format,
  options: ReportOptions,
): Promise<string | Uint8Array> {
  if (format === "json") return reportJson(answer);
  if (format === "csv") return writtenTable("report", reportSheet(answer), options);
  return format === "markdown" ? reportMarkdown(answer) : reportPage(answer);
}
