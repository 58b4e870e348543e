import { thousands } from "../../findings/count-of.js";
import type { Line } from "../../line/line.js";
import type { Ratio } from "../../time/ratio.js";
import { decimal } from "../../time/show-values.js";
import { outputPerShift, unitsPerHour } from "../figures/output.js";

/**
 * "465 good units a shift instead of 482": what the line makes at a cycle instead of at its pace; null where that is the same number.
 */
export function outputWords(line: Line, cycle: Ratio, lineCycle: Ratio): string | null {
  const [makes, wanted] = [outputPerShift(line, cycle), outputPerShift(line, lineCycle)];
  if (makes !== null && wanted !== null && makes !== wanted) {
    return `${thousands(makes)} good units a shift instead of ${thousands(wanted)}`;
  }
  const [perHour, wantedPerHour] = [cycle, lineCycle].map((each) => unitsPerHour(line, each));
  if (!perHour || !wantedPerHour) return null;
  const [shown, shownWanted] = [decimal(perHour, 2), decimal(wantedPerHour, 2)];
  return shown === shownWanted ? null : `${shown} good units an hour instead of ${shownWanted}`;
}
