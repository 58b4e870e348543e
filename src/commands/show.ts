import type { ReadPlan } from "../answer/balance/check-against-line.js";
import { shownBalance } from "../answer/balance/shown-balance.js";
import { answerShow } from "../answer/show/answer-show.js";
import { stationChart } from "../answer/show/station-chart.js";
import { type Finding, hasErrors } from "../findings/finding.js";
import { formatFindings } from "../findings/format-findings.js";
import { modelNamed, stationNamed } from "../plan/named.js";
import { showJson } from "../report/json/show-json.js";
import { chartJson } from "../report/json/station-chart-json.js";
import { balanceText } from "../report/terminal/balance-text.js";
import { chartText } from "../report/terminal/station-chart-text.js";
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
import { cycleOption, demandOption } from "./find-pace.js";
import type { LoadedLine } from "./load-line.js";
import { loadPacedLine } from "./load-paced-line.js";
import { planOfText, readNamed, readOrRefuse } from "./load-plan.js";
import { valueFor } from "./option-values.js";
import { addProofOptions, type ProofOptions, proofSearch, watchSearch } from "./watch-search.js";

interface ShowOptions extends FormatOptions, ProofOptions {
  readonly station?: string;
  readonly model?: string;
  readonly cycle?: string;
  readonly demand?: string;
}

export const registerShow: Register = (program, act) => {
  const command = addProofOptions(
    program
      .command("show")
      .description(
        "a plan that stands, with everything that balance says of one; or one unit at a station of it, over time",
      )
      .argument("<line>", "line file; - for standard input")
      .argument("<plan>", "plan file")
      .option("--station <id>", "one unit at this station, or at a bench of the plan, over time")
      .option(
        "--model <id>",
        "with --station: a unit of this model (default: the kind that most units are of)",
      ),
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
  const paced = await loadPacedLine(context, "show", path, options);
  if (paced === null) return EXIT_STATUS.wrongInput;
  const { loaded, found } = paced;
  const { line, pace } = found;
  const file = await readNamed(context, planPath);
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
  const model = options.model === undefined ? null : valueFor("--model", modelNamed(line, options.model));
  const chart = stationChart(line, pace, plan, valueFor("--station", stationNamed(plan, station)), model);
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
  const search = proofSearch(options, watch);
  const { answer, benches } = await answerShow(against, reading, options.lineFile, search);
  watch.close();
  const shown = shownBalance(answer, benches);
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
