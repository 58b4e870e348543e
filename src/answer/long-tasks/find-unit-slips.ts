import { type Finding, finding } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import type { Pace } from "../../time/pace.js";
import { compare, larger, multiply, type Ratio, ratio } from "../../time/ratio.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { MICROS_IN, TIME_UNITS, type TimeUnit } from "../../time/units.js";
import { MOST_PLACES } from "./room-for-tasks.js";

/** Times that look like a slip of the unit. */
export const findUnitSlips = (line: Line, pace: Pace): Finding[] => [
  ...unitSlip(line, pace),
  ...askAboutUnits(line, pace),
];

/** Asks about times that no number of places makes sense of, however often failures have the task done again. */
function askAboutUnits({ file, unit, tasks }: Line, pace: Pace): Finding[] {
  const show = showTimesIn(unit);
  const most = multiply(pace.workingTime, ratio(MOST_PLACES));
  return tasks.flatMap(({ id, times, place }) => {
    const time = ratio(Math.max(...times.map((own) => own ?? 0)));
    if (compare(time, most) <= 0) return [];
    const message = `${id} takes ${show(time)}, more than ${MOST_PLACES} times the working time (${show(pace.workingTime)}): is the unit right?`;
    return [finding({ rule: "unit-slip", severity: "warning", message, file, place, task: id })];
  });
}

/** Tells of a likely slip of the unit when most tasks are too long and all would fit in a smaller unit. */
function unitSlip(line: Line, pace: Pace): Finding[] {
  const { unit } = line;
  const tooLong = line.tasks.filter(({ load }) => compare(load, pace.workingTime) > 0);
  if (unit === null || 2 * tooLong.length <= line.tasks.length) return [];
  const longest = line.tasks.map((task) => task.load).reduce(larger);
  // What is a little too long is that, and no slip.
  if (compare(longest, multiply(pace.workingTime, ratio(5, 4))) <= 0) return [];
  const inOther = (other: TimeUnit) => multiply(longest, ratio(MICROS_IN[other], MICROS_IN[unit]));
  // A unit in which the longest task would be a trifle is no likely slip.
  const least = multiply(pace.workingTime, ratio(1, 5));
  const fits = TIME_UNITS.filter(
    (other) => compare(inOther(other), pace.workingTime) <= 0 && compare(inOther(other), least) >= 0,
  );
  const meant = fits.sort((one, two) => MICROS_IN[two] - MICROS_IN[one])[0];
  if (meant === undefined) return [];
  const smaller = timesShorter(ratio(MICROS_IN[unit], MICROS_IN[meant]));
  const message = `${tooLong.length} of ${line.tasks.length} tasks are longer than the working time; read in ${meant} (${smaller} times shorter) all would fit: was \`unit: ${meant}\` meant in place of \`unit: ${unit}\`?`;
  return [finding({ rule: "unit-slip", severity: "warning", message, file: line.file })];
}

function timesShorter(times: Ratio): string {
  return times.den === 1n ? String(times.num) : `${times.num}/${times.den}`;
}
