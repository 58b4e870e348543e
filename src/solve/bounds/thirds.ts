import type { StationProblem } from "../problem.js";
import type { ThirdsBound } from "./certificate.js";

/**
 * Shares of a station by thirds of the limit (Johnson 1988; Scholl & Klein 1997): two tasks over a third fill a
 * station, three of exactly a third, one over two thirds, one of exactly two thirds with one of exactly a third.
 */
export function thirdsBound(problem: StationProblem): ThirdsBound {
  const { times, limit } = problem;
  const select = (fits: (time: number) => boolean) => [...times.keys()].filter((task) => fits(times[task]!));
  // Comparisons with limit / 3 and 2 limit / 3, written so that every difference stays exact.
  const overTwoThirds = select((time) => time - (limit - time) > limit - time);
  const exactlyTwoThirds = select((time) => time - (limit - time) === limit - time);
  const exactlyOneThird = select((time) => time === limit - time - time);
  const betweenThirds = select((time) => time > limit - time - time && time - (limit - time) < limit - time);
  const sixths =
    6 * overTwoThirds.length +
    4 * exactlyTwoThirds.length +
    3 * betweenThirds.length +
    2 * exactlyOneThird.length;
  return {
    kind: "thirds",
    stations: Math.ceil(sixths / 6),
    tasks: select((time) => time >= limit - time - time),
    overTwoThirds,
    exactlyTwoThirds,
    betweenThirds,
    exactlyOneThird,
    sixths,
  };
}
