import { requireExactSums, TimesTooLargeError } from "../solve/search/exact-sums.js";
import { type BenchmarkRow, MalformedRowError, readRow } from "./benchmark-row.js";

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
