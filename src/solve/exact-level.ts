import type { Line } from "../line/line.js";
import { add, compare, divide, larger, type Ratio, ratio, subtract, ZERO } from "../time/ratio.js";
import type { LevelAnswer } from "./level/level-stations.js";
import { fromParts, isCountedExactly, mostRounding, partsWithin } from "./parts.js";

/** What even loads come to with loads as they are, in microseconds. */
export interface ExactLevel {
  /** The longest station time. */
  readonly slowest: Ratio;
  /** No plan with so many stations has a shorter longest station. */
  readonly bound: Ratio;
  readonly outcome: "proved" | "found";
  /** The search came to its end, and only rounding is left: a shorter one is at most one part in so many shorter. */
  readonly within: bigint | null;
}

/** Stations evened out by time alone, whose loads may have been rounded up: no station of any plan grew by more than all tasks did. */
export function exactLevel(line: Line, level: LevelAnswer): ExactLevel {
  const { slowest, slowestBound, outcome, stations } = level;
  if (isCountedExactly(line))
    return {
      slowest: fromParts(line, slowest),
      bound: fromParts(line, slowestBound),
      outcome,
      within: null,
    };
  const loads = line.tasks.map(({ load }) => load);
  const shared = divide(loads.reduce(add, ZERO), ratio(stations.length));
  const longest = stations
    .map((tasks) => tasks.map((task) => loads[task]!).reduce(add, ZERO))
    .reduce(larger, ZERO);
  const bound = [subtract(fromParts(line, slowestBound), mostRounding(line)), shared, ...loads].reduce(
    larger,
  );
  const isMet = compare(bound, longest) >= 0;
  return {
    slowest: longest,
    bound,
    outcome: isMet ? "proved" : "found",
    within: isMet || outcome !== "proved" ? null : partsWithin(longest, subtract(longest, bound)),
  };
}
