import { type LostLearning, learningToLose } from "../answer/rebalance/lost-learning.js";
import { rebalanceLine } from "../answer/rebalance/rebalance-line.js";
import { lookBeside } from "../answer/rebalance/way-there.js";
import { hasErrors } from "../findings/finding.js";
import type { Line } from "../line/line.js";
import { tasksNamed } from "../plan/named.js";
import { rebalanceJson } from "../report/json/rebalance-json.js";
import { rebalanceText } from "../report/terminal/rebalance-text.js";
import { DEFAULT_NODES } from "../solve/methods.js";
import type { Context, Register } from "./context.js";
import { addOutputOptions, withFormat } from "./emit.js";
import { addFormatOptions, emitResult } from "./emit-table.js";
import { EXIT_STATUS, type ExitStatus } from "./exit-status.js";
import { findPace } from "./find-pace.js";
import { type LoadedLine, loadLine } from "./load-line.js";
import { besideBenches, loadPlan } from "./load-plan.js";
import { positiveSeconds, positiveWholeNumber, valueFor, wholeNumber } from "./option-values.js";
import { asksSeveral, rebalanceSeveral, withDemandInName } from "./rebalance-several.js";
import { openTargets, refuseBothToStdout, savePlan, type WriteOptions } from "./save-plan.js";
import { nodeLimit, type SearchOptions, watchSearch } from "./watch-search.js";

interface RebalanceCommandOptions extends WriteOptions, SearchOptions {
  readonly from: string;
  readonly cycle?: string;
  readonly demand?: string;
  readonly maxMoves?: number;
  readonly maxMoveCost?: number;
  readonly learning?: true;
  readonly keep?: string;
  readonly steps?: number;
  readonly strictLimit?: true;
  readonly peopleAbove?: number;
}

export const registerRebalance: Register = (program, act) => {
  const command = program
    .command("rebalance")
    .description(
      "the fewest moves from today's plan to a new pace, and how many people each number of moves needs",
    )
    .argument("<line>", "line file; - for standard input")
    .requiredOption("--from <plan>", "today's plan")
    .option(
      "--cycle <time>",
      "a line cycle of your own, which is the station limit too, in place of the file's pace",
    )
    .option(
      "--demand <text>",
      'good units wanted instead of the file\'s, such as "176 per day"; several, such as "140, 165, 190 per day", for a plan each with few moves between them',
    )
    .option(
      "--people-above <count>",
      "with several demands: how many people more a plan may have to save moves",
      wholeNumber,
    )
    .option("--max-moves <count>", "the fewest people with this many moves or fewer", wholeNumber)
    .option(
      "--max-move-cost <points>",
      "the same in points: a move costs 1, or the move-cost of its task or skill; minutes with --learning",
      wholeNumber,
    )
    .option(
      "--learning",
      "a move costs the minutes of work lost as the task is learned anew, by `learning` of the line file",
    )
    .option("--keep <tasks>", "tasks that stay at their stations, with commas between them")
    .option("--steps <days>", "spread the steps of the change over this many days", positiveWholeNumber)
    .option(
      "--nodes <count>",
      `how long each search may take, in partial plans (default: ${DEFAULT_NODES}; no limit with --seconds)`,
      positiveWholeNumber,
    )
    .option(
      "--seconds <time>",
      "stop the searches after this time; the answer may differ from run to run",
      positiveSeconds,
    )
    .option("--strict-limit", "refuse a task over the station limit, also where it is alone at a station")
    .option("--write <plan>", "write the new plan to a file");
  addFormatOptions(addOutputOptions(command)).action((path: string, options: RebalanceCommandOptions) =>
    act((context) => showRebalance(context, path, withFormat(options))),
  );
};

async function showRebalance(
  context: Context,
  path: string,
  options: RebalanceCommandOptions,
): Promise<ExitStatus> {
  refuseBothToStdout(options);
  const isSeveral = asksSeveral(options, [
    ["--max-moves", options.maxMoves],
    ["--max-move-cost", options.maxMoveCost],
    ["--learning", options.learning],
    ["--keep", options.keep],
    ["--steps", options.steps],
  ]);
  const loaded = await loadLine(context, "rebalance", path, options);
  if (loaded === null) return EXIT_STATUS.wrongInput;
  if (isSeveral) return rebalanceSeveral(context, path, options, loaded);
  const found = findPace(loaded.line, options);
  if (!found.ok) {
    await loaded.refuse([...loaded.findings, found.fault]);
    return EXIT_STATUS.wrongInput;
  }
  const from = await loadPlan(context, "rebalance", options.from, found.line, options);
  if (from === null) return EXIT_STATUS.wrongInput;
  const part = besideBenches(context, found.line, from);
  const keep = tasksToKeep(part.line, options.keep);
  const learning = options.learning === true ? { learning: lossesOf(context, part.line) } : {};
  const target = await openTargets(context, path, withDemandInName(options, found.line.demand));
  const watch = watchSearch(context, options.seconds);
  const rebalanced = await rebalanceLine(part.line, found.pace, found.takt, part.plan, {
    nodes: nodeLimit(options),
    strictLimit: options.strictLimit === true,
    maxMoves: options.maxMoves ?? null,
    maxMoveCost: options.maxMoveCost ?? null,
    keep,
    ...learning,
    checkpoint: watch.checkpoint,
    peopleCheckpoint: watch.firstOfTwo,
  });
  const { line, pace } = found;
  const today = { line, pace, from, strictLimit: options.strictLimit === true };
  const beside = await lookBeside(rebalanced, today, options.steps ?? null, watch.afterwards);
  const { way, slack } = beside;
  const { balance } = rebalanced;
  const answer = {
    ...rebalanced,
    peopleAtBenches: part.peopleAtBenches,
    balance: { ...balance, findings: [...balance.findings, ...beside.findings] },
  };
  watch.close();
  if (!options.json) tell(loaded, answer.balance.findings);
  const { plan } = answer.balance;
  if (target !== null && plan !== null && !context.interrupted()) {
    await savePlan(context, target, { line: loaded.line, pace, plan: part.withBenches(plan) });
  }
  const json = () => rebalanceJson(answer, options.from, options.seconds ?? null, slack, way);
  const text = () => rebalanceText(answer, options.from, context, slack, way);
  await emitResult(context, { json, text, list: ["moves"] }, options);
  if (context.interrupted()) return EXIT_STATUS.interrupted;
  return plan === null || hasErrors(answer.balance.findings) ? EXIT_STATUS.answerIsNo : EXIT_STATUS.fine;
}

function tell(loaded: LoadedLine, findings: LoadedLine["findings"]): void {
  loaded.tell([...loaded.findings, ...findings], false);
}

/** What moves lose of what people have learned. Throws a UsageError where they lose nothing, or without an end. */
function lossesOf(context: Context, line: Line): LostLearning {
  const lost = valueFor("--learning", learningToLose(line));
  if (line.moveCosts.size > 0 || line.tasks.some(({ moveCost }) => moveCost !== null))
    context.note("--learning sets aside what the line file says of move-cost and move-costs\n");
  return lost;
}

function tasksToKeep(line: Line, listed: string | undefined): number[] {
  if (listed === undefined) return [];
  const ids = listed.split(",").map((text) => text.trim());
  return valueFor("--keep", tasksNamed(line, ids));
}
