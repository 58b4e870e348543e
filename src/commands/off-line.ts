import { InvalidArgumentError, Option } from "commander";
import { answerOffLine } from "../answer/off-line/answer-off-line.js";
import type { OffLineAnswer } from "../answer/off-line/off-line-answer.js";
import { RANKS, type Rank, readRanks } from "../answer/off-line/rank-order.js";
import { tells } from "../findings/finding.js";
import { nearestWordsAmong } from "../findings/nearest.js";
import { idKey } from "../line/ids.js";
import type { Line } from "../line/line.js";
import { offLineJson } from "../report/json/off-line-json.js";
import { offLineAnswerText } from "../report/terminal/off-line-answer-text.js";
import { DEFAULT_NODES, DOUBLINGS } from "../solve/methods.js";
import { type Context, type Register, UsageError } from "./context.js";
import { addOutputOptions, checkOutput, type FormatOptions, withFormat } from "./emit.js";
import { addFormatOptions, emitResult } from "./emit-table.js";
import { EXIT_STATUS, type ExitStatus } from "./exit-status.js";
import { cycleOption, demandOption, findPace, setAside } from "./find-pace.js";
import { loadLine } from "./load-line.js";
import { positiveSeconds, positiveWholeNumber } from "./option-values.js";
import { doublingsOf, nodeLimit, type SearchOptions, watchSearch } from "./watch-search.js";

interface OffLineCommandOptions extends FormatOptions, SearchOptions {
  readonly cycle?: string;
  readonly demand?: string;
  readonly blocks?: string;
  readonly benches: number;
  readonly rank: readonly Rank[];
  readonly joinsAtSeveral?: true;
  readonly strictLimit?: true;
}

export const registerOffLine: Register = (program, act) => {
  const command = program
    .command("off-line")
    .description("blocks of tasks worth building at a bench beside the line, ranked, with what each changes")
    .argument("<line>", "line file; - for standard input")
    .addOption(cycleOption())
    .addOption(demandOption())
    .option(
      "--blocks <tasks>",
      'ask whether these tasks may go, such as "lace,true"; several blocks: "lace,true; wire"',
    )
    .option(
      "--benches <count>",
      "the most benches; shows the best choice for each number of them",
      positiveWholeNumber,
      1,
    )
    .addOption(
      new Option("--rank <order>", "what counts first, then second and third")
        .argParser(rankOrder)
        .default(RANKS, RANKS.join(",")),
    )
    .option("--joins-at-several", "also show blocks whose result joins the line at several tasks")
    .option(
      "--nodes <count>",
      `how long to search for each balance, in partial plans (default: ${DEFAULT_NODES}, doubled up to ${DOUBLINGS} times until a plan is found; no limit with --seconds)`,
      positiveWholeNumber,
    )
    .option(
      "--seconds <time>",
      "stop the search after this time; the answer may differ from run to run",
      positiveSeconds,
    )
    .option("--strict-limit", "refuse a task over the station limit, also where it is alone at a station");
  addFormatOptions(addOutputOptions(command)).action((path: string, options: OffLineCommandOptions) =>
    act((context) => showOffLine(context, path, withFormat(options))),
  );
};

function rankOrder(text: string): readonly Rank[] {
  const reading = readRanks(text);
  if (!reading.ok) throw new InvalidArgumentError(`${reading.problem}.`);
  return reading.value;
}

async function showOffLine(
  context: Context,
  path: string,
  options: OffLineCommandOptions,
): Promise<ExitStatus> {
  await checkOutput(context, path, options);
  const loaded = await loadLine(context, "off-line", path, options);
  if (loaded === null) return EXIT_STATUS.wrongInput;
  const found = findPace(loaded.line, options);
  if (!found.ok) {
    await loaded.refuse([...loaded.findings, found.fault]);
    return EXIT_STATUS.wrongInput;
  }
  const asked = options.blocks === undefined ? null : readBlocks(found.line, options.blocks);
  if (options.cycle !== undefined) context.note(setAside(loaded.line));
  const watch = watchSearch(context, options.seconds);
  const answer = await answerOffLine(found.line, found.pace, found.takt, {
    ranks: options.rank,
    benches: options.benches,
    joinsAtSeveral: options.joinsAtSeveral === true,
    asked,
    nodes: nodeLimit(options),
    doublings: doublingsOf(options),
    strictLimit: options.strictLimit === true,
    checkpoint: watch.checkpoint,
  });
  watch.close();
  const whole = { ...answer, findings: [...loaded.findings, ...answer.findings] };
  // The report for people tells these itself.
  const told = whole.findings.filter((each) => !tells(each, "cannot-go"));
  if (!options.json) loaded.tell(told, false);
  const json = () => offLineJson(whole, options.seconds ?? null);
  await emitResult(
    context,
    { json, text: () => offLineAnswerText(whole, context), list: ["blocks"] },
    options,
  );
  if (context.interrupted()) return EXIT_STATUS.interrupted;
  return isNo(answer) ? EXIT_STATUS.answerIsNo : EXIT_STATUS.fine;
}

const isNo = ({ outcome }: OffLineAnswer): boolean => outcome === "infeasible" || outcome === "stopped";

/** The blocks asked for: semicolons between blocks, commas between tasks; an id may hold commas itself. */
function readBlocks(line: Line, text: string): number[][] {
  const seen = new Set<string>();
  const unknown = new Set<string>();
  const blocks = text.split(";").map((block) => {
    if (block.trim() === "") {
      throw new UsageError(
        `--blocks "${text}": a block is empty; tasks are expected, such as "lace,true; wire"`,
      );
    }
    return { block, tasks: [...new Set(readTasks(line, block, unknown))] };
  });
  if (unknown.size > 0) {
    const near = nearestWordsAmong(line.tasks.map(({ id }) => id));
    const told = [...unknown].map((word) => `no task is called "${word}"${near(word)}`);
    throw new UsageError(`--blocks: ${told.join("; ")}`);
  }
  for (const { block, tasks } of blocks) {
    const key = [...tasks].sort((one, two) => one - two).join(" ");
    if (seen.has(key))
      throw new UsageError(`--blocks "${text}": the block ${block.trim()} is given twice; once is expected`);
    seen.add(key);
  }
  return blocks.map(({ tasks }) => tasks);
}

function readTasks(line: Line, block: string, unknown: Set<string>): number[] {
  const numbers = new Map(line.tasks.map(({ id }, task) => [idKey(id), task]));
  const words = block.split(",");
  const tasks: number[] = [];
  for (let at = 0; at < words.length; ) {
    // The longest id that starts here.
    const ends = Array.from({ length: words.length - at }, (_, left) => words.length - left);
    const end = ends.find((each) => numbers.has(idKey(words.slice(at, each).join(","))));
    if (end === undefined) unknown.add(words[at]!.trim());
    else tasks.push(numbers.get(idKey(words.slice(at, end).join(",")))!);
    at = end ?? at + 1;
  }
  return tasks;
}
