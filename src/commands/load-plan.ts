import type { ReadPlan } from "../answer/balance/check-against-line.js";
import { keepBenches, type WithoutBenches } from "../answer/rebalance/keep-benches.js";
import { type Finding, finding } from "../findings/finding.js";
import { formatFindings } from "../findings/format-findings.js";
import type { Line } from "../line/line.js";
import { eachTaskOnce } from "../plan/check/each-task-once.js";
import { findOtherLine } from "../plan/file/find-other-line.js";
import { type PlanReading, readPlan } from "../plan/file/read-plan.js";
import type { Plan } from "../plan/plan.js";
import { type Context, UsageError } from "./context.js";
import { emitRefusal, type OutputOptions } from "./emit.js";

/**
 * Reads today's plan of a line. Where it is none, all its faults are told, and the answer is null (status 2). Tasks that the line does
 * not have any more are told and left out: the line has changed since. A plan of another line is refused. A task that is listed twice
 * counts at its first place.
 */
export async function loadPlan(
  context: Context,
  command: string,
  path: string,
  line: Line,
  options: OutputOptions,
): Promise<Plan | null> {
  return planOfText(context, command, { path, text: await context.readText(path) }, line, options);
}

/** A file with the name that it is told by. */
export const readNamed = async (context: Context, path: string) => ({
  path: path === "-" ? "standard input" : path,
  text: await context.readText(path),
});

/** The same of a plan whose text is read already. */
export async function planOfText(
  context: Context,
  command: string,
  { path, text }: TextOfFile,
  line: Line,
  options: OutputOptions,
): Promise<Plan | null> {
  const reading = await readOrRefuse(context, command, { path, text }, line, options);
  if (reading === null) return null;
  const told = [...reading.findings, ...tasksTwice(path, line, reading)];
  const shown = told.filter((each) => each.severity !== "note");
  context.note(formatFindings(shown, new Map([[path, text]]), context.noteWidth));
  return eachTaskOnce(line, reading.plan);
}

/** The plan as it is written, with what reading it found, of which nothing is told; null where it is refused, for all its faults. */
export async function readOrRefuse(
  context: Context,
  command: string,
  file: TextOfFile,
  line: Line,
  options: OutputOptions,
): Promise<ReadPlan | null> {
  const [read] = (await readEachOrRefuse(context, command, [file], line, options)) ?? [];
  return read ?? null;
}

export interface TextOfFile {
  readonly path: string;
  readonly text: string;
}

/** The same of several files: null where one is refused, for the faults of all. */
export async function readEachOrRefuse(
  context: Context,
  command: string,
  files: readonly TextOfFile[],
  line: Line,
  options: OutputOptions,
): Promise<ReadPlan[] | null> {
  const read: ReadPlan[] = [];
  const refused = new Map<string, readonly Finding[]>();
  for (const { path, text } of files) {
    const reading = readPlan(path, text, line);
    const { plan } = reading;
    const foreign = plan === null ? null : findOtherLine(line, reading);
    if (plan === null || foreign !== null) refused.set(path, foreign === null ? reading.findings : [foreign]);
    else read.push({ ...reading, plan });
  }
  if (refused.size === 0) return read;
  const faults = [...refused.values()].flat();
  await emitRefusal(context, command, faults, options, () => {
    const shown = faults.filter((each) => each.severity !== "note");
    const texts = new Map(files.map(({ path, text }) => [path, text]));
    context.note(formatFindings(shown, texts, context.noteWidth));
  });
  return null;
}

/**
 * What of today's plan may change: benches stay as they are, which is told. Throws a UsageError where they leave the line none of some
 * equipment that it needs.
 */
export function besideBenches(
  context: Context,
  line: Line,
  plan: Plan,
  counted: "not" | "in the roster alone" = "not",
): WithoutBenches {
  const part = keepBenches(line, plan);
  if (part.allAtBenches !== null) {
    const { equipment, task } = part.allAtBenches;
    throw new UsageError(
      `the benches of today's plan use every ${equipment} that exists, and ${task} needs one on the line; move the bench or raise \`equipment:\``,
    );
  }
  if ((plan.benches ?? []).length > 0)
    context.note(
      `the benches of today's plan stay as they are; their people are ${counted === "not" ? "not counted" : `counted ${counted}`}\n`,
    );
  return part;
}

/** A warning for each task that the plan lists twice, of which the first place counts. */
export function tasksTwice(file: string, line: Line, { places }: PlanReading): Finding[] {
  return line.tasks.flatMap(({ id }, task) => {
    const [first, ...others] = places.task(task);
    return others.map(({ place }) => {
      const message = `task ${id} is in the plan twice; its first place, ${first!.station}, counts`;
      return finding({ rule: "task-twice", severity: "warning", message, file, place, task: id });
    });
  });
}
