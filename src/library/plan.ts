import type { ReadPlan } from "../answer/balance/check-against-line.js";
import { keepBenches, type WithoutBenches } from "../answer/rebalance/keep-benches.js";
import { finding, type Finding as InnerFinding } from "../findings/finding.js";
import type { Line as InnerLine } from "../line/line.js";
import { eachTaskOnce } from "../plan/check/each-task-once.js";
import { findOtherLine } from "../plan/file/find-other-line.js";
import { type PlanReading as InnerReading, readPlan as readPlanText } from "../plan/file/read-plan.js";
import type { Plan as InnerPlan, Station } from "../plan/plan.js";
import { writePlanFile } from "../plan/plan-file.js";
import type { Pace } from "../time/pace.js";
import { findingsOfText, type PlacedFinding } from "./finding.js";
import { type KnownLine, knownLine, type Line } from "./line.js";
import { checkOptions, UsageError } from "./usage-error.js";

/** A station or bench of a plan. */
export interface PlanStation {
  readonly id: string;
  /** Ids of tasks, in order of work. */
  readonly tasks: readonly string[];
  /** Parallel workplaces, which take units in turn. */
  readonly places: number;
  /** People together at one place. */
  readonly crew: number;
}

/** A plan of a line: made by an answer, or read. It does not change. */
export interface Plan {
  /** What findings call its file. */
  readonly file: string;
  /** In order of flow. */
  readonly stations: readonly PlanStation[];
  /** Off-line sub-assembly stations beside the line. */
  readonly benches: readonly PlanStation[];
  /** Its plan file, as it was read or as it would be written. */
  readonly text: string;
}

/** What became of the text of a plan file. */
export interface PlanReading {
  /** Null where an error among the findings keeps it from being a plan. */
  readonly plan: Plan | null;
  /** Every fault of the text at once, each with its place. */
  readonly findings: readonly PlacedFinding[];
}

/** What the library keeps of a plan. */
interface KnownPlan {
  readonly line: InnerLine;
  readonly reading: ReadPlan;
  /** The pace that it was made for; null for a plan that was read. */
  readonly pace: Pace | null;
}

const known = new WeakMap<Plan, KnownPlan>();

/**
 * Reads a plan file: `format: linepoise-plan/1`, with stations and their tasks. Tasks that the line does not have are findings, no reason
 * to refuse it.
 *
 * @param text the whole text
 * @param options.file what findings call it; "plan.yaml" where left out
 * @returns the plan, or null beside its faults; never throws for anything in the text
 * @throws UsageError for a text that is no string, a line that `readLine` did not give, and an unknown option
 */
export function readPlan(text: string, line: Line, options: { readonly file?: string } = {}): PlanReading {
  checkOptions(options, ["file"]);
  if (typeof text !== "string") throw new UsageError("readPlan: the text of a plan file is expected");
  const inner = knownLine(line).line;
  const reading = readPlanText(options.file ?? "plan.yaml", text, inner);
  const findings = findingsOfText(reading.findings);
  if (reading.plan === null) return { plan: null, findings };
  return {
    plan: handle({ line: inner, reading: { ...reading, plan: reading.plan }, pace: null }, text),
    findings,
  };
}

/**
 * The text of a plan file. Given the text that stands there now, whatever stays as it is keeps its bytes, comments too.
 *
 * @param options.lineFile the path of the line file as seen from the plan file; the `file` of the line where left out
 * @param options.present the text that is to be replaced
 * @returns of a plan that was read its own text
 * @throws UsageError for a plan that the library did not give, and an unknown option
 */
export function planText(
  plan: Plan,
  options: { readonly lineFile?: string; readonly present?: string } = {},
): string {
  checkOptions(options, ["lineFile", "present"]);
  const { line, reading, pace } = knownPlan(plan);
  if (pace === null) return plan.text;
  return writePlanFile(line, pace, reading.plan, options.lineFile ?? line.file, options.present ?? null);
}

/** A plan that an answer made, as one that is read back from its file. */
export function planMade({ line }: KnownLine, pace: Pace, plan: InnerPlan | null): Plan | null {
  if (plan === null) return null;
  const text = writePlanFile(line, pace, plan, line.file, null);
  const reading = readPlanText("plan.yaml", text, line);
  if (reading.plan === null) throw new Error(`a plan does not read back: ${reading.findings[0]?.message}`);
  return handle({ line, reading: { ...reading, plan: reading.plan }, pace }, text);
}

function handle(plan: KnownPlan, text: string): Plan {
  const { line, reading } = plan;
  const shownStation = ({ id, tasks, places, crew }: Station): PlanStation => ({
    id,
    tasks: tasks.map((task) => line.tasks[task]!.id),
    places,
    crew,
  });
  const { stations, benches = [] } = reading.plan;
  const shown: Plan = Object.freeze({
    file: reading.file,
    stations: stations.map(shownStation),
    benches: benches.map(shownStation),
    text,
  });
  known.set(shown, plan);
  return shown;
}

function knownPlan(plan: Plan): KnownPlan {
  const found = known.get(plan);
  if (found === undefined) throw new UsageError("a plan is expected that readPlan or an answer gave");
  return found;
}

/** The plan in the tasks of a line; read again where it was made for another reading of the line. */
export function planReading(plan: Plan, line: InnerLine): InnerReading {
  const { line: madeFor, reading } = knownPlan(plan);
  return madeFor.tasks === line.tasks ? reading : readPlanText(plan.file, plan.text, line);
}

/** Today's plan of a line, each task once; or why it is none. */
export function planOfToday(
  plan: Plan,
  line: InnerLine,
): { readonly plan: InnerPlan } | { readonly faults: InnerReading["findings"] } {
  const reading = planReading(plan, line);
  const foreign = reading.plan === null ? null : findOtherLine(line, reading);
  if (reading.plan !== null && foreign === null) return { plan: eachTaskOnce(line, reading.plan) };
  return { faults: foreign === null ? reading.findings : [foreign] };
}

/** A line without what its plan builds at benches, which stay as they are; or what they leave the line without. */
export function besideBenches(
  line: InnerLine,
  plan: InnerPlan,
  file: string,
): WithoutBenches | { readonly faults: readonly InnerFinding[] } {
  const part = keepBenches(line, plan);
  if (part.allAtBenches === null) return part;
  const { equipment, task } = part.allAtBenches;
  const message = `the benches of today's plan use every ${equipment} that exists, and ${task} needs one on the line; move the bench or raise \`equipment:\``;
  return { faults: [finding({ rule: "equipment", severity: "error", message, file, task })] };
}
