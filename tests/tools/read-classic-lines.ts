import { readFileSync } from "node:fs";
import type { StationProblem } from "../../src/solve/problem.js";

/**
 * A line of the literature: whole task times, and arrows between tasks numbered from 1.
 * Source: A. Scholl, Data of Assembly Line Balancing Problems, Schriften zur Quantitativen Betriebswirtschaftslehre
 * 16/93, TH Darmstadt, 1993.
 */
export interface ClassicLine {
  readonly times: readonly number[];
  readonly precedence: readonly (readonly [number, number])[];
}

/** The least number of stations at a cycle; `proven` values were proved again by an independent search. */
export interface Optimum {
  readonly line: string;
  readonly limit: number;
  readonly stations: number;
  readonly status: "proven" | "literature";
}

/** The interval of the least cycle with a fixed number of stations. */
export interface LeastCycle {
  readonly line: string;
  readonly stations: number;
  readonly lower: number;
  readonly upper: number;
}

const read = (name: string): string => readFileSync(new URL(`../../shared/${name}`, import.meta.url), "utf8");

const rows = (name: string): string[][] =>
  read(name)
    .trimEnd()
    .split("\n")
    .slice(1)
    .map((row) => row.split(","));

export function readClassicLines(): ReadonlyMap<string, ClassicLine> {
  return new Map(Object.entries(JSON.parse(read("classic-lines.json")) as Record<string, ClassicLine>));
}

export function readOptima(): Optimum[] {
  return rows("classic-optima.csv").map(([line, limit, stations, status]) => ({
    line: line!,
    limit: Number(limit),
    stations: Number(stations),
    status: status as Optimum["status"],
  }));
}

export function readLeastCycles(): LeastCycle[] {
  return rows("classic-least-cycles.csv").map(([line, stations, lower, upper]) => ({
    line: line!,
    stations: Number(stations),
    lower: Number(lower),
    upper: Number(upper),
  }));
}

/** The line as a solver sees it, with tasks numbered from 0. */
export function toProblem(line: ClassicLine, limit: number): StationProblem {
  const before = line.times.map((): number[] => []);
  for (const [first, then] of line.precedence) before[then - 1]!.push(first - 1);
  return { times: line.times, limit, before: before.map((tasks) => tasks.sort((a, b) => a - b)) };
}
