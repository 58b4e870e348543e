import { answerOfPlan } from "../answer/balance/answer-of-plan.js";
import { type LineToCheck, PlanChecker, type ReadPlan } from "../answer/balance/check-against-line.js";
import { shownBalance } from "../answer/balance/shown-balance.js";
import { countOf } from "../findings/count-of.js";
import { type Finding, hasErrors, SEVERITIES, type Severity } from "../findings/finding.js";
import { readLineText } from "../line/read-line-text.js";
import { checkInPart } from "../plan/check/check-in-part.js";
import {
  anyFails,
  type CheckedFile,
  type CheckResult,
  type JudgedFinding,
  judgeFindings,
  outcomeOf,
  type UnreadFile,
} from "../plan/check/check-result.js";
import { planFinding } from "../plan/check/plan-finding.js";
import { readPlan } from "../plan/file/read-plan.js";
import { CHECK_FORMATS, type CheckFormat, checkReport, refusedReport } from "../report/ci/check-report.js";
import { DEFAULT_NODES } from "../solve/methods.js";
import type { TaktSum } from "../time/takt.js";
import { type CheckBaseline, lineFileOf, openBaseline } from "./check-baseline.js";
import { type Context, type Register, UsageError } from "./context.js";
import { addOutputOptions, checkOutput, emit, type FormatOptions, formatOf, refuseSameFile } from "./emit.js";
import { addFormatOptions, emitResult } from "./emit-table.js";
import { EXIT_STATUS, type ExitStatus } from "./exit-status.js";
import { cycleOption, demandOption, findPace, setAside } from "./find-pace.js";
import { oneOf, positiveWholeNumber } from "./option-values.js";
import { type SearchWatch, watchSearch } from "./watch-search.js";

interface CheckCommandOptions extends FormatOptions<CheckFormat> {
  readonly cycle?: string;
  readonly demand?: string;
  readonly failOn: Severity;
  readonly against?: string;
  readonly nodes: number;
}

export const registerCheck: Register = (program, act) => {
  const command = program
    .command("check")
    .description("whether agreed plans still hold: tasks, precedence, rules, loads, policy, supply, pace")
    .argument("<line>", "line file; - for standard input")
    .argument("<plan...>", "plan files; * and ? stand for parts of a name, ** for any folders")
    .addOption(cycleOption())
    .addOption(demandOption())
    .option(
      "--fail-on <severity>",
      `what makes the status 1: ${SEVERITIES.join(", ")}`,
      oneOf(SEVERITIES),
      "error",
    )
    .option(
      "--against <what>",
      "fail only on what is new or worse than at this git revision, or in this plan",
    )
    .option(
      "--nodes <count>",
      "how long to search for the least stations, in partial plans, where the policy asks",
      positiveWholeNumber,
      DEFAULT_NODES,
    );
  addFormatOptions(addOutputOptions(command), CHECK_FORMATS).action(
    (path: string, plans: string[], options: CheckCommandOptions) =>
      act((context) => showCheck(context, path, plans, options)),
  );
};

async function showCheck(
  context: Context,
  linePath: string,
  patterns: readonly string[],
  options: CheckCommandOptions,
): Promise<ExitStatus> {
  const format = formatOf(options);
  const { paths, faults } = await findPlans(context, patterns);
  await checkOutput(context, linePath, options);
  if (options.out !== undefined)
    for (const path of paths) refuseSameFile(context, ["--out", options.out], ["a plan", path]);
  const sources = new Map<string, string>();
  const shown = { sources, look: context };
  const read = await readLineFile(context, sources, linePath, { paths, faults });
  const against = toCheck(read.name, read.text, options);
  if ("faults" in against) {
    const { report, beside } = refusedReport(format, read.name, against.faults, shown);
    context.note(beside);
    if (report !== "" || options.out !== undefined) await emit(context, report, options);
    return EXIT_STATUS.wrongInput;
  }
  if (options.cycle !== undefined) context.note(setAside(against.asRead));
  const watch = watchSearch(context, undefined);
  const searched = { nodes: options.nodes, checkpoint: watch.checkpoint };
  const baseline =
    options.against === undefined
      ? null
      : await openBaseline(context, against, { ...options, ...searched, against: options.against, linePath });
  const run = { context, linePath, sources, baseline, failOn: options.failOn, watch };
  const result = await checkAll(run, against, new PlanChecker(against, searched), paths);
  watch.close();
  if (context.interrupted()) return EXIT_STATUS.interrupted;
  const { report, beside } = checkReport(format, result, answersOf(result), shown);
  context.note(beside);
  const json = () => checkReport("json", result, answersOf(result), shown).report;
  if (format === "csv")
    await emitResult(context, { json, text: json, list: ["plans", "findings"] }, { ...options, format });
  else if (format === "text" && options.out === undefined) context.printLines(report);
  else await emit(context, report, options);
  if (result.outcome === "refused") return EXIT_STATUS.wrongInput;
  return result.outcome === "wrong" ? EXIT_STATUS.answerIsNo : EXIT_STATUS.fine;
}

/** Plans that are named, and what is wrong with names of others. */
interface FoundPlans {
  readonly paths: readonly string[];
  readonly faults: readonly string[];
}

