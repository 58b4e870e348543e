import { type Bound, staticBounds } from "../bounds/bound.js";
import { type Cost, costOf, STATIONS_FIRST } from "../cost.js";
import { orderOfWork, positionalWeights } from "../order-of-work.js";
import type { StationProblem, Stations } from "../problem.js";
import { plainWork } from "../work.js";
import { MOST_STATES, runSearch } from "./run-search.js";
import { stationsInRow } from "./two-way-search.js";

export interface SearchLimits {
  /** Partial plans looked at; closing stations has a share, each direction half of the rest, whatever the other does. */
  readonly nodes: number;
  /** Partial plans remembered, shared in the same way; MOST_STATES when left out. */
  readonly memory?: number;
}

/** Called every few milliseconds of work: a reason to stop, or null to go on. */
export type Checkpoint = (progress: {
  readonly nodes: number;
  readonly best: number;
  readonly bound: number;
}) => Promise<"time" | "interrupted" | null> | ("time" | "interrupted" | null);

export interface SearchAnswer {
  /** The best plan known, at worst the first one; tasks of a station in order of work. */
  readonly stations: Stations;
  readonly bound: Bound;
  readonly nodes: number;
  readonly ended: "proved" | "nodes" | "time" | "interrupted" | "memory";
}

/**
 * The least number of stations (the simple assembly line balancing problem, SALBP-1). `first` is a valid plan to improve
 * on. The answer depends on the problem, the plan and the limits alone, unless the checkpoint stops the search.
 * Throws TimesTooLargeError when sums of the task times may not be exact.
 */
export async function fewestStations(
  problem: StationProblem,
  first: Stations,
  limits: SearchLimits,
  checkpoint: Checkpoint,
): Promise<SearchAnswer> {
  const simple = staticBounds(problem)[0]!;
  const plan = stationsInRow(first);
  const start = { ceiling: costOf(plan), aim: STATIONS_FIRST, least: alone(simple.stations), plan } as const;
  const { nodes, memory = MOST_STATES } = limits;
  const answer = await runSearch(plainWork(problem), start, { nodes, memory }, (progress) =>
    checkpoint({
      nodes: progress.nodes,
      best: progress.ceiling.stations,
      bound: progress.bound.stations,
    }),
  );
  const weights = positionalWeights(problem);
  const bound = answer.bound.stations;
  return {
    stations: answer.plan!.map(({ blocks }) => orderOfWork(problem, weights, blocks)),
    bound:
      bound > simple.stations ? { kind: "search", stations: bound, tasks: [], nodes: answer.nodes } : simple,
    nodes: answer.nodes,
    ended: answer.ended === "first" ? "proved" : answer.ended,
  };
}

/** One person at each station. */
export const alone = (stations: number): Cost => ({ people: stations, stations });
