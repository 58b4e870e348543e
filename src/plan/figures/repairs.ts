import type { Line } from "../../line/line.js";
import type { Pace } from "../../time/pace.js";
import { add, ceiling, compare, divide, multiply, type Ratio, ratio, ZERO } from "../../time/ratio.js";

/** Repairs after one test. */
export interface RepairLoad {
  /** Task number of the test. */
  readonly test: number;
  /** Repairs per good unit. */
  readonly repairs: Ratio;
  /** Repairs x time of one repair: work per good unit off the line, in microseconds. */
  readonly work: Ratio;
}

/**
 * The repair work that each test sends off the line.
 *
 * @param repairs repairs per good unit by task number; null for a task that sends nothing to repair
 */
export function repairLoads(line: Line, repairs: readonly (Ratio | null)[]): RepairLoad[] {
  return line.tasks.flatMap(({ test }, at) => {
    const each = repairs[at] ?? null;
    if (test?.failures !== "repaired" || each === null) return [];
    return [{ test: at, repairs: each, work: multiply(each, ratio(test.repair)) }];
  });
}

/**
 * People who repair beside the line = sum of repair work / line cycle, rounded up. The whole line cycle counts, without handling
 * and plan-to: repairs are not tied to the pace of a station.
 */
export function repairPeople(line: Line, pace: Pace, repairs: readonly (Ratio | null)[]): number | null {
  const all = repairLoads(line, repairs)
    .map(({ work }) => work)
    .reduce(add, ZERO);
  return compare(pace.lineCycle, ZERO) > 0 ? Number(ceiling(divide(all, pace.lineCycle))) : null;
}
