import type { StationProblem } from "../problem.js";
import type { BinPackingBound } from "./certificate.js";
import { thresholdBound } from "./threshold.js";

/** Bound L2 of Martello & Toth (1990) at its best threshold, with the tasks behind it. */
export function binPackingBound(problem: StationProblem): BinPackingBound {
  const { times, limit } = problem;
  const { stations, threshold } = thresholdBound(
    [...times].sort((one, two) => two - one),
    times.length,
    limit,
  );
  const select = (fits: (time: number) => boolean) => [...times.keys()].filter((task) => fits(times[task]!));
  const isLarge = (time: number) => time > limit - time;
  const alone = select((time) => isLarge(time) && time > limit - threshold);
  const overHalf = select((time) => isLarge(time) && time <= limit - threshold);
  const filling = threshold > 0 ? select((time) => !isLarge(time) && time >= threshold) : [];
  return {
    kind: "bin-packing",
    stations,
    tasks: [...alone, ...overHalf, ...filling].sort((one, two) => one - two),
    threshold,
    alone,
    overHalf,
    filling,
    fillingWork: filling.reduce((sum, task) => sum + times[task]!, 0),
    room: overHalf.reduce((sum, task) => sum + (limit - times[task]!), 0),
  };
}
