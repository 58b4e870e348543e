import type { Line } from "../../line/line.js";
import { compare, divide, floor, multiply, type Ratio, ratio, ZERO } from "../../time/ratio.js";
import { decimal } from "../../time/show-values.js";
import { MICROS_IN } from "../../time/units.js";
import { shiftTime } from "../plan-figures.js";

/** Whole good units of a shift when one leaves the line every so often; null where shifts are not known or differ. */
export function unitsPerShiftAt(line: Line, cycle: Ratio): number | null {
  const available = shiftTime(line);
  if (available === null || compare(cycle, ZERO) <= 0) return null;
  return Number(floor(divide(running(line, ratio(available)), cycle)));
}

/**
 * "465 good units a shift instead of 482": what the line makes at its slowest instead of at its pace; null where that is the same
 * number.
 */
export function outputWords(line: Line, cycle: Ratio, lineCycle: Ratio): string | null {
  const [makes, wanted] = [unitsPerShiftAt(line, cycle), unitsPerShiftAt(line, lineCycle)];
  if (makes !== null && wanted !== null && makes !== wanted) {
    return `${makes} good units a shift instead of ${wanted}`;
  }
  const perHour = (each: Ratio) => decimal(divide(running(line, ratio(MICROS_IN.h)), each), 2);
  if (perHour(cycle) === perHour(lineCycle)) return null;
  return `${perHour(cycle)} good units an hour instead of ${perHour(lineCycle)}`;
}

/** Available time less what the line stands and what is scrapped. */
const running = (line: Line, available: Ratio): Ratio =>
  multiply(multiply(available, line.uptime), line.yield);
