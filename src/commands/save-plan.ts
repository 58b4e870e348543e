import type { BalanceAnswer } from "../answer/balance/balance-answer.js";
import { lineOfPlanFile, writePlanFile } from "../plan/plan-file.js";
import { type Context, UsageError } from "./context.js";
import { checkOutput, type FormatOptions, refuseSameFile } from "./emit.js";

/** A plan file that may be written: checked before the long work, written after it. */
export interface PlanTarget {
  readonly path: string;
  /** The line file as seen from the plan file. */
  readonly lineFile: string;
  /** What stands there now and is kept where it can be; null for a new file. */
  readonly present: string | null;
  readonly replaces: boolean;
}

/** Where a command is told to write a plan, beside its report. */
export interface WriteOptions extends FormatOptions {
  readonly write?: string;
}

/** Standard output takes the plan or the report, not both. Throws a UsageError. */
export function refuseBothToStdout({ write, out }: WriteOptions): void {
  if (write !== "-" || out !== undefined) return;
  throw new UsageError("--write - and the report would both go to standard output; give --out as well");
}

/** Checks where report and plan are to go, before the long work; null where no plan is to be written. Throws a UsageError. */
export async function openTargets(
  context: Context,
  linePath: string,
  options: WriteOptions,
): Promise<PlanTarget | null> {
  const { write, out } = options;
  await checkOutput(context, linePath, options);
  const target =
    write === undefined ? null : await openPlanTarget(context, write, linePath, options.force === true);
  if (out !== undefined && write !== undefined) refuseSameFile(context, ["--write", write], ["--out", out]);
  if (options.format === undefined && !options.json && /\.ya?ml$/iu.test(out ?? ""))
    throw new UsageError(`--out ${out} would get the report; --write takes the file of the plan`);
  return target;
}

/**
 * Checks where a plan is to go. A file that is there is replaced only when it is a plan of the same line, or when forced.
 * Throws a UsageError for a line from standard input, which a plan cannot name.
 */
async function openPlanTarget(
  context: Context,
  path: string,
  linePath: string,
  force: boolean,
): Promise<PlanTarget> {
  if (linePath === "-") throw new UsageError("--write needs the line in a file: a plan names its line");
  refuseSameFile(context, ["--write", path], ["the line file", linePath]);
  const lineFile = context.pathFrom(path, linePath);
  const there = await context.readExisting(path);
  const samePlan = there !== null && lineOfPlanFile(there) === lineFile;
  if (there !== null && !samePlan && !force) {
    throw new UsageError(`"${path}" exists and is no plan of "${linePath}"; --force replaces it`);
  }
  await context.checkTarget(path, { force: there !== null });
  return { path, lineFile, present: samePlan ? there : null, replaces: there !== null };
}

/** Writes the plan of an answer; an answer without a plan writes nothing. */
export async function savePlan(
  context: Context,
  target: PlanTarget,
  answer: Pick<BalanceAnswer, "line" | "pace" | "plan">,
): Promise<void> {
  const { line, pace, plan } = answer;
  if (plan === null) return;
  const text = writePlanFile(line, pace, plan, target.lineFile, target.present);
  await context.writeText(target.path, text, { force: target.replaces });
}
