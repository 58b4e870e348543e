import { Option } from "commander";
import { askFloor, type FloorQuestions } from "../answer/order/ask-floor.js";
import type { Finding } from "../findings/finding.js";
import { formatFindings } from "../findings/format-findings.js";
import { inOrderOfDoubt, type LearntOrder, learnFromUnits } from "../import-tables/learn-order.js";
import { orderIntoLine } from "../import-tables/order-into-line.js";
import { readOrderFiles } from "../import-tables/read-order-files.js";
import type { Line } from "../line/line.js";
import { type OrderAnswer, orderJson } from "../report/json/order-json.js";
import { orderText } from "../report/terminal/order-text.js";
import { DEFAULT_NODES, DOUBLINGS } from "../solve/methods.js";
import type { TableOptions } from "../table/table.js";
import { type Context, type Register, UsageError } from "./context.js";
import {
  addFormatName,
  addOutputOptions,
  asJson,
  checkOutput,
  emitRefusal,
  type FormatOptions,
  refuseSameFile,
} from "./emit.js";
import { emitResult } from "./emit-table.js";
import { EXIT_STATUS, type ExitStatus } from "./exit-status.js";
import { findPace, setAside } from "./find-pace.js";
import { checkInto, type IntoOptions, lineSourceOf, loadTarget } from "./into-line.js";
import { delimiterOption, loadTables, sheetOption } from "./load-tables.js";
import { positiveWholeNumber, wholeNumber } from "./option-values.js";
import { doublingsOf, watchSearch } from "./watch-search.js";

interface OrderOptions extends FormatOptions, IntoOptions {
  readonly from: readonly string[];
  readonly questions: number;
  readonly cycle?: string;
  readonly demand?: string;
  readonly nodes?: number;
  readonly strictLimit?: true;
  readonly delimiter?: NonNullable<TableOptions["delimiter"]>;
  readonly sheet?: string;
}

export const registerOrder: Register = (program, act) => {
  const command = program
    .command("order")
    .description("precedences from the orders in which units were really built, and what to ask the floor")
    .argument("<line>", "line file that has the tasks; - for standard input")
    .addOption(
      new Option(
        "--from <table>",
        "CSV file or workbook (.xlsx) with the orders of units; one at least, given again for each",
      )
        .argParser((text: string, before: readonly string[]) => [...before, text])
        .default([], "none"),
    )
    .option(
      "--questions <count>",
      "so many questions at the most; 0 for none, and no balancing",
      wholeNumber,
      5,
    )
    .option("--cycle <time>", "line cycle to balance for; the pace of the file is set aside")
    .option("--demand <amount>", 'demand to balance for, such as "176 per day"')
    .option(
      "--nodes <count>",
      `how long to search, in partial plans: so many for the line, and as many for all questions together (default: ${DEFAULT_NODES}, for the line doubled up to ${DOUBLINGS} times until a plan is found)`,
      positiveWholeNumber,
    )
    .option("--strict-limit", "refuse a task over the station limit, also where it is alone at a station")
    .addOption(delimiterOption())
    .addOption(sheetOption())
    .option("--into <line>", "write the new precedences into this line file, which is the one that is read")
    .option("--dry-run", "show what --into would change, and write nothing");
  addFormatName(addOutputOptions(command)).action((path: string, options: OrderOptions) =>
    act((context) => showOrder(context, path, asJson(options))),
  );
};

async function showOrder(context: Context, path: string, options: OrderOptions): Promise<ExitStatus> {
  await checkTargets(context, path, options);
  const file = path === "-" ? "standard input" : path;
  const target = { ...(await loadTarget(context, path)), file };
  const sources = new Map([[file, target.source]]);
  const refuse = async (faults: readonly Finding[]): Promise<ExitStatus> => {
    await emitRefusal(context, "order", faults, options, () =>
      context.note(formatFindings(faults, sources, context.noteWidth)),
    );
    return EXIT_STATUS.wrongInput;
  };
  const read = lineSourceOf(target);
  if (read === null) return refuse(target.findings);
  const { line } = read;
  const orders = await readOrderFiles(await loadTables(context, options.from), line.tasks, options);
  for (const [name, text] of orders.sources) sources.set(name, text);
  if (orders.units === null) return refuse(orders.findings);
  const { learnt, findings: found } = learnFromUnits(line, orders.units);
  const findings = [...target.findings, ...orders.findings, ...found];
  if (learnt === null) return refuse(findings);
  let into: OrderAnswer["into"] = null;
  if (options.into !== undefined) {
    const result = orderIntoLine(learnt, read);
    findings.push(...result.findings);
    sources.set(file, result.source);
    if (result.updated === null) return refuse(findings);
    into = { file: options.into, isWritten: options.dryRun !== true, line: result.updated };
  }
  const questions = await ask(context, line, learnt, options, findings);
  if (into?.isWritten) await context.writeText(into.file, into.line.text, { force: true });
  const answer = { line, files: orders.files, learnt, questions, most: options.questions, into };
  const shown = findings.filter(({ severity }) => severity !== "note");
  if (!options.json) context.note(formatFindings(shown, sources, context.noteWidth));
  // Of the orders, not of the answer.
  const { delimiter: _delimiter, ...form } = options;
  const json = () => orderJson(answer, findings);
  await emitResult(context, { json, text: () => orderText(answer, context), list: ["precedences"] }, form);
  return context.interrupted() ? EXIT_STATUS.interrupted : EXIT_STATUS.fine;
}

async function checkTargets(context: Context, path: string, options: OrderOptions): Promise<void> {
  const { from, into } = options;
  if (from.length === 0) throw new UsageError("--from: a table with the orders of units is expected");
  await checkOutput(context, path, options);
  if (into !== undefined && (path === "-" || !context.isSameFile(path, into)))
    throw new UsageError(`--into: precedences go into the line file that is read; give --into ${path}`);
  if (into !== undefined && options.out !== undefined)
    refuseSameFile(context, ["--into", into], ["--out", options.out]);
  for (const each of from) await checkInto(context, ["--from", each], options);
}

/** Null where no questions are wanted, or where nothing gives the pace, of which a finding tells. */
async function ask(
  context: Context,
  line: Line,
  { before, arrows }: LearntOrder,
  options: OrderOptions,
  findings: Finding[],
): Promise<FloorQuestions | null> {
  if (options.questions === 0) return null;
  if (line.demand === null && options.cycle === undefined && options.demand === undefined) {
    context.note(
      'no questions: nothing gives the pace; give --demand "176 per day" or --cycle "60 s" to see which precedences cost people\n',
    );
    return null;
  }
  const found = findPace(line, options);
  if (!found.ok) {
    findings.push({ ...found.fault, severity: "warning" });
    return null;
  }
  if (options.cycle !== undefined) context.note(setAside(line));
  const watch = watchSearch(context, undefined);
  const questions = await askFloor(found.line, found.pace, before, inOrderOfDoubt(arrows), {
    nodes: options.nodes ?? DEFAULT_NODES,
    doublings: doublingsOf(options),
    strictLimit: options.strictLimit === true,
    checkpoint: watch.checkpoint,
  });
  watch.close();
  return questions;
}
