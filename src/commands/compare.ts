import { type Comparison, compareOptions, ONE_BY_ONE } from "../answer/compare/compare-options.js";
import { lineOfOption } from "../answer/compare/line-of-option.js";
import type { AskedOption } from "../answer/compare/option-answer.js";
import { faultAtOption, paceAskedOf } from "../answer/set-pace.js";
import { findCountedShares } from "../benches/count-shares.js";
import { addTo } from "../findings/add-to.js";
import { type Finding, hasErrors } from "../findings/finding.js";
import type { Line } from "../line/line.js";
import { AS_IT_IS } from "../line/line.js";
import { eachTaskOnce } from "../plan/check/each-task-once.js";
import { readPlan } from "../plan/file/read-plan.js";
import { optionsPicture } from "../report/html/options-picture.js";
import { svgFile } from "../report/html/picture.js";
import { compareJson } from "../report/json/compare-json.js";
import { compareMarkdown } from "../report/markdown/compare-markdown.js";
import { compareSheet } from "../report/sheet/compare-sheet.js";
import { compareText } from "../report/terminal/compare-text.js";
import { DEFAULT_NODES, DOUBLINGS } from "../solve/methods.js";
import { type Chosen, chooseOptions, explainUnknown } from "./choose-options.js";
import { type Context, type Register, UsageError } from "./context.js";
import {
  addOutputOptions,
  checkOutput,
  emit,
  type FormatOptions,
  formatOf,
  type OutputOptions,
  withFormat,
} from "./emit.js";
import { addFormatOptions, writtenTable } from "./emit-table.js";
import { EXIT_STATUS, type ExitStatus } from "./exit-status.js";
import { findPace, keysSetAside } from "./find-pace.js";
import { type LoadedLine, loadLine } from "./load-line.js";
import { planOfText } from "./load-plan.js";
import { positiveWholeNumber } from "./option-values.js";
import { doublingsOf, type SearchOptions, type SearchWatch, watchSearch } from "./watch-search.js";

/** What options are worked out by. */
interface CompareTerms extends OutputOptions, Omit<SearchOptions, "seconds"> {
  readonly from?: string;
  readonly cycle?: string;
  readonly demand?: string;
}

const FORMATS = ["text", "markdown", "svg", "csv", "json"] as const;
type Format = (typeof FORMATS)[number];

type CompareCommandOptions = CompareTerms & FormatOptions<Format>;

export const registerCompare: Register = (program, act) => {
  const command = program
    .command("compare")
    .description(
      "options side by side on equal terms: people, benches, stock, output, cost, and what a gain costs",
    )
    .argument("<line>", "line file; - for standard input")
    .argument("[option...]", "options of the line, or other line files (default: all options)")
    .option("--from <plan>", "today's plan, to show the moves that each option takes")
    .option(
      "--cycle <time>",
      "a line cycle of your own, which is the station limit too, in place of the file's pace",
    )
    .option("--demand <text>", "good units wanted instead of the file's; options keep their own")
    .option(
      "--nodes <count>",
      `how long each search may take, in partial plans (default: ${DEFAULT_NODES}, doubled up to ${DOUBLINGS} times until a plan is found)`,
      positiveWholeNumber,
    );
  addFormatOptions(addOutputOptions(command), FORMATS).action(
    (path: string, words: string[], options: CompareCommandOptions) =>
      act((context) => showComparison(context, path, words, withFormat(options))),
  );
};

/** A column that is asked for, with the file that it comes from. */
interface Column {
  readonly chosen: Chosen;
  readonly loaded: LoadedLine;
}

async function showComparison(
  context: Context,
  path: string,
  words: readonly string[],
  options: CompareCommandOptions,
): Promise<ExitStatus> {
  await checkOutput(context, path, options);
  const loaded = await loadLine(context, "compare", path, options);
  if (loaded === null) return EXIT_STATUS.wrongInput;
  const chosen = await chooseOptions(context, loaded.line, words);
  const columns = await loadColumns(context, loaded, chosen, options);
  if (columns === null) return EXIT_STATUS.wrongInput;
  const today = options.from === undefined ? null : await context.readText(options.from);
  const told =
    today === null ||
    (await planOfText(context, "compare", { path: options.from!, text: today }, loaded.line, options)) !==
      null;
  if (!told) return EXIT_STATUS.wrongInput;
  const asked = await askFor(columns, today, options);
  if (asked === null) return EXIT_STATUS.wrongInput;
  if (options.cycle !== undefined) context.note(setAside(columns));
  const watch = watchSearch(context, undefined);
  const compared = await workOut(context, loaded.line, asked, watch);
  watch.close();
  const comparison = { ...compared, findings: [...findingsOfAll(columns), ...compared.findings] };
  if (!options.json)
    for (const each of new Set(columns.map((column) => column.loaded))) each.tell(findingsOf(each), false);
  await emit(context, await reportOf(comparison, context, options), options);
  if (context.interrupted()) return EXIT_STATUS.interrupted;
  // An option without a balance is an answer beside others that have one; a plan with an error is none.
  const balanced = comparison.options.filter(({ posts }) => posts.length > 0);
  const isNo = balanced.length === 0 || balanced.some(({ findings }) => hasErrors(findings));
  return isNo ? EXIT_STATUS.answerIsNo : EXIT_STATUS.fine;
}

