import { askFloor, type FloorQuestions } from "../answer/order/ask-floor.js";
import { isPaceGiven } from "../answer/set-pace.js";
import type { Finding } from "../findings/finding.js";
import { inOrderOfDoubt, type LearntOrder, learnFromUnits } from "../import-tables/learn-order.js";
import { orderIntoLine } from "../import-tables/order-into-line.js";
import { readOrderFiles } from "../import-tables/read-order-files.js";
import type { Line as InnerLine } from "../line/line.js";
import { orderDocument } from "../report/json/order-json.js";
import { knownLine, type Line } from "./line.js";
import { type DemandOptions, PACE_OPTIONS, paceFor } from "./pace.js";
import { type Refused, refuse } from "./result.js";
import { limitsOf, SEARCH_OPTIONS, type SearchOptions } from "./search.js";
import { TABLE_OPTIONS, type TableFile, type TableOptions, tableBytes, tableTerms } from "./tables.js";
import { checkOptions, countOption, UsageError } from "./usage-error.js";

/** What is asked beside the orders. */
export interface OrderOptions extends DemandOptions, SearchOptions, TableOptions {
  /** So many questions at the most; 0 for none, and no balancing; 5 where left out. */
  readonly questions?: number;
  /** Refuse a task over the station limit, also where it is alone at a station. */
  readonly strictLimit?: boolean;
}

/** Precedences that all units keep, pairs that were built both ways, and the questions whose answers may save people. */
export type OrderResult = ReturnType<typeof orderDocument>;

/** What orders have shown, and the line file with it. */
export interface OrderAnswered {
  /** The JSON of `linepoise order`, with what `lineText` has that the line has not under `into`. */
  readonly result: OrderResult | Refused;
  /** The text of the line file with the new precedences, whatever else it says kept as it is; null where it would have errors with them, which findings tell. */
  readonly lineText: string | null;
}

/**
 * Precedences from the orders in which units were really built: one task comes before another where every unit with both had it so. And what
 * to ask the floor: direct precedences without which a balance needs fewer people or stations. No question is asked where nothing gives
 * the pace.
 *
 * @param orders tables with the orders of units
 * @throws UsageError for options that do not exist or cannot be read, and for orders that are no tables
 */
export async function order(
  line: Line,
  orders: readonly TableFile[],
  options: OrderOptions = {},
): Promise<OrderAnswered> {
  checkOptions(options, [...PACE_OPTIONS, ...SEARCH_OPTIONS, ...TABLE_OPTIONS, "questions", "strictLimit"]);
  const most = countOption("questions", options.questions, 0) ?? 5;
  if (!Array.isArray(orders) || orders.length === 0)
    throw new UsageError("order: at least one table with the orders of units is expected");
  const known = knownLine(line);
  const { line: inner } = known;
  const tables = orders.map((each) => tableBytes(each, "order: a table is"));
  const read = await readOrderFiles(tables, inner.tasks, tableTerms(options));
  const refused = (faults: readonly Finding[]) => ({ result: refuse("order", [], faults), lineText: null });
  if (read.units === null) return refused(read.findings);
  const { learnt, findings: found } = learnFromUnits(inner, read.units);
  const findings = [...known.findings, ...read.findings, ...found];
  if (learnt === null) return refused(findings);
  const taken = orderIntoLine(learnt, known);
  findings.push(...taken.findings);
  const questions = most === 0 ? null : await ask(inner, learnt, options, findings);
  const into = taken.updated && { file: inner.file, isWritten: false, line: taken.updated };
  const answer = { line: inner, files: read.files, learnt, questions, most, into };
  return { result: orderDocument(answer, findings), lineText: taken.updated?.text ?? null };
}

/** Null where nothing gives the pace; a pace with a fault is told. */
async function ask(
  line: InnerLine,
  { before, arrows }: LearntOrder,
  options: OrderOptions,
  findings: Finding[],
): Promise<FloorQuestions | null> {
  if (!isPaceGiven(line, options)) return null;
  const found = paceFor(line, options);
  if (found.ok)
    return askFloor(found.line, found.pace, before, inOrderOfDoubt(arrows), {
      ...limitsOf(options),
      strictLimit: options.strictLimit === true,
    });
  findings.push({ ...found.fault, severity: "warning" });
  return null;
}
