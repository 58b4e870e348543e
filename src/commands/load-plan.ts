import { formatFindings } from "../findings/format-findings.js";
import type { Line } from "../line/line.js";
import { readPlan } from "../plan/file/read-plan.js";
import type { Plan } from "../plan/plan.js";
import { refusedJson } from "../report/json/finding-json.js";
import type { Context } from "./context.js";
import { emit, type OutputOptions } from "./emit.js";

/**
 * Reads today's plan of a line. Where it is none, all its faults are told, and the answer is null (status 2). Tasks that the line does
 * not have any more are told and left out: the line has changed since.
 */
export async function loadPlan(
  context: Context,
  command: string,
  path: string,
  line: Line,
  options: OutputOptions,
): Promise<Plan | null> {
  const text = await context.readText(path);
  const { plan, findings } = readPlan(path, text, line);
  if (plan === null && options.json) {
    await emit(context, refusedJson(command, findings), options);
    return null;
  }
  const shown = findings.filter((each) => each.severity !== "note");
  context.note(formatFindings(shown, new Map([[path, text]]), context.width));
  return plan;
}
