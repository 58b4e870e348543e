import { isPaceGiven } from "../answer/set-pace.js";
import { benchesToRun, lineBeside } from "../benches/bench-of-plan.js";
import { thousands } from "../findings/count-of.js";
import { hasErrors, sortFindings } from "../findings/finding.js";
import type { Line } from "../line/line.js";
import type { Plan } from "../plan/plan.js";
import { svgFile } from "../report/html/picture.js";
import { simulationPicture } from "../report/html/simulation-picture.js";
import { simulateJson } from "../report/json/simulate-json.js";
import { simulateText } from "../report/terminal/simulate-text.js";
import { MOST_FOR_WIDTH } from "../simulate/choose-length.js";
import type { RunsBeside } from "../simulate/run-again-and-again.js";
import { brokenRules, MOST_REPLICATIONS, MOST_SEED, type RunOptions, runPlan } from "../simulate/run-plan.js";
import type { Micros } from "../time/duration.js";
import { readDuration } from "../time/duration.js";
import type { Pace } from "../time/pace.js";
import { accept, type Reading, refuse } from "../time/reading.js";
import { readShareOfSome } from "../time/share.js";
import { type Context, type Register, UsageError } from "./context.js";
import {
  addOutputOptions,
  checkOutput,
  type FormatOptions,
  formatOf,
  isWorkbook,
  refuseSameFile,
  withFormat,
} from "./emit.js";
import { addFormatOptions, emitResult, type TableOfResult } from "./emit-table.js";
import { EXIT_STATUS, type ExitStatus } from "./exit-status.js";
import { cycleOption, demandOption, findPace, setAside } from "./find-pace.js";
import { loadLine } from "./load-line.js";
import { loadPlan } from "./load-plan.js";
import { oneOf, positiveWholeNumber, taking, wholeNumber } from "./option-values.js";
import { type SearchWatch, watchSearch } from "./watch-search.js";

/** Tables of the answer, with where they stand in JSON. */
const TABLES: readonly TableOfResult[] = [
  ["stations", ["stations"]],
  ["summary", []],
  ["course", ["course"]],
  ["changes", ["whatHelps.changes"]],
  ["buffers", ["buffers"]],
  ["benches", ["benches"]],
  ["stock", ["benches", "course"]],
  ["parts", ["parts"]],
];

const FORMATS = ["text", "svg", "csv", "json"] as const;

interface SimulateOptions extends FormatOptions<(typeof FORMATS)[number]>, RunOptions {
  readonly cycle?: string;
  readonly demand?: string;
  readonly table?: string;
}

export const registerSimulate: Register = (program, act) => {
  const command = program
    .command("simulate")
    .description(
      "a plan on simulated days: what it makes where times vary and stations stop, and what limits it",
    )
    .argument("<line>", "line file that says how times vary; - for standard input")
    .argument("<plan>", "plan file")
    .option(
      "--seed <number>",
      "random numbers to begin with; the same seed gives the same answer (default: 1)",
      wholeNumber,
    )
    .option(
      "--hours <time>",
      "productive hours of each replication, such as 7.5 h (default: 1,000 units of the slowest station)",
      taking(readHoursAboveZero),
    )
    .option(
      "--warm-up <time>",
      "hours before that, which do not count (default: until trial runs have settled, by MSER-5)",
      taking(readHoursFromZero),
    )
    .option(
      "--replications <count>",
      "how often it is run, each time with other random numbers (default: 20, or 1 where nothing varies)",
      positiveWholeNumber,
    )
    .option(
      "--within <share>",
      `replications until the interval is so narrow, such as 1 % of the output; --replications are the most then (default of those: ${thousands(MOST_FOR_WIDTH)})`,
      taking(readShareOfSome),
    )
    .option("--confidence <share>", "how sure the intervals are (default: 95 %)", taking(readShareOfSome))
    .option(
      "--what-helps",
      "run it again with more room, a workplace more and other loads, and rank what that brings",
    )
    .addOption(cycleOption())
    .addOption(demandOption());
  addFormatOptions(addOutputOptions(command), FORMATS)
    .option(
      "--table <name>",
      `of CSV: one of ${TABLES.map(([name]) => name).join(", ")} (default: stations; a workbook has them all)`,
      oneOf(TABLES.map(([name]) => name)),
    )
    .action((path: string, plan: string, options: SimulateOptions) =>
      act((context) => simulatePlan(context, path, plan, withFormat(options))),
    );
};

/** A time; a bare number is in hours. */
const readHoursFromZero = (text: string): Reading<Micros> => readDuration(text, "h");

function readHoursAboveZero(text: string): Reading<Micros> {
  const read = readHoursFromZero(text);
  if (read.ok && read.value === 0) return refuse("a time above 0 is expected, such as 40 h");
  return read.ok ? accept(read.value) : read;
}

