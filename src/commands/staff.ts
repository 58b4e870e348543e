import { costOfPlan } from "../answer/compare/figures.js";
import { noPace } from "../answer/set-pace.js";
import { LEAST_NODES } from "../answer/staff/staff-curve.js";
import { staffLine } from "../answer/staff/staff-line.js";
import type { Line } from "../line/line.js";
import { svgFile } from "../report/html/picture.js";
import { staffPicture } from "../report/html/staff-picture.js";
import { staffJson } from "../report/json/staff-json.js";
import { staffText } from "../report/terminal/staff-text.js";
import { DEFAULT_NODES, DOUBLINGS } from "../solve/methods.js";
import { availableTimeOf } from "../time/calendar.js";
import { type DemandRange, readDemandRange } from "../time/demand-range.js";
import { type Context, type Register, UsageError } from "./context.js";
import { addOutputOptions, checkOutput, type FormatOptions, withFormat } from "./emit.js";
import { addFormatOptions, emitResult } from "./emit-table.js";
import { EXIT_STATUS, type ExitStatus } from "./exit-status.js";
import { loadLine } from "./load-line.js";
import { besideBenches, loadPlan } from "./load-plan.js";
import { positiveWholeNumber } from "./option-values.js";
import { doublingsOf, watchSearch } from "./watch-search.js";

const FORMATS = ["text", "svg", "csv", "json"] as const;

interface StaffCommandOptions extends FormatOptions<(typeof FORMATS)[number]> {
  readonly demand: string;
  readonly from?: string;
  readonly nodes?: number;
  readonly strictLimit?: true;
}

export const registerStaff: Register = (program, act) => {
  const command = program
    .command("staff")
    .description("people, stations and figures as demand moves, and the demands at which people change")
    .argument("<line>", "line file; - for standard input")
    .requiredOption(
      "--demand <range>",
      'good units as FROM..TO/STEP, in the period of the file or with its own, such as "120..240/20 per day"',
    )
    .option("--from <plan>", "today's plan, to show the moves to each demand and the hours of its crew")
    .option(
      "--nodes <count>",
      `how long to search for each row, in partial plans; changes between rows share as many, at least ${LEAST_NODES} each (default: ${DEFAULT_NODES}, doubled up to ${DOUBLINGS} times until a plan is found)`,
      positiveWholeNumber,
    )
    .option("--strict-limit", "refuse a task over the station limit, also where it is alone at a station");
  addFormatOptions(addOutputOptions(command), FORMATS).action((path: string, options: StaffCommandOptions) =>
    act((context) => showStaff(context, path, withFormat(options))),
  );
};

async function showStaff(context: Context, path: string, options: StaffCommandOptions): Promise<ExitStatus> {
  await checkOutput(context, path, options);
  const loaded = await loadLine(context, "staff", path, options);
  if (loaded === null) return EXIT_STATUS.wrongInput;
  const { line } = loaded;
  const range = readRange(line, options.demand);
  const time = availableTimeOf(line.calendar, range.period);
  if (!time.ok) {
    const { fault } = noPace(line, time.problem);
    await loaded.refuse([...loaded.findings, fault]);
    return EXIT_STATUS.wrongInput;
  }
  const today =
    options.from === undefined ? null : await loadPlan(context, "staff", options.from, line, options);
  if (options.from !== undefined && today === null) return EXIT_STATUS.wrongInput;
  const part =
    today === null ? { line, plan: null } : besideBenches(context, line, today, "in the roster alone");
  const watch = watchSearch(context, undefined);
  const answer = await staffLine(part.line, range, {
    nodes: options.nodes ?? DEFAULT_NODES,
    doublings: doublingsOf(options),
    strictLimit: options.strictLimit === true,
    checkpoint: watch.checkpoint,
    today: part.plan,
    beside: today === null ? null : { line, plan: today },
    costOf: costOfPlan,
  });
  watch.close();
  const findings = [...loaded.findings, ...answer.findings];
  if (!options.json) loaded.tell(findings, false);
  const json = () => staffJson({ ...answer, findings });
  const [text, svg] = [() => staffText(answer, context), () => svgFile(staffPicture(answer))];
  await emitResult(context, { json, text, svg, list: ["rows"] }, options);
  if (context.interrupted()) return EXIT_STATUS.interrupted;
  return answer.rows.some(({ plan }) => plan !== null) ? EXIT_STATUS.fine : EXIT_STATUS.answerIsNo;
}

function readRange(line: Line, text: string): DemandRange {
  const range = readDemandRange(text, line.demand?.period ?? null);
  if (!range.ok) throw new UsageError(`--demand: ${range.problem}`);
  return range.value;
}