/** Every plan once, in the order in which they are named. */
async function findPlans(context: Context, patterns: readonly string[]): Promise<FoundPlans> {
  const known = new Map<string, string>();
  const faults: string[] = [];
  for (const pattern of patterns) {
    for (const path of await toldIn(faults, [], () => context.findFiles(pattern))) {
      const name = path === "-" ? path : context.pathFrom("plan", path);
      // A dash given twice is refused where it is read.
      if (path === "-" && known.has(name))
        throw new UsageError("- stands for standard input and can be given once");
      if (!known.has(name)) known.set(name, path);
    }
  }
  return { paths: [...known.values()], faults };
}

/** What an attempt gives; where it is refused, `otherwise`, and why is one fault more. */
async function toldIn<T>(faults: string[], otherwise: T, attempt: () => Promise<T>): Promise<T> {
  try {
    return await attempt();
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    faults.push(error.message);
    return otherwise;
  }
}

/** The line file. Where there is none, or names of plans fit no file, plans that are not there are told as well. */
async function readLineFile(
  context: Context,
  sources: Map<string, string>,
  path: string,
  plans: FoundPlans,
): Promise<NamedText> {
  const faults: string[] = [];
  const read = await toldIn(faults, null, () => readFile(context, sources, path));
  faults.push(...plans.faults);
  if (read !== null && faults.length === 0) return read;
  for (const plan of plans.paths.filter((each) => each !== "-"))
    await toldIn(faults, null, () => readFile(context, new Map(), plan));
  throw new UsageError(faults.join("; "));
}

interface NamedText {
  readonly name: string;
  readonly text: string;
}

async function readFile(context: Context, sources: Map<string, string>, path: string): Promise<NamedText> {
  const text = await context.readText(path);
  const name = path === "-" ? "standard input" : path;
  sources.set(name, text);
  return { name, text };
}

/** The texts of all plans; of those that cannot be read each is told. */
async function readPlans(context: Context, sources: Map<string, string>, paths: readonly string[]) {
  const texts: NamedText[] = [];
  const faults: string[] = [];
  for (const path of paths) {
    const read = await toldIn(faults, null, () => readFile(context, sources, path));
    if (read !== null) texts.push(read);
  }
  if (faults.length > 0) throw new UsageError(faults.join("; "));
  return texts;
}

/** The line at the pace asked for, or what keeps the file from having one. */
function toCheck(
  name: string,
  text: string,
  options: CheckCommandOptions,
): (LineToCheck & { readonly takt: TaktSum | null }) | { readonly faults: JudgedFinding[] } {
  const refuse = (faults: readonly Finding[]) => ({
    faults: judgeFindings(faults.map(planFinding), null, "error"),
  });
  const { line, findings } = readLineText(name, text);
  if (line === null || hasErrors(findings)) return refuse(findings);
  const found = findPace(line, options);
  if (!found.ok) return refuse([...findings, found.fault]);
  return { asRead: line, line: found.line, pace: found.pace, takt: found.takt, findings };
}

interface CheckRun {
  readonly context: Context;
  readonly linePath: string;
  readonly sources: Map<string, string>;
  readonly baseline: CheckBaseline | null;
  readonly failOn: Severity;
  readonly watch: SearchWatch;
}

async function checkAll(
  run: CheckRun,
  against: LineToCheck & { readonly takt: TaktSum | null },
  checker: PlanChecker,
  paths: readonly string[],
): Promise<CheckResult> {
  const { context, linePath, sources, baseline, failOn, watch } = run;
  const plans: CheckedFile[] = [];
  const unread: UnreadFile[] = [];
  const texts = await readPlans(context, sources, paths);
  for (const [at, path] of paths.entries()) {
    // What was interrupted is not reported.
    if (!(await watch.step(`${at} of ${countOf(paths.length, "plan")} checked`))) break;
    const { name, text } = texts[at]!;
    const reading = readPlan(name, text, against.line);
    const lineFile = lineFileOf(context, path, linePath);
    if (reading.plan === null) {
      const check = async (asked: ReadPlan) => (await checker.check(asked, lineFile)).checked.findings;
      const found = await checkInPart(against.line, reading, check);
      unread.push({ file: name, findings: judgeFindings(found, null, failOn) });
      continue;
    }
    const file = await checker.check(reading as ReadPlan, lineFile);
    const before = baseline === null ? null : await baseline.ofPlan(path);
    const findings = judgeFindings(file.checked.findings, before, failOn);
    plans.push({ ...file, findings, isWrong: anyFails(findings) });
  }
  const findings = judgeFindings(checker.lineFindings, baseline?.ofLine ?? null, failOn);
  const { line, pace, takt } = against;
  const isLineWrong = anyFails(findings);
  const outcome = outcomeOf(plans, isLineWrong, unread);
  return { line, pace, takt, plans, findings, isLineWrong, unread, outcome };
}

const answersOf = ({ pace, takt, plans }: CheckResult) =>
  plans.map(({ line, plan, benches, checked: { stations, measures } }) =>
    shownBalance(answerOfPlan(line, pace, takt, plan, { stations, measures }), benches),
  );
