import type { StationProblem } from "../problem.js";
import type { WorkContentBound } from "./certificate.js";
import { ceilingDivision } from "./whole-numbers.js";

/** Work content divided by the limit, rounded up; at least one station when there is any task (Jackson 1956). */
export function workContentBound(problem: StationProblem): WorkContentBound {
  const { times, limit } = problem;
  const workContent = times.reduce((sum, each) => sum + each, 0);
  return {
    kind: "work-content",
    stations: Math.max(ceilingDivision(workContent, limit), Math.min(1, times.length)),
    tasks: [...times.keys()].filter((task) => times[task]! > 0),
    workContent,
    limit,
  };
}
