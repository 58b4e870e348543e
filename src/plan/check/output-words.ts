import type { Line } from "../../line/line.js";
import { divide, multiply, type Ratio, ratio } from "../../time/ratio.js";
import { decimal } from "../../time/show-values.js";
import { MICROS_IN } from "../../time/units.js";
import { outputPerShiftAt } from "../plan-figures.js";

/**
 * "465 good units a shift instead of 482": what the line makes at its slowest instead of at its pace; null where that is the same
 * number.
 */
export function outputWords(line: Line, cycle: Ratio, lineCycle: Ratio): string | null {
  const [makes, wanted] = [outputPerShiftAt(line, cycle), outputPerShiftAt(line, lineCycle)];
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
