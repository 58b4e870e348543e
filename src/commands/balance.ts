import { InvalidArgumentError } from "commander";
import { answerBalance } from "../answer/balance/answer-balance.js";
import { answerStations } from "../answer/balance/answer-stations.js";
import type { BalanceAnswer } from "../answer/balance/balance-answer.js";
import { explainBalance } from "../answer/balance/explanation.js";
import { shownBalance } from "../answer/balance/shown-balance.js";
import { type Finding, hasErrors, tells } from "../findings/finding.js";
import { nearestNames } from "../findings/nearest.js";
import type { Line } from "../line/line.js";
import { asksToKeepPace } from "../line/parts/keep-pace.js";
import type { Plan } from "../plan/plan.js";
import { balanceJson } from "../report/json/balance-json.js";
import { balanceText } from "../report/terminal/balance-text.js";
import { explainText } from "../report/terminal/explain-text.js";
import { DEFAULT_METHOD, DEFAULT_NODES, DOUBLINGS, METHODS } from "../solve/methods.js";
import type { Watch } from "../solve/watch-times.js";
import type { Pace } from "../time/pace.js";
import type { TaktSum } from "../time/takt.js";
import { type Context, type Register, UsageError } from "./context.js";
import { addOutputOptions, refuseTogether, withFormat } from "./emit.js";
import { addFormatOptions, emitResult } from "./emit-table.js";
import { EXIT_STATUS, type ExitStatus } from "./exit-status.js";
import { cycleOption, demandOption, findPace, setAside } from "./find-pace.js";
import { loadLine } from "./load-line.js";
import { loadPlan } from "./load-plan.js";
import { positiveSeconds, positiveWholeNumber } from "./option-values.js";
import { openTargets, refuseBothToStdout, savePlan, type WriteOptions } from "./save-plan.js";
import { doublingsOf, nodeLimit, type SearchOptions, watchSearch } from "./watch-search.js";

interface BalanceCommandOptions extends WriteOptions, SearchOptions {
  readonly cycle?: string;
  readonly demand?: string;
  readonly method: string;
  readonly explain?: true;
  readonly proof?: true;
  readonly strictLimit?: true;
  readonly stations?: number;
  readonly from?: string;
  readonly level: boolean;
}

export const registerBalance: Register = (program, act) => {
  const command = program
    .command("balance")
    .description("stations, loads, idle time, efficiency, the proof, and what is worth taking off the line")
    .argument("<line>", "line file; - for standard input")
    .addOption(cycleOption())
    .addOption(demandOption())
    .option("--method <name>", `one of ${METHODS.join(", ")}`, methodName, DEFAULT_METHOD)
    .option("--from <plan>", "start from this plan; tasks that it leaves out get a station")
    .option(
      "--nodes <count>",
      `how long to search, in partial plans (default: ${DEFAULT_NODES}, doubled up to ${DOUBLINGS} times until a plan is found; no limit with --seconds)`,
      positiveWholeNumber,
    )
    .option(
      "--seconds <time>",
      "stop the search after this time; the answer may differ from run to run",
      positiveSeconds,
    )
    .option(
      "--stations <count>",
      "find the shortest cycle for this number of stations, with one workplace each",
      positiveWholeNumber,
    )
    .option("--no-level", "do not even out the loads of the stations")
    .option(
      "--proof",
      "also show every figure, names of tasks, the sums of the pace, what stations need, proofs and methods",
    )
    .option("--explain", "show the rankings and every assignment, to check by hand")
    .option("--strict-limit", "refuse a task over the station limit, also where it is alone at a station")
    .option("--write <plan>", "write the plan to a file");
  addFormatOptions(addOutputOptions(command)).action((path: string, options: BalanceCommandOptions) =>
    act((context) => showBalance(context, path, withFormat(options))),
  );
};

function methodName(text: string): string {
  if (METHODS.includes(text)) return text;
  const near = nearestNames(text, METHODS);
  const begun = METHODS.filter((name) => nearestNames(text, [name.split("-")[0]!]).length > 0);
  const nearest = [...new Set([...near, ...begun])];
  const hint = nearest.length > 0 ? `; nearest: ${nearest.join(", ")}` : "";
  throw new InvalidArgumentError(`One of ${METHODS.join(", ")} is expected${hint}.`);
}

/** A fixed number of stations is a question of its own: what sets a pace, a rule or a limit does not go with it. */
function refuseWithStations(options: BalanceCommandOptions): void {
  const { stations, cycle, strictLimit, explain, level, method, from } = options;
  refuseTogether(["--stations", stations], ["--cycle", cycle]);
  refuseTogether(["--stations", stations], ["--strict-limit", strictLimit]);
  refuseTogether(["--stations", stations], ["--explain", explain]);
  refuseTogether(["--stations", stations], ["--from", from]);
  refuseTogether(["--stations", stations], ["--no-level", level ? undefined : true]);
  const rule = method === "exact" || method === DEFAULT_METHOD ? undefined : method;
  refuseTogether(["--stations", stations], [`--method ${method}`, rule]);
}