const workOut = (
  context: Context,
  line: Line,
  asked: readonly AskedOption[],
  watch: SearchWatch,
): Promise<Comparison> =>
  compareOptions(line, asked, { ...ONE_BY_ONE, ...context.beside, watch: watch.checkpoint });

/**
 * The line as it is and all its options, as `compare` shows them; null where one has no pace, which is told.
 *
 * @param options `from` is the file whose text is today's plan
 */
export async function compareAll(
  context: Context,
  loaded: LoadedLine,
  today: string,
  options: CompareTerms & { readonly from: string },
  watch: SearchWatch,
): Promise<Comparison | null> {
  const columns = (await chooseOptions(context, loaded.line, [])).map((chosen) => ({ chosen, loaded }));
  const asked = await askFor(columns, today, options);
  return asked === null ? null : workOut(context, loaded.line, asked, watch);
}

function setAside(columns: readonly Column[]): string {
  const keys = new Set(columns.flatMap(({ loaded }) => keysSetAside(loaded.line)));
  return keys.size === 0 ? "" : `--cycle sets aside what the files say of ${[...keys].join(", ")}\n`;
}

/** What is wrong with a file, and what its comparison takes it to say. */
const findingsOf = ({ line, findings }: LoadedLine): Finding[] => [...findings, ...findCountedShares(line)];

const findingsOfAll = (columns: readonly Column[]): Finding[] =>
  [...new Set(columns.map(({ loaded }) => loaded))].flatMap(findingsOf);

/** Reads the other files; null where one of them has faults, which are told. */
async function loadColumns(
  context: Context,
  loaded: LoadedLine,
  chosen: readonly Chosen[],
  options: OutputOptions,
): Promise<Column[] | null> {
  const columns: Column[] = [];
  let isFaulty = false;
  for (const each of chosen) {
    const other = each.kind === "file" ? await loadOther(context, loaded.line, each.path, options) : loaded;
    if (other !== null) columns.push({ chosen: each, loaded: other });
    else if (options.json) return null;
    else isFaulty = true;
  }
  return isFaulty ? null : columns;
}

async function loadOther(context: Context, line: Line, path: string, options: OutputOptions) {
  try {
    return await loadLine(context, "compare", path, options);
  } catch (error) {
    throw error instanceof UsageError && path !== "-" ? explainUnknown(line, path, error) : error;
  }
}

/** Every column with its pace and today's plan; null where a column has no pace, all of which are told. */
async function askFor(
  columns: readonly Column[],
  today: string | null,
  options: CompareTerms,
): Promise<AskedOption[] | null> {
  const faults = new Map<LoadedLine, Finding[]>();
  const asked = columns.flatMap(({ chosen, loaded }): AskedOption[] => {
    const option = chosen.kind === "option" ? chosen.option : null;
    const whole = option === null ? loaded.line : lineOfOption(loaded.line, option);
    const found = findPace(whole, paceAskedOf(option, options));
    if (!found.ok) {
      addTo(faults, loaded, faultAtOption(found.fault, option));
      return [];
    }
    const { line, pace, takt } = found;
    const plan = today === null ? null : todaysPlan(options.from!, today, line);
    return [
      {
        name: nameOf(chosen),
        line,
        option,
        pace,
        takt,
        today: plan,
        nodes: options.nodes ?? DEFAULT_NODES,
        doublings: doublingsOf(options),
      },
    ];
  });
  if (faults.size === 0) return asked;
  const told = [...faults].map(([loaded, ofFile]) => ({ loaded, findings: [...loaded.findings, ...ofFile] }));
  // One object for all files, text for each beside its source.
  if (options.json) await told[0]!.loaded.refuse(told.flatMap(({ findings }) => findings));
  else for (const { loaded, findings } of told) await loaded.refuse(findings);
  return null;
}

function nameOf(chosen: Chosen): string {
  if (chosen.kind === "line") return AS_IT_IS;
  return chosen.kind === "file" ? chosen.path : chosen.option.name;
}

/** Today's plan in the tasks of a line; those that the line does not have are left out. */
function todaysPlan(path: string, text: string, line: Line): AskedOption["today"] {
  const { plan, benches, findings } = readPlan(path, text, line);
  if (plan !== null) return eachTaskOnce(line, benches.length > 0 ? { ...plan, benches } : plan);
  throw new UsageError(`--from "${path}": ${findings[0]?.message ?? "this is no plan"}`);
}

async function reportOf(
  comparison: Comparison,
  context: Context,
  options: CompareCommandOptions,
): Promise<string | Uint8Array> {
  switch (formatOf(options)) {
    case "json":
      return compareJson(comparison);
    case "csv":
      return writtenTable("options", compareSheet(comparison), options);
    case "markdown":
      return compareMarkdown(comparison);
    case "svg":
      return svgFile(optionsPicture(comparison));
    default:
      return compareText(comparison, context);
  }
}
