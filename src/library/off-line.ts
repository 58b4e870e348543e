import { answerOffLine } from "../answer/off-line/answer-off-line.js";
import { RANKS, readRanks } from "../answer/off-line/rank-order.js";
import type { Line as InnerLine } from "../line/line.js";
import { tasksNamed } from "../plan/named.js";
import { offLineDocument } from "../report/json/off-line-json.js";
import { knownLine, type Line } from "./line.js";
import { type DemandOptions, PACE_OPTIONS, paceFor } from "./pace.js";
import { type Refused, refuse } from "./result.js";
import { limitsOf, SEARCH_OPTIONS, type SearchOptions } from "./search.js";
import { checkOptions, countOption, textOption, UsageError, valueFor } from "./usage-error.js";

/** Which blocks are looked at, and how they are ranked. */
export interface OffLineOptions extends DemandOptions, SearchOptions {
  /** Ids of the tasks of each block that is asked for; left out: every block. */
  readonly blocks?: readonly (readonly string[])[];
  /** The most benches, for the best choice of each number of them; 1 where left out. */
  readonly benches?: number;
  /** What counts first, then second and third; people, stations, stock where left out. */
  readonly rank?: readonly ("people" | "stations" | "stock")[];
  /** Also blocks whose result joins the line at several tasks. */
  readonly joinsAtSeveral?: boolean;
  /** Refuse a task over the station limit, also where it is alone at a station. */
  readonly strictLimit?: boolean;
}

/** Blocks of tasks worth building at a bench beside the line, ranked, with what each changes. */
export type OffLineResult = ReturnType<typeof offLineDocument>;

/**
 * Which tasks may be built at an off-line sub-assembly station, and what each choice changes: people, stations, stock. What stays on the line
 * is balanced as `balance` does alone.
 *
 * @returns the JSON of `linepoise off-line`; refused with findings where nothing gives the pace
 * @throws UsageError for options that do not exist or cannot be read, and for a block with a task that the line does not have
 */
export async function offLine(line: Line, options: OffLineOptions = {}): Promise<OffLineResult | Refused> {
  checkOptions(options, [...PACE_OPTIONS, ...SEARCH_OPTIONS, ...OWN_OPTIONS]);
  const known = knownLine(line);
  const found = paceFor(known.line, options);
  if (!found.ok) return refuse("off-line", known.findings, [found.fault]);
  const answer = await answerOffLine(found.line, found.pace, found.takt, {
    ...limitsOf(options),
    ranks: options.rank === undefined ? RANKS : textOption("rank", options.rank.join(), readRanks),
    benches: countOption("benches", options.benches, 1) ?? 1,
    joinsAtSeveral: options.joinsAtSeveral === true,
    asked: options.blocks === undefined ? null : blocksOf(found.line, options.blocks),
    strictLimit: options.strictLimit === true,
  });
  return offLineDocument({ ...answer, findings: [...known.findings, ...answer.findings] }, null);
}

const OWN_OPTIONS = ["blocks", "benches", "rank", "joinsAtSeveral", "strictLimit"];

function blocksOf(line: InnerLine, blocks: readonly (readonly string[])[]): number[][] {
  if (blocks.some(({ length }) => length === 0))
    throw new UsageError("blocks: a block is empty; ids of tasks are expected");
  valueFor("blocks", tasksNamed(line, blocks.flat()));
  const found = blocks.map((ids) => [...new Set(valueFor("blocks", tasksNamed(line, ids)))]);
  const keys = found.map((block) => [...block].sort((one, two) => one - two).join());
  if (new Set(keys).size < keys.length)
    throw new UsageError("blocks: a block is given twice; once is expected");
  return found;
}
