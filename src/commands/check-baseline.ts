import {
  type CheckOptions,
  type LineToCheck,
  PlanChecker,
  type ReadPlan,
} from "../answer/balance/check-against-line.js";
import { hasErrors } from "../findings/finding.js";
import { visibleText } from "../findings/visible-text.js";
import { readLine } from "../line/read-line.js";
import type { PlanFinding } from "../plan/check/plan-finding.js";
import { findOtherLine } from "../plan/file/find-other-line.js";
import { readPlan } from "../plan/file/read-plan.js";
import { type Context, UsageError } from "./context.js";
import { findPace } from "./find-pace.js";

/** Findings of before, which those of now are compared with. */
export interface CheckBaseline {
  /** About the line. */
  readonly ofLine: readonly PlanFinding[];
  /** About the plan in that file; none where it was not there. */
  ofPlan(path: string): Promise<readonly PlanFinding[]>;
}

export interface BaselineOptions extends CheckOptions {
  readonly against: string;
  readonly linePath: string;
  readonly cycle?: string;
  readonly demand?: string;
}

/** What `--against` names: a plan file, or else a revision of git at which line and plans are read. */
export async function openBaseline(
  context: Context,
  now: LineToCheck,
  options: BaselineOptions,
): Promise<CheckBaseline> {
  const text = await context.readExisting(options.against);
  return text === null ? atRevision(context, now, options) : ofPlanFile(now, text, options);
}

/** One plan to compare all others with, on the line as it is now. */
async function ofPlanFile(now: LineToCheck, text: string, options: BaselineOptions): Promise<CheckBaseline> {
  const reading = readPlan(options.against, text, now.line);
  const first = reading.plan === null ? reading.findings[0]! : findOtherLine(now.line, reading);
  if (first !== null)
    throw new UsageError(`--against "${options.against}" is no plan of the line: ${first.message}`);
  const checker = new PlanChecker(now, options);
  const { checked } = await checker.check(reading as ReadPlan, null);
  return { ofLine: checker.lineFindings, ofPlan: async () => checked.findings };
}

async function atRevision(
  context: Context,
  now: LineToCheck,
  options: BaselineOptions,
): Promise<CheckBaseline> {
  const then = await lineAtRevision(context, now, options);
  const checker = new PlanChecker(then, options);
  const read = (path: string) =>
    path === "-" ? Promise.resolve(null) : context.readAtRevision(options.against, path);
  return {
    ofLine: checker.lineFindings,
    async ofPlan(path) {
      const text = await read(path);
      const reading = text === null ? null : readPlan(path, text, then.line);
      if (reading === null || reading.plan === null) {
        const why = reading === null ? "is not there" : "is no plan";
        context.note(
          `${visibleText(`at "${options.against}" "${path}" ${why}`)}: all that is found counts as new\n`,
        );
        return [];
      }
      const { checked } = await checker.check(
        reading as ReadPlan,
        lineFileOf(context, path, options.linePath),
      );
      return checked.findings;
    },
  };
}

/** The line file as it was then; as it is now where it was not there or had faults. */
async function lineAtRevision(
  context: Context,
  now: LineToCheck,
  { against, linePath, ...asked }: BaselineOptions,
): Promise<LineToCheck> {
  const text = linePath === "-" ? null : await context.readAtRevision(against, linePath);
  const { line, findings } = text === null ? { line: null, findings: [] } : readLine(linePath, text);
  const found = line === null || hasErrors(findings) ? null : tryPace(line, asked);
  if (line !== null && found?.ok) return { asRead: line, line: found.line, pace: found.pace, findings };
  const why = text === null ? "is not there" : "has errors or no pace";
  context.note(`at "${against}" the line file ${why}: plans of then are checked against the line of now\n`);
  return now;
}

function tryPace(line: LineToCheck["line"], asked: { cycle?: string; demand?: string }) {
  try {
    return findPace(line, asked);
  } catch (error) {
    if (error instanceof UsageError) return null;
    throw error;
  }
}

/** The line file as seen from a plan file; null where one of them is standard input. */
export function lineFileOf(context: Context, planPath: string, linePath: string): string | null {
  return planPath === "-" || linePath === "-" ? null : context.pathFrom(planPath, linePath);
}
