import type { StationProblem } from "../solve/problem.js";
import { MalformedRowError, readRow } from "./benchmark-row.js";

/** A line with a fixed number of stations, and the interval of its least cycle as published. */
export interface LeastCase {
  readonly name: string;
  readonly times: StationProblem["times"];
  readonly before: StationProblem["before"];
  readonly stations: number;
  readonly lower: number;
  readonly upper: number;
}

/**
 * Reads a JSON object of lines by name, each `{"times":[...],"precedence":[[before,after],...]}` with tasks numbered from 1
 * and more keys allowed. Throws MalformedRowError that names the line.
 */
export function readGraphs(text: string): ReadonlyMap<string, StationProblem> {
  let lines: unknown;
  try {
    lines = JSON.parse(text);
  } catch {
    throw new MalformedRowError(" this is no JSON");
  }
  const graphs = new Map<string, StationProblem>();
  for (const [name, line] of Object.entries(lines ?? {})) {
    try {
      graphs.set(name, readRow(JSON.stringify({ ...line, name, cycle: Number.MAX_SAFE_INTEGER })).problem);
    } catch (error) {
      if (!(error instanceof MalformedRowError)) throw error;
      throw new MalformedRowError(` line ${name}: ${error.message}`);
    }
  }
  return graphs;
}

/**
 * Reads cases: a header, then rows of `line,stations,lower,upper` with more columns allowed. Throws MalformedRowError that
 * begins with the row's number.
 */
export function readLeastCases(text: string, graphs: ReadonlyMap<string, StationProblem>): LeastCase[] {
  const rows = text.split("\n").slice(1);
  const cases = rows.flatMap((row, at) => (row.trim() === "" ? [] : [readCase(row.trim(), at + 2, graphs)]));
  if (cases.length === 0) throw new MalformedRowError("2: there is no row, expected at least one");
  return cases;
}

function readCase(row: string, number: number, graphs: ReadonlyMap<string, StationProblem>): LeastCase {
  const [name = "", ...columns] = row.split(",");
  const graph = graphs.get(name);
  if (graph === undefined) throw new MalformedRowError(`${number}: there is no line ${name}`);
  const [stations = 0, lower = 0, upper = 0] = columns.map(Number);
  if (![stations, lower, upper].every((each) => Number.isSafeInteger(each) && each > 0) || lower > upper)
    throw new MalformedRowError(
      `${number}: ${row}, expected line,stations,lower,upper in whole numbers from 1`,
    );
  const { times, before } = graph;
  return { name: `${name} ${stations}`, times, before, stations, lower, upper };
}
