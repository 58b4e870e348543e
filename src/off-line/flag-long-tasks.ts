import type { Line, Task } from "../line/line.js";
import { efficiencyAtPace, peopleOf } from "../plan/plan-figures.js";
import type { Balance, BalancingOptions } from "../solve/balance.js";
import { findImpossibleTasks, findLongTasks } from "../solve/station-problem.js";
import type { Pace } from "../time/pace.js";
import { compare, divide, floor, multiply, type Ratio, ratio } from "../time/ratio.js";
import { type ShowTime, showTimesIn } from "../time/show-in-unit.js";
import { decimal, percent } from "../time/show-values.js";
import { MICROS_IN } from "../time/units.js";
import { lineCycleFor, partsFor, placesFor } from "./bench.js";
import { findBlocks, inOrderOfWork, marksBase, timeOf } from "./find-blocks.js";
import type { OffLineFlag } from "./off-line-flag.js";
import { type BalanceWithPlaces, balanceWithPlaces } from "./with-places.js";

/** Flags every task that no station can hold, with the answers that exist, each with its number. */
export async function flagImpossibleTasks(
  line: Line,
  pace: Pace,
  options: BalancingOptions,
): Promise<OffLineFlag[]> {
  const tooLong = findImpossibleTasks(line, pace, options.strictLimit);
  if (tooLong.length === 0) return [];
  const doubled = await balanceWithPlaces(line, pace, options);
  return tooLong.map((at) => {
    const task = line.tasks[at]!;
    const answers = [
      parallelPlaces(line, pace, task, tooLong.length, doubled),
      ...otherAnswers(line, pace, at, tooLong, showTimesIn(line.unit)),
    ];
    return {
      ...flagOf(task),
      stationsAfter: doubled.plan.stations.length,
      peopleAfter: peopleOf(doubled.plan),
      outcome: doubled.balance.proved ? "proved" : "found",
      reason: answers.join("; "),
    };
  });
}

/** Flags every task between the station limit and the working time, which the plan holds alone. */
export function flagTightTasks(line: Line, pace: Pace, before: Balance): OffLineFlag[] {
  const stations = before.plan.stations.length;
  const { overLimit } = findLongTasks(line, pace);
  return overLimit.map((at) => ({
    ...flagOf(line.tasks[at]!),
    stationsBefore: stations,
    peopleBefore: peopleOf(before.plan),
    reason: otherAnswers(line, pace, at, overLimit, showTimesIn(line.unit)).join("; "),
  }));
}

export function flagOf(task: Task): OffLineFlag {
  return {
    kind: "over-limit",
    tasks: [task.id],
    joinsAt: null,
    stationsBefore: null,
    stationsAfter: null,
    peopleBefore: null,
    peopleAfter: null,
    outcome: null,
    freed: null,
    reason: "",
    details: "",
  };
}

function parallelPlaces(
  line: Line,
  pace: Pace,
  task: Task,
  long: number,
  doubled: BalanceWithPlaces,
): string {
  const { plan } = doubled;
  const efficiency = efficiencyAtPace(line, pace, plan);
  const share = efficiency === null ? "" : `, efficiency ${percent(efficiency)} at the pace`;
  const others = long > 1 ? ", with such places for every task that is too long" : "";
  const size = `${plan.stations.length} stations and ${peopleOf(plan)} people in all${share}${others}`;
  return `parallel places: ${placesFor(pace, task.load)}, units taken in turn (${size})`;
}

function otherAnswers(
  line: Line,
  pace: Pace,
  at: number,
  tooLong: readonly number[],
  show: ShowTime,
): string[] {
  const task = line.tasks[at]!;
  const parts = partsFor(pace, task.load);
  return [
    `split: ${parts} parts of at most ${show(pace.stationLimit)}`,
    bench(line, pace, at),
    slowerPace(line, pace, tooLong, show),
  ];
}

/** The smallest block that holds the task, or why there is none. */
function bench(line: Line, pace: Pace, at: number): string {
  const holding = findBlocks(line).filter((each) => each.tasks.includes(at));
  const [block] = holding.sort((one, two) => one.tasks.length - two.tasks.length);
  if (block === undefined) {
    return marksBase(line)
      ? "bench: no, it cannot be built away from the line"
      : "bench: not known, as no task says `on-base: true`";
  }
  const names = inOrderOfWork(line, block.tasks).map((task) => line.tasks[task]!.id);
  const places = placesFor(pace, timeOf(line, block.tasks));
  const where = `${places === 1 ? "1 place" : `${places} places`} for ${names.join(", ")}, joining at ${line.tasks[block.joinsAt]!.id}`;
  return `bench: ${where}${marksBase(line) ? "" : " (a guess, as no task says `on-base: true`)"}`;
}

/** The pace at which the longest of these tasks fits one place; every shorter one then fits as well. */
function slowerPace(line: Line, pace: Pace, tooLong: readonly number[], show: ShowTime): string {
  const longest = tooLong
    .map((at) => line.tasks[at]!)
    .reduce((one, two) => (compare(two.load, one.load) > 0 ? two : one));
  const needed = lineCycleFor(pace, longest.load);
  const sets = tooLong.length === 1 ? "" : ` (${longest.id} needs it)`;
  return `slower pace: a line cycle of ${show(needed)}${sets}, ${rateAt(line, pace, needed)}`;
}

/** What the line then makes: good units in the demand's own period, or units per hour where only a cycle was given. */
export function rateAt(line: Line, pace: Pace, lineCycle: Ratio): string {
  const { demand } = line;
  if (demand === null) {
    return `${decimal(divide(ratio(MICROS_IN.h), lineCycle), 1)} units per hour`;
  }
  const units = multiply(demand.units, divide(pace.lineCycle, lineCycle));
  return `${floor(units)} good units per ${demand.period} instead of ${decimal(demand.units, 2)}`;
}
