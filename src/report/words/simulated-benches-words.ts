import { countOf } from "../../findings/count-of.js";
import type { SimulatedBench, StockCourse } from "../../simulate/simulated-benches.js";
import { signOf } from "../../time/show-numbers.js";
import { clockOfDay, decimal, percent, toMinutes } from "../../time/show-values.js";

/** What waiting means in tables of stations. */
export const WAITS_WORDS = "waits: its unit is there, and what it needs is not";

/** What a bench does, and how many units waited for it. */
export function benchWords({ waiting, shares, room }: SimulatedBench): string {
  const stops =
    signOf(shares.blocked) === 0
      ? ""
      : ` It is full, and the bench stops, ${percent(shares.blocked)} of its time.`;
  const full = ` The room holds ${countOf(room, "set")}.${stops}`;
  const wait = decimal(waiting, 2);
  if (signOf(waiting) === 0) return `No unit waits for its parts.${full}`;
  if (wait === "0") return `Units hardly ever wait at the line for its parts.${full}`;
  return `On average ${wait} ${wait === "1" ? "unit waits" : "units wait"} at the line for its parts.${full}`;
}

/** "06:00", or the time since the first shift began; where there are no days, when the part ends. */
export function courseWords({ starts, isByHour }: SimulatedBench, { from, to }: StockCourse): string {
  if (!isByHour) return toMinutes(to);
  return starts === null ? toMinutes(from) : clockOfDay(starts + from);
}

/** How many parts are followed, and how many of them held units up. */
export const partsWords = (followed: number, short: number): string =>
  short === 0
    ? `The containers of ${countOf(followed, "part")} are followed; no unit waits for any.`
    : `The containers of ${countOf(followed, "part")} are followed: those that stand full beside the one in use. Units waiting are means over the hours watched.`;
