import type { StationProblem } from "../problem.js";
import type { LargeTasksBound } from "./certificate.js";

/** Tasks over half the limit, plus half of those that take exactly half, rounded up (Johnson 1988). */
export function largeTasksBound(problem: StationProblem): LargeTasksBound {
  const { times, limit } = problem;
  const select = (fits: (time: number) => boolean) => [...times.keys()].filter((task) => fits(times[task]!));
  const overHalf = select((time) => time > limit - time);
  const exactlyHalf = select((time) => time === limit - time);
  return {
    kind: "large-tasks",
    stations: overHalf.length + Math.ceil(exactlyHalf.length / 2),
    tasks: select((time) => time >= limit - time),
    overHalf,
    exactlyHalf,
  };
}
