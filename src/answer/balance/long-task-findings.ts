import { type Finding, finding } from "../../findings/finding.js";
import type { Line, Task } from "../../line/line.js";
import { shiftTime } from "../../plan/figures/output.js";
import { workingTimeAlone } from "../../plan/figures/working-time.js";
import { workedAgainWords } from "../../plan/worked-again.js";
import { findLongTasks } from "../../solve/station-problem.js";
import type { Pace } from "../../time/pace.js";
import { compare, divide, larger, multiply, type Ratio, ratio, ZERO } from "../../time/ratio.js";
import { showTimesApart, showTimesIn } from "../../time/show-in-unit.js";
import { percentOfAll } from "../../time/show-values.js";
import { MICROS_IN, TIME_UNITS, type TimeUnit } from "../../time/units.js";
import { MOST_PLACES } from "../long-tasks/room-for-tasks.js";

/** An error for each task that no station can hold, a warning for each that stands alone, and the likely slip of a unit. */
export function findLongTaskFaults(line: Line, pace: Pace, strictLimit: boolean): Finding[] {
  const { overLimit, overWorkingTime } = findLongTasks(line, pace);
  const about = (at: number) => {
    const { id, place } = line.tasks[at]!;
    return { task: id, file: line.file, place };
  };
  const impossible = overWorkingTime.map((at) => {
    const { id, load } = line.tasks[at]!;
    const alone = workingTimeAlone(line, pace, at);
    const [takes, working] = showTimesApart(line.unit, load, alone);
    const what =
      compare(alone, ZERO) > 0
        ? `${percentOfAll(divide(load, alone))} of the working time (${working})`
        : "and handling leaves it no working time";
    const again = workedAgainWords(line, [at]);
    const message = `${id} takes ${takes}${again}, ${what}: no station can hold it`;
    return finding({ rule: "over-working-time", severity: "error", message, ...about(at) });
  });
  const tight = overLimit.map((at) => {
    const then = strictLimit ? "refused by --strict-limit" : "placed alone";
    const workingTime = workingTimeAlone(line, pace, at);
    const may = { workingTime, stationLimit: multiply(workingTime, pace.planTo) };
    const message = `${tightWords(line, line.tasks[at]!, may)}: ${then}`;
    return finding({
      rule: "over-limit",
      severity: strictLimit ? "error" : "warning",
      message,
      ...about(at),
    });
  });
  return [...unitSlip(line, pace, overWorkingTime), ...impossible, ...tight, ...askAboutUnits(line, pace)];
}

/** "a takes 58 s, 96.7 % of the working time (60 s) and 101.8 % of the station limit (57 s)". */
export function tightWords(
  line: Line,
  { id, load }: Pick<Task, "id" | "load">,
  { workingTime, stationLimit }: Pick<Pace, "workingTime" | "stationLimit">,
): string {
  const [takes, working, limit] = showTimesApart(line.unit, load, workingTime, stationLimit);
  const again = workedAgainWords(line, [line.tasks.findIndex((each) => each.id === id)]);
  const [ofWorking, ofLimit] = [workingTime, stationLimit].map((most) => percentOfAll(divide(load, most)));
  return `${id} takes ${takes}${again}, ${ofWorking} of the working time (${working}) and ${ofLimit} of the station limit (${limit})`;
}

/** Asks about times that no number of places makes sense of, however often failures have the task done again. */
export function askAboutUnits({ file, unit, tasks }: Line, pace: Pace): Finding[] {
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
function unitSlip(line: Line, pace: Pace, tooLong: readonly number[]): Finding[] {
  const { unit } = line;
  if (unit === null || 2 * tooLong.length <= line.tasks.length) return [];
  const longest = line.tasks.map((task) => task.load).reduce(larger);
  const inOther = (other: TimeUnit) => multiply(longest, ratio(MICROS_IN[other], MICROS_IN[unit]));
  // A unit in which the longest task would be a trifle is no likely slip.
  const least = multiply(pace.workingTime, ratio(1, 5));
  const fits = TIME_UNITS.filter(
    (other) => compare(inOther(other), pace.workingTime) <= 0 && compare(inOther(other), least) >= 0,
  );
  const meant = fits.sort((one, two) => MICROS_IN[two] - MICROS_IN[one])[0];
  if (meant === undefined) return [];
  const smaller = timesShorter(ratio(MICROS_IN[unit], MICROS_IN[meant]));
  const message = `${tooLong.length} of ${line.tasks.length} tasks are longer than the working time; read in ${meant} (${smaller} times shorter) all would fit: is \`unit: ${unit}\` a slip for \`unit: ${meant}\`?`;
  return [finding({ rule: "unit-slip", severity: "warning", message, file: line.file })];
}

function timesShorter(times: Ratio): string {
  return times.den === 1n ? String(times.num) : `${times.num}/${times.den}`;
}

/** Says why a figure per shift is missing where shifts have different available times. */
export function findShiftNotes(line: Line): Finding[] {
  if (line.calendar === null || shiftTime(line) !== null) return [];
  const message = "the shifts have different available times, so no single figure per shift is given";
  const fact = { kind: "shifts-differ" } as const;
  return [finding({ rule: "shifts-differ", severity: "note", message, file: line.file, fact })];
}
