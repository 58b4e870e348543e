import { mostShifts, shiftsOf } from "../../benches/bench-hours.js";
import { atShifts, type BenchFigures } from "../../benches/measure-bench.js";
import type { Line } from "../../line/line.js";
import type { Pace } from "../../time/pace.js";
import type { OtherHours } from "./off-line-answer.js";

/** More rows than these say nothing new. */
const MOST_ROWS = 4;

/** The same bench on one shift a day and more, as many as a day has room for, and those of the line and of the bench itself. */
export function otherHoursOf(line: Line, pace: Pace, bench: BenchFigures): OtherHours[] {
  const { shifts } = bench.hours;
  if (line.calendar === null || shifts === null) return [];
  const most = Math.min(MOST_ROWS, mostShifts(line));
  const counts = new Set([shiftsOf(line), shifts]);
  for (let count = 1; count <= most; count++) counts.add(count);
  return [...counts]
    .sort((one, two) => one - two)
    .map((count) => ({ bench: atShifts(line, pace, bench, count), isChosen: count === shifts }));
}