function checkStations(stations: number, line: Line): void {
  const most = line.tasks.length;
  if (asksToKeepPace(line))
    throw new UsageError(
      `--stations ${stations}: ${line.file} has \`keep-pace\`, and a fixed number of stations sets its own pace, which nothing is held to; leave one of them out`,
    );
  if (stations <= most) return;
  throw new UsageError(
    `--stations ${stations}: the line has ${most} tasks; a number from 1 to ${most} is expected`,
  );
}

interface Question {
  readonly line: Line;
  /** Null where the plan sets its own. */
  readonly pace: Pace | null;
  readonly takt: TaktSum | null;
  readonly findings: readonly Finding[];
}

/** What is to be solved, or the fault of the file; with a fixed number of stations a demand is only compared. */
function question(line: Line, options: BalanceCommandOptions): Question | { readonly fault: Finding } {
  const free = options.stations !== undefined;
  if (free && options.demand === undefined && line.demand === null) {
    return { line, pace: null, takt: null, findings: [] };
  }
  const found = findPace(line, options);
  if (found.ok) return { ...found, findings: [] };
  if (!free) return { fault: found.fault };
  return { line, pace: null, takt: null, findings: [{ ...found.fault, severity: "warning" }] };
}

function solve(
  { line, pace, takt }: Question,
  options: BalanceCommandOptions,
  from: Plan | null,
  checkpoint: Watch,
): Promise<BalanceAnswer> {
  const nodes = nodeLimit(options);
  if (options.stations !== undefined)
    return answerStations(line, options.stations, takt, { nodes, checkpoint });
  if (pace === null) throw new Error("a balance without a pace");
  return answerBalance(line, pace, takt, {
    method: options.method,
    nodes,
    level: options.level,
    strictLimit: options.strictLimit === true,
    explain: options.explain === true,
    doublings: doublingsOf(options),
    from,
    checkpoint,
  });
}

async function showBalance(
  context: Context,
  path: string,
  options: BalanceCommandOptions,
): Promise<ExitStatus> {
  refuseWithStations(options);
  refuseBothToStdout(options);
  const loaded = await loadLine(context, "balance", path, options);
  if (loaded === null) return EXIT_STATUS.wrongInput;
  if (options.stations !== undefined) checkStations(options.stations, loaded.line);
  const found = question(loaded.line, options);
  if ("fault" in found) {
    await loaded.refuse([...loaded.findings, found.fault]);
    return EXIT_STATUS.wrongInput;
  }
  const from =
    options.from === undefined ? null : await loadPlan(context, "balance", options.from, found.line, options);
  if (options.from !== undefined && from === null) return EXIT_STATUS.wrongInput;
  if ((from?.benches ?? []).length > 0)
    context.note("the plan to start from has benches; what they build finds a station\n");
  const target = await openTargets(context, path, options);
  if (options.cycle !== undefined) context.note(setAside(loaded.line));
  const watch = watchSearch(context, options.seconds);
  const answer = await solve(found, options, from, watch.checkpoint);
  watch.close();
  const whole = { ...answer, findings: [...loaded.findings, ...found.findings, ...answer.findings] };
  if (!options.json) loaded.tell(withoutReasons(whole), options.explain === true);
  // An agreed plan is never replaced by one that was cut short.
  if (target !== null && !context.interrupted()) {
    // What a fixed pace sets aside is still part of the file that the plan was made from.
    await savePlan(context, target, { ...answer, line: loaded.line });
  }
  await emitResult(context, { ...reportsOf(whole, context, options), list: ["stations"] }, options);
  if (context.interrupted()) return EXIT_STATUS.interrupted;
  return answer.plan === null || hasErrors(answer.findings) ? EXIT_STATUS.answerIsNo : EXIT_STATUS.fine;
}

/** The findings without what the report says: reasons one by one, and where people could share the work of a unit. */
function withoutReasons({ findings, obstacles }: BalanceAnswer): Finding[] {
  const message = "no plan keeps the rules of the line; the report says why";
  const told = findings.filter((each) => !tells(each, "could-share"));
  return told.map((each) => (tells(each, "no-plan") && obstacles.length > 0 ? { ...each, message } : each));
}

function reportsOf(found: BalanceAnswer, context: Context, options: BalanceCommandOptions) {
  const answer = shownBalance(found);
  const explanation = options.explain === true ? explainBalance(answer) : null;
  return {
    json: () => balanceJson(answer, options.seconds ?? null, explanation),
    text: () => {
      const explained = explainText(answer, explanation, context);
      const isProved = options.proof === true || options.explain === true;
      return `${explained}${explained === "" ? "" : "\n"}${balanceText(answer, isProved, context)}`;
    },
  };
}
