import { levelPlan } from "../../src/solve/level/level-plan.js";
import { squaredGaps } from "../../src/solve/level/squared-gaps.js";
import type { StationProblem, Stations } from "../../src/solve/problem.js";
import type { Checkpoint } from "../../src/solve/search/fewest-stations.js";
import { plainCycles } from "../../src/solve/search/least-limit.js";
import { MOST_STATES } from "../../src/solve/search/run-search.js";
import { stationsInRow } from "../../src/solve/search/two-way-search.js";

/** A plan of a plain line evened out, in its whole units; empty stations only where there are fewer tasks than stations. */
export async function levelStations(
  { times, before }: StationProblem,
  plan: Stations,
  { nodes }: { readonly nodes: number },
  checkpoint: Checkpoint,
) {
  const problem = plainCycles(times, before, Math.max(1, plan.length));
  const answer = await levelPlan(problem, stationsInRow(plan), { nodes, memory: MOST_STATES }, (progress) =>
    checkpoint({ ...progress, best: Number(progress.best), bound: Number(progress.bound) }),
  );
  const stations = answer.plan.map(({ blocks }) => blocks);
  const loads = stations.map((tasks) => tasks.reduce((sum, task) => sum + times[task]!, 0));
  const slowest = Number(answer.cycle);
  return {
    ...answer,
    stations: [...stations, ...Array.from({ length: plan.length - stations.length }, () => [])],
    slowest,
    slowestBound: Number(answer.bound.cycle),
    squaredGaps: squaredGaps(loads, slowest),
  };
}
