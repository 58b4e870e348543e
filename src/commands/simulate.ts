import { benchesToRun, lineBeside } from "../benches/bench-of-plan.js";
import { countOf, thousands } from "../findings/count-of.js";
import { type Finding, hasErrors, sortFindings } from "../findings/finding.js";
import type { Line } from "../line/line.js";
import type { Plan } from "../plan/plan.js";
import { verifyRules } from "../plan/verify-plan.js";
import { svgFile } from "../report/html/picture.js";
import { simulationPicture } from "../report/html/simulation-picture.js";
import { simulateJson } from "../report/json/simulate-json.js";
import { simulateText } from "../report/terminal/simulate-text.js";
import { lengthOf, MOST_VISITS, visitsIn } from "../simulate/choose-length.js";
import { faultsOfRun } from "../simulate/lay-out-run.js";
import type { RunsBeside } from "../simulate/run-again-and-again.js";
import { simulateLine } from "../simulate/simulate-line.js";
import type { SimulationAnswer, SimulationLength } from "../simulate/simulation-answer.js";
import { longestWork } from "../simulate/station-work.js";
import type { Micros } from "../time/duration.js";
import { readDuration } from "../time/duration.js";
import { type Pace, paceFromCycle } from "../time/pace.js";
import { add, floor, type Ratio, ratio, toNumber } from "../time/ratio.js";
import { accept, type Reading, refuse } from "../time/reading.js";
import { readShareOfSome } from "../time/share.js";
import { longTime } from "../time/show-values.js";
import { MICROS_IN } from "../time/units.js";
import { type Context, type Register, UsageError } from "./context.js";
import {
  addOutputOptions,
  checkOutput,
  type FormatOptions,
  formatOf,
  refuseSameFile,
  withFormat,
  withPicture,
} from "./emit.js";
import { addFormatOptions, emitResult } from "./emit-table.js";
import { EXIT_STATUS, type ExitStatus } from "./exit-status.js";
import { cycleOption, demandOption, findPace, setAside } from "./find-pace.js";
import { loadLine } from "./load-line.js";
import { loadPlan } from "./load-plan.js";
import { positiveWholeNumber, taking, wholeNumber } from "./option-values.js";
import { type SearchWatch, watchSearch } from "./watch-search.js";

const FORMATS = ["text", "svg", "csv", "json"] as const;

/** How a run is made; each left out is as the command says. */
interface RunOptions {
  readonly seed?: number;
  readonly hours?: Micros;
  readonly warmUp?: Micros;
  readonly replications?: number;
  readonly confidence?: Ratio;
  readonly whatHelps?: boolean;
}

interface SimulateOptions extends FormatOptions<(typeof FORMATS)[number]>, RunOptions {
  readonly cycle?: string;
  readonly demand?: string;
}

const MOST_SEED = 2 ** 31 - 1;
const MOST_REPLICATIONS = 100_000;
const USUAL_CONFIDENCE = ratio(95, 100);

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
      "hours before that, which do not count (default: 100 units)",
      taking(readHoursFromZero),
    )
    .option(
      "--replications <count>",
      "how often it is run, each time with other random numbers (default: 20, or 1 where nothing varies)",
      positiveWholeNumber,
    )
    .option("--confidence <share>", "how sure the intervals are (default: 95 %)", taking(readShareOfSome))
    .option(
      "--what-helps",
      "run it again with more room, a workplace more and other loads, and rank what that brings",
    )
    .addOption(cycleOption())
    .addOption(demandOption());
  addFormatOptions(addOutputOptions(command), FORMATS).action(
    (path: string, plan: string, options: SimulateOptions) =>
      act((context) => simulatePlan(context, path, plan, withFormat(withPicture(options)))),
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
  if (options.whatHelps && format !== "text" && format !== "json")
    throw new UsageError(
      "--what-helps: a table of stations and a picture do not hold its answer; write text or --json",
    );
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
  const answer = await runPlan(found.line, pace, plan, watch, options, context.beside ?? null);
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
  const broken = verifyRules(found.line, pace ?? A_PACE, plan);
  const findings = [
    ...loaded.findings,
    ...broken.map((each) => ({ ...each, file: null, place: null })),
    ...answer.findings,
  ];
  if (!options.json) loaded.tell([...loaded.findings, ...broken], false);
  const told = { ...answer, findings };
  const json = () => simulateJson(told);
  const [text, svg] = [() => simulateText(told, context), () => svgFile(simulationPicture(told))];
  await emitResult(context, { json, text, svg, list: ["stations"] }, options);
  if (context.interrupted()) return EXIT_STATUS.interrupted;
  return hasErrors(findings) ? EXIT_STATUS.answerIsNo : EXIT_STATUS.fine;
}

/** A plan on simulated days, or what keeps it from being simulated; null where Ctrl-C left nothing. Throws a UsageError for what takes too long. */
export async function runPlan(
  whole: Line,
  pace: Pace | null,
  plan: Plan,
  watch: SearchWatch,
  options: RunOptions,
  beside: RunsBeside | null,
): Promise<SimulationAnswer | { readonly faults: readonly Finding[] } | null> {
  const line = lineBeside(whole, plan);
  const lineCycle = pace === null ? null : Number(floor(add(pace.lineCycle, ratio(1, 2))));
  const faults = faultsOfRun(line, plan, lineCycle);
  if (faults.length > 0) return { faults };
  const length = lengthOf(line, plan, options);
  refuseTooLong(length, visitsIn({ line, plan, lineCycle, ...length }));
  const slowest = () => paceFromCycle(Math.max(1, Math.round(toNumber(longestWork(line, plan)))));
  const benches = benchesToRun(whole, pace ?? slowest(), plan);
  return simulateLine(line, plan, {
    benches: benches.length === 0 ? null : { whole, benches },
    ...length,
    confidence: options.confidence ?? USUAL_CONFIDENCE,
    lineCycle,
    asksWhatHelps: options.whatHelps === true,
    beside,
    goesOn: (replication, rerun) =>
      watch.step(
        `${rerun === 0 ? "" : `what would help, rerun ${rerun}: `}replication ${replication} of ${length.replications}`,
      ),
  });
}

/** @param visits of units at stations in one replication */
function refuseTooLong({ replications, hours, warmUp }: SimulationLength, visits: number): void {
  if (replications * visits <= MOST_VISITS) return;
  const fewer = Math.floor(MOST_VISITS / visits);
  const one = visits / (hours + warmUp);
  const shorter = Math.floor(MOST_VISITS / replications / one / MICROS_IN.h - warmUp / MICROS_IN.h);
  const ways = [
    ...(shorter > 0 ? [`--hours ${shorter}`] : []),
    ...(fewer > 0 && replications > 1 ? [`--replications ${fewer}`] : []),
  ];
  const instead = ways.length === 0 ? "a shorter --warm-up" : `${ways.join(" or ")} at most`;
  throw new UsageError(
    `--hours, --replications: ${countOf(replications, "replication")} of ${longTime(hours + warmUp)} with the warm-up ${replications === 1 ? "is" : "are"} about ${thousands(replications * visits)} visits of units at stations; ${thousands(MOST_VISITS)} are the most. Give ${instead}`,
  );
}

/** Rules of the line are looked at where nothing gives a pace, too; loads are none of them. */
const A_PACE = paceFromCycle(MICROS_IN.h);

/** The pace, or none where nothing gives it. */
function paceOf(line: Line, options: SimulateOptions) {
  const isGiven = line.demand !== null || options.demand !== undefined || options.cycle !== undefined;
  if (isGiven) return findPace(line, options);
  return { ok: true as const, line, pace: null as Pace | null };
}
