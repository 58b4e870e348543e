import type { RampAnswer } from "../answer/ramp/ramp-answer.js";
import { rampLine } from "../answer/ramp/ramp-line.js";
import { hasErrors } from "../findings/finding.js";
import { MOST_UNITS } from "../line/learning-curve.js";
import { rampJson } from "../report/json/ramp-json.js";
import { rampSheet } from "../report/sheet/ramp-sheet.js";
import { rampText } from "../report/terminal/ramp-text.js";
import { type Context, type Register, UsageError } from "./context.js";
import {
  addOutputOptions,
  checkOutput,
  emit,
  type FormatOptions,
  formatOf,
  refuseSameFile,
  withFormat,
} from "./emit.js";
import { addFormatOptions, writtenTable } from "./emit-table.js";
import { EXIT_STATUS, type ExitStatus } from "./exit-status.js";
import { cycleOption, demandOption } from "./find-pace.js";
import { loadPacedLine } from "./load-paced-line.js";
import { loadPlan } from "./load-plan.js";
import { positiveWholeNumber } from "./option-values.js";
import { watchSearch } from "./watch-search.js";

interface RampOptions extends FormatOptions {
  readonly units: number;
  readonly each?: true;
  readonly cycle?: string;
  readonly demand?: string;
}

export const registerRamp: Register = (program, act) => {
  const command = program
    .command("ramp")
    .description("how a plan gets up to pace while its people learn: stations by unit, output by day")
    .argument("<line>", "line file that says how tasks are learned; - for standard input")
    .argument("<plan>", "plan file")
    .requiredOption(
      "--units <count>",
      "good units of the batch, counted after those that are built already",
      positiveWholeNumber,
    )
    .option("--each", "show each unit and each day, not some of them")
    .addOption(cycleOption())
    .addOption(demandOption());
  addFormatOptions(addOutputOptions(command)).action((path: string, plan: string, options: RampOptions) =>
    act((context) => showRamp(context, path, plan, withFormat(options))),
  );
};

async function showRamp(
  context: Context,
  path: string,
  planPath: string,
  options: RampOptions,
): Promise<ExitStatus> {
  const { units } = options;
  const each = options.each === true;
  if (units > MOST_UNITS) throw new UsageError(`--units ${units}: at most ${MOST_UNITS} are taken`);
  await checkOutput(context, path, options);
  if (options.out !== undefined) refuseSameFile(context, ["--out", options.out], ["the plan", planPath]);
  const paced = await loadPacedLine(context, "ramp", path, options);
  if (paced === null) return EXIT_STATUS.wrongInput;
  const { loaded, found } = paced;
  const { line, pace, takt } = found;
  const plan = await loadPlan(context, "ramp", planPath, line, options);
  if (plan === null) return EXIT_STATUS.wrongInput;
  const watch = watchSearch(context, undefined);
  const goesOn = (unit: number) => watch.step(`unit ${unit} of ${units}`);
  const answer = await rampLine(line, pace, takt, plan, { units, each, goesOn });
  watch.close();
  const findings = [...loaded.findings, ...answer.findings];
  if (!options.json) loaded.tell(findings, false);
  await emit(context, await contentOf({ ...answer, findings }, context, options), options);
  if (context.interrupted()) return EXIT_STATUS.interrupted;
  return answer.paceFrom === null || hasErrors(answer.findings) ? EXIT_STATUS.answerIsNo : EXIT_STATUS.fine;
}

async function contentOf(
  answer: RampAnswer,
  context: Context,
  options: RampOptions,
): Promise<string | Uint8Array> {
  const format = formatOf(options);
  if (format === "csv") return writtenTable("ramp", rampSheet(answer), options);
  return format === "json" ? rampJson(answer) : rampText(answer, options.each === true, context);
}
