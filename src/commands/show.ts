import type { ReadPlan } from "../answer/balance/check-against-line.js";
import { shownBalance } from "../answer/balance/shown-balance.js";
import { answerShow } from "../answer/show/answer-show.js";
import { stationChart } from "../answer/show/station-chart.js";
import { type Finding, hasErrors } from "../findings/finding.js";
import { formatFindings } from "../findings/format-findings.js";
import { chartJson } from "../report/json/chart-json.js";
import { showJson } from "../report/json/show-json.js";
import { balanceText } from "../report/terminal/balance-text.js";
import { chartText } from "../report/terminal/chart-text.js";
import { lineFileOf } from "./check-baseline.js";
import { type Context, type Register, UsageError } from "./context.js";
import {
  addOutputOptions,
  checkOutput,
  type FormatOptions,
  refuseSameFile,
  refuseTogether,
  withFormat,
} from "./emit.js";
import { addFormatOptions, emitResult } from "./emit-table.js";
import { EXIT_STATUS, type ExitStatus } from "./exit-status.js";
import { cycleOption, demandOption, findPace, setAside } from "./find-pace.js";
import { type LoadedLine, loadLine } from "./load-line.js";
import { planOfText, readOrRefuse } from "./load-plan.js";
import { modelNamed, stationNamed } from "./named-by-option.js";
import { positiveSeconds, positiveWholeNumber } from "./option-values.js";
import { doublingsOf, nodeLimit, type SearchOptions, watchSearch } from "./watch-search.js";

interface ShowOptions extends FormatOptions, SearchOptions {
  readonly station?: string;
  readonly proof?: true;
  readonly model?: string;
  readonly cycle?: string;
  readonly demand?: string;
}

export const registerShow: Register = (program, act) => {
  const command = program
    .command("show")
    .description(
      "a plan that stands, with everything that balance says of one; or one unit at a station of it, over time",
    )
    .argument("<line>", "line file; - for standard input")
    .argument("<plan>", "plan file")
    .option("--station <id>", "one unit at this station, or at a bench of the plan, over time")
    .option("--model <id>", "with --station: a unit of this model (default: the kind that most units are of)")
    .option("--proof", "search for a better plan, and say what is proved of the least")
    .option("--nodes <count>", "with --proof: partial plans that the search may look at", positiveWholeNumber)
    .option(
      "--seconds <time>",
      "with --proof: stop the search after this time; not reproducible",
      positiveSeconds,
    )
    .addOption(cycleOption())
    .addOption(demandOption());
  addFormatOptions(addOutputOptions(command)).action((path: string, plan: string, options: ShowOptions) =>
    act((context) => showPlan(context, path, plan, withFormat(options))),
  );
};

async function showPlan(
  context: Context,
  path: string,
  planPath: string,
  options: ShowOptions,
): Promise<ExitStatus> {
  const { station, proof } = options;
  refuseTogether(["--station", station], ["--proof", proof]);
  if (station === undefined && options.model !== undefined)
    throw new UsageError("--model says which unit --station shows; give --station as well");
  await checkOutput(context, path, options);
  if (options.out !== undefined) refuseSameFile(context, ["--out", options.out], ["the plan", planPath]);
  const loaded = await loadLine(context, "show", path, options);
  if (loaded === null) return EXIT_STATUS.wrongInput;
  const found = findPace(loaded.line, options);
  if (!found.ok) {
    await loaded.refuse([...loaded.findings, found.fault]);
    return EXIT_STATUS.wrongInput;
  }
  const { line, pace } = found;
  const text = await context.readText(planPath);
  const file = { path: planPath === "-" ? "standard input" : planPath, text };
  if (options.cycle !== undefined) context.note(setAside(loaded.line));
  if (station === undefined) {
    const reading = await readOrRefuse(context, "show", file, line, options);
    if (reading === null) return EXIT_STATUS.wrongInput;
    const against = { ...found, asRead: loaded.line, findings: loaded.findings };
    return showWhole(context, against, reading, {
      ...options,
      ...file,
      tell: loaded.tell,
      lineFile: lineFileOf(context, planPath, path),
    });
  }
  const plan = await planOfText(context, "show", file, line, options);
  if (plan === null) return EXIT_STATUS.wrongInput;
  const chart = stationChart(line, pace, plan, stationNamed(plan, station), modelNamed(line, options.model));
  const reports = { json: () => chartJson(chart, "show"), text: () => chartText(chart, context) };
  await emitResult(context, { ...reports, list: ["tasks"] }, options);
  return EXIT_STATUS.fine;
}

/** The whole plan; status 1 where `check` finds errors in it. */
async function showWhole(
  context: Context,
  against: Parameters<typeof answerShow>[0],
  reading: ReadPlan,
  options: ShowOptions & {
    readonly path: string;
    readonly text: string;
    readonly lineFile: string | null;
    readonly tell: LoadedLine["tell"];
  },
): Promise<ExitStatus> {
  const watch = watchSearch(context, options.seconds);
  const search = options.proof
    ? { nodes: nodeLimit(options), doublings: doublingsOf(options), checkpoint: watch.checkpoint }
    : null;
  const { answer, benches } = await answerShow(against, reading, options.lineFile, search);
  watch.close();
  const shown = shownBalance(answer);
  if (!options.json) {
    const isOfLine = ({ file }: Finding) => file === against.line.file;
    options.tell(answer.findings.filter(isOfLine), false);
    const told = answer.findings.filter((each) => !isOfLine(each) && each.severity !== "note");
    context.note(formatFindings(told, new Map([[options.path, options.text]]), context.noteWidth));
  }
  const reports = {
    json: () => showJson(shown, benches),
    text: () => balanceText(shown, true, context, benches),
  };
  await emitResult(context, { ...reports, list: ["stations"] }, options);
  if (context.interrupted()) return EXIT_STATUS.interrupted;
  return hasErrors(answer.findings) ? EXIT_STATUS.answerIsNo : EXIT_STATUS.fine;
}