async function simulatePlan(
  context: Context,
  path: string,
  planPath: string,
  options: SimulateOptions,
): Promise<ExitStatus> {
  const { seed = 1, replications = 1 } = options;
  if (seed > MOST_SEED) throw new UsageError(`--seed ${seed}: at most ${MOST_SEED} is taken`);
  if (replications > MOST_REPLICATIONS)
    throw new UsageError(`--replications ${replications}: at most ${MOST_REPLICATIONS} are taken`);
  const format = formatOf(options);
  const { table = "stations" } = options;
  if (options.table !== undefined && format !== "csv")
    throw new UsageError("--table goes with --format csv and with workbooks");
  if (
    options.whatHelps &&
    (format === "svg" || (format === "csv" && table !== "changes" && !isWorkbook(options.out)))
  )
    throw new UsageError(
      "--what-helps: a table of stations and a picture do not hold its answer; add --table changes, or write text, --json or a workbook",
    );
  if (table === "changes" && !options.whatHelps)
    throw new UsageError("--table changes: these are what --what-helps runs; give it as well");
  await checkOutput(context, path, options);
  if (options.out !== undefined) refuseSameFile(context, ["--out", options.out], ["the plan", planPath]);
  const loaded = await loadLine(context, "simulate", path, options);
  if (loaded === null) return EXIT_STATUS.wrongInput;
  const found = paceOf(loaded.line, options);
  if (!found.ok) {
    await loaded.refuse([...loaded.findings, found.fault]);
    return EXIT_STATUS.wrongInput;
  }
  const { pace } = found;
  if (options.cycle !== undefined) context.note(setAside(loaded.line));
  const plan = await loadPlan(context, "simulate", planPath, found.line, options);
  if (plan === null) return EXIT_STATUS.wrongInput;
  const watch = watchSearch(context, undefined);
  const answer = await runWatched(found.line, pace, plan, watch, options, context.beside ?? null);
  watch.close();
  if (answer === null) {
    context.note(
      "Ended in the midst of the first replication: there is nothing to show. Fewer --hours end sooner.\n",
    );
    return EXIT_STATUS.interrupted;
  }
  if (!("stations" in answer)) {
    await loaded.refuse(sortFindings([...loaded.findings, ...answer.faults]));
    return EXIT_STATUS.wrongInput;
  }
  const broken = brokenRules(found.line, pace, plan);
  const findings = [...loaded.findings, ...broken, ...answer.findings];
  const beforehand = findings.filter((each) => !answer.leftOut.includes(each));
  if (!options.json) loaded.tell(beforehand, false);
  const told = { ...answer, findings };
  const json = () => simulateJson(told);
  const [text, svg] = [() => simulateText(told, context), () => svgFile(simulationPicture(told))];
  const isThere = (name: string) => {
    if (name === "changes") return options.whatHelps === true;
    if (name === "parts" || name === "buffers") return answer[name].length > 0;
    return (name !== "benches" && name !== "stock") || answer.benches.length > 0;
  };
  if (!isThere(table))
    throw new UsageError(
      `--table ${table}: no ${{ parts: "containers are", buffers: "room between stations is" }[table] ?? "bench is"} simulated`,
    );
  const beside = TABLES.filter(([name]) => name !== table && isThere(name));
  const list = TABLES.find(([name]) => name === table)![1];
  await emitResult(context, { json, text, svg, list, beside }, options);
  if (context.interrupted()) return EXIT_STATUS.interrupted;
  return hasErrors(findings) ? EXIT_STATUS.answerIsNo : EXIT_STATUS.fine;
}

/** A plan on simulated days, or what keeps it from being simulated; null where Ctrl-C left nothing. Throws a UsageError for what takes too long. */
export async function runWatched(
  whole: Line,
  pace: Pace | null,
  plan: Plan,
  watch: SearchWatch,
  options: RunOptions,
  beside: RunsBeside | null,
) {
  const toRun = {
    line: lineBeside(whole, plan),
    whole,
    plan,
    pace,
    benchesAt: (at: Pace) => benchesToRun(whole, at, plan),
  };
  const answer = await runPlan(toRun, options, beside, (replication, of, rerun) =>
    watch.step(
      rerun < 0
        ? `warm-up: trial run ${replication} of ${of}`
        : `${rerun === 0 ? "" : `what would help, rerun ${rerun}: `}replication ${replication} of ${of}`,
    ),
  );
  if (answer === null || !("tooLong" in answer)) return answer;
  const names = { hours: "--hours", replications: "--replications", warmUp: "--warm-up" };
  throw new UsageError(answer.tooLong(names));
}

/** The pace, or none where nothing gives it. */
function paceOf(line: Line, options: SimulateOptions) {
  if (isPaceGiven(line, options)) return findPace(line, options);
  return { ok: true as const, line, pace: null as Pace | null };
}
