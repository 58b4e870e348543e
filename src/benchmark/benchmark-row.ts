import { findLoops } from "../line/loops.js";
import type { StationProblem } from "../solve/problem.js";
import { requireExactSums, TimesTooLargeError } from "../solve/search/exact-sums.js";

/** One line of the benchmark, read and checked; tasks are numbered from 0. */
export interface BenchmarkRow {
  readonly name: string;
  readonly problem: StationProblem;
  /** The fewest stations lie between these, as published; null where nothing is. */
  readonly published: { readonly lower: number; readonly upper: number } | null;
}

/** A row that says something else than the format allows. */
export class MalformedRowError extends Error {}

/**
 * Reads `{"name","cycle","times":[...],"precedence":[[before,after],...],"published"?:{"lower","upper"}}`, tasks
 * numbered from 1. Throws MalformedRowError with what was found and what was expected.
 */
export function readRow(text: string): BenchmarkRow {
  const row = asObject(parseJson(text), "a row");
  const name = row.name;
  if (typeof name !== "string") throw unlike('"name"', name, "a text");
  const limit = asWhole(row.cycle, '"cycle"', 1, Number.MAX_SAFE_INTEGER);
  const times = asList(row.times, '"times"').map((time, at) =>
    asWhole(time, `the time of task ${at + 1}`, 0, limit),
  );
  if (times.length === 0) throw unlike('"times"', [], "at least one task time");
  const before = readArrows(row.precedence, times.length);
  const itself = before.findIndex((earlier, task) => earlier.includes(task));
  const [loop] = itself < 0 ? findLoops(before) : [[itself]];
  if (loop !== undefined) {
    const around = [...loop, loop[0]!].map((task) => task + 1);
    throw new MalformedRowError(`the arrows form a loop: ${around.join(" -> ")}`);
  }
  return { name, problem: { times, limit, before }, published: readPublished(row.published) };
}

/**
 * All rows of a file of JSON lines, empty lines left out. Throws MalformedRowError that begins with the line's number
 * when a row is malformed or too large to be solved exactly, and when there is no row at all.
 */
export function readRows(text: string): BenchmarkRow[] {
  const rows: BenchmarkRow[] = [];
  for (const [at, line] of text.split("\n").entries()) {
    if (line.trim() === "") continue;
    try {
      const row = readRow(line);
      requireExactSums(row.problem);
      rows.push(row);
    } catch (error) {
      if (!(error instanceof MalformedRowError || error instanceof TimesTooLargeError)) throw error;
      throw new MalformedRowError(`${at + 1}: ${error.message}`);
    }
  }
  if (rows.length === 0) throw new MalformedRowError("1: there is no row, expected at least one");
  return rows;
}

/** Rows 1, every + 1, 2 every + 1, ... */
export function takeEvery(rows: readonly BenchmarkRow[], every: number): BenchmarkRow[] {
  return rows.filter((_, at) => at % every === 0);
}

function readArrows(value: unknown, size: number): number[][] {
  const before: number[][] = Array.from({ length: size }, () => []);
  for (const pair of asList(value, '"precedence"')) {
    const ends = asList(pair, 'a pair of "precedence"');
    if (ends.length !== 2) throw unlike('a pair of "precedence"', pair, "[before, after]");
    const [earlier, later] = ends.map((end) => asWhole(end, `a task of the pair ${show(pair)}`, 1, size));
    before[later! - 1]!.push(earlier! - 1);
  }
  return before;
}

function readPublished(value: unknown): BenchmarkRow["published"] {
  if (value === undefined) return null;
  const bounds = asObject(value, '"published"');
  const lower = asWhole(bounds.lower, '"lower" of "published"', 0, Number.MAX_SAFE_INTEGER);
  const upper = asWhole(bounds.upper, '"upper" of "published"', lower, Number.MAX_SAFE_INTEGER);
  return { lower, upper };
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw new MalformedRowError(`this is no JSON: ${text.length > 40 ? `${text.slice(0, 40)}...` : text}`);
  }
}

function asObject(value: unknown, what: string): Record<string, unknown> {
  if (typeof value === "object" && value !== null && !Array.isArray(value))
    return value as Record<string, unknown>;
  throw unlike(what, value, "an object");
}

function asList(value: unknown, what: string): unknown[] {
  if (Array.isArray(value)) return value;
  throw unlike(what, value, "a list");
}

function asWhole(value: unknown, what: string, least: number, most: number): number {
  if (Number.isSafeInteger(value) && (value as number) >= least && (value as number) <= most)
    return value as number;
  throw unlike(what, value, `a whole number from ${least} to ${most}`);
}

function unlike(what: string, found: unknown, expected: string): MalformedRowError {
  return new MalformedRowError(
    `${what} is ${found === undefined ? "missing" : show(found)}, expected ${expected}`,
  );
}

function show(value: unknown): string {
  const text = JSON.stringify(value);
  return text.length > 40 ? `${text.slice(0, 40)}...` : text;
}
