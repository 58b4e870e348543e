import { InvalidArgumentError } from "commander";
import type { RampAnswer } from "../answer/ramp/ramp-answer.js";
import { rampLine } from "../answer/ramp/ramp-line.js";
import { hasErrors } from "../findings/finding.js";
import { nearestWords } from "../findings/nearest.js";
import { MOST_UNITS } from "../line/learning-curve.js";
import { rampCsv } from "../report/csv/ramp-csv.js";
import { rampJson } from "../report/json/ramp-json.js";
import { rampText } from "../report/terminal/ramp-text.js";
import { type Context, type Register, UsageError } from "./context.js";
import { addOutputOptions, checkOutput, emit, type OutputOptions, refuseSameFile } from "./emit.js";
import { EXIT_STATUS, type ExitStatus } from "./exit-status.js";
import { findPace, setAside } from "./find-pace.js";
import { loadLine } from "./load-line.js";
import { loadPlan } from "./load-plan.js";
import { positiveWholeNumber } from "./option-values.js";
import { watchSearch } from "./watch-search.js";

const FORMATS = ["text", "json", "csv"] as const;
type Format = (typeof FORMATS)[number];

interface RampOptions extends OutputOptions {
  readonly units: number;
  readonly each?: true;
  readonly cycle?: string;
  readonly demand?: string;
  readonly format?: Format;
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
    .option(
      "--cycle <time>",
      "a line cycle of your own, which is the station limit too, in place of the file's pace",
    )
    .option("--demand <text>", 'good units wanted instead of the file\'s, such as "176 per day"');
  addOutputOptions(command)
    .option("--format <name>", `one of ${FORMATS.join(", ")} (default: text)`, formatName)
    .action((path: string, plan: string, options: RampOptions) =>
      act((context) => showRamp(context, path, plan, oneFormat(options))),
    );
};

function formatName(text: string): Format {
  const format = FORMATS.find((each) => each === text);
  if (format !== undefined) return format;
  throw new InvalidArgumentError(`One of ${FORMATS.join(", ")} is expected${nearestWords(text, FORMATS)}.`);
}

/** `--json` is short for `--format json`. */
function oneFormat(options: RampOptions): RampOptions {
  if (options.json && options.format !== undefined && options.format !== "json")
    throw new UsageError(`--json and --format ${options.format} exclude each other; give one of them`);
  return options.format === "json" ? { ...options, json: true } : options;
}

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
  const loaded = await loadLine(context, "ramp", path, options);
  if (loaded === null) return EXIT_STATUS.wrongInput;
  const found = findPace(loaded.line, options);
  if (!found.ok) {
    await loaded.refuse([...loaded.findings, found.fault]);
    return EXIT_STATUS.wrongInput;
  }
  const { line, pace, takt } = found;
  if (options.cycle !== undefined) context.note(setAside(loaded.line));
  const plan = await loadPlan(context, "ramp", planPath, line, options);
  if (plan === null) return EXIT_STATUS.wrongInput;
  const watch = watchSearch(context, undefined);
  const goesOn = (unit: number) => watch.step(`unit ${unit} of ${units}`);
  const answer = await rampLine(line, pace, takt, plan, { units, each, goesOn });
  watch.close();
  const findings = [...loaded.findings, ...answer.findings];
  if (!options.json) loaded.tell(findings, false);
  await emit(context, textOf({ ...answer, findings }, context, options), options);
  if (context.interrupted()) return EXIT_STATUS.interrupted;
  return answer.paceFrom === null || hasErrors(answer.findings) ? EXIT_STATUS.answerIsNo : EXIT_STATUS.fine;
}

function textOf(answer: RampAnswer, context: Context, { json, format, each }: RampOptions): string {
  if (json) return rampJson(answer);
  return format === "csv" ? rampCsv(answer) : rampText(answer, each === true, context);
}
