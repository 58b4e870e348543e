import type { Line } from "../line/line.js";
import {
  add,
  ceiling,
  compare,
  divide,
  floor,
  larger,
  leastCommonMultiple,
  multiply,
  ONE,
  type Ratio,
  ratio,
  ZERO,
} from "../time/ratio.js";
import { modelLoad } from "./model-load.js";
import { MOST_WORK_CONTENT } from "./search/exact-sums.js";
import { hasSchedules, machinesAgain, timesAgain, unitRows, weightsOf } from "./unit-rows.js";

/** Which way a time goes that is no whole number of parts: up for plans that must hold, down for what is ruled out. */
export type Rounding = "up" | "down";

/** The unit of times in every solver: a microsecond is cut into so many equal parts. */
interface TimeUnit {
  readonly parts: bigint;
  /** The load of every task is a whole number of parts; otherwise loads are rounded to a grid. */
  readonly isExact: boolean;
}

/**
 * Into how many equal parts a microsecond is cut so that the load of every task is a whole number of parts: the unit of
 * times in every solver. 1 on a plain line; more where shares of failures or of models make fractions. Where no such unit
 * keeps all sums of loads below 2^53 / 3, the largest power of ten that does: loads are then rounded to whole parts.
 */
export const partsOf = (line: Line): bigint => unitOf(line).parts;

/** Whether loads are whole numbers of parts, so that nothing is rounded. */
export const isCountedExactly = (line: Line): boolean => unitOf(line).isExact;

function unitOf(line: Line): TimeUnit {
  const known = UNITS.get(line) ?? chooseUnit(line);
  UNITS.set(line, known);
  return known;
}

/** Asked for with every time that is turned into parts or back. */
const UNITS = new WeakMap<Line, TimeUnit>();

function chooseUnit(line: Line): TimeUnit {
  const totals = [add(workOf(line), machineWorkOf(line)), ...modelWorkOf(line)];
  const most = totals.reduce(larger);
  const common = countParts(line);
  if (common !== null && compare(multiply(most, ratio(common)), ratio(MOST_WORK_CONTENT)) <= 0)
    return { parts: common, isExact: true };
  const room = floor(divide(ratio(MOST_ON_GRID), larger(most, ONE)));
  return { parts: 10n ** BigInt(Math.max(0, room.toString().length - 1)), isExact: false };
}

/** Loads that are whole numbers of these parts add up exactly. */
function workOf(line: Line): Ratio {
  return line.tasks.map(({ load, people }) => multiply(load, ratio(people))).reduce(add, ZERO);
}

/** What machines run by themselves, each kind of units with its share. */
function machineWorkOf(line: Line): Ratio {
  if (line.tasks.every(({ machineTime }) => machineTime === 0)) return ZERO;
  const weights = weightsOf(line);
  const once = unitRows(line).flatMap(({ model, ofModel, machines }) =>
    machines.map((each) => multiply(multiply(weights[model]!, ofModel), each)),
  );
  const done = machinesAgain(line).flatMap((times, model) =>
    times.map((each) => multiply(weights[model]!, each)),
  );
  return [...once, ...done].reduce(add, ZERO);
}

/** What each model takes in all, where it is looked at by itself. */
function modelWorkOf(line: Line): Ratio[] {
  if (line.modelOverload === null) return [];
  return line.models.map((_, model) =>
    line.tasks.map((_task, task) => modelLoad(line, task, model)).reduce(add, ZERO),
  );
}

/** Null where there are more parts than any sum of loads could be counted in. */
function countParts(line: Line): bigint | null {
  // Times of one model and runs of machines are looked at one by one, not only as a mean.
  const isSingle = line.modelOverload !== null || line.equipment.size > 0;
  const ofTasks = line.tasks.flatMap(({ load, visits }) => [
    load.den,
    ...(isSingle ? visits.map(({ den }) => den) : []),
  ]);
  let common = 1n;
  for (const den of [...ofTasks, ...(hasSchedules(line) ? partsOfSchedules(line) : [])]) {
    common = leastCommonMultiple(common, den);
    if (common > MOST_PARTS) return null;
  }
  return common;
}

/** No line has so little work that its loads could be counted in more. */
const MOST_PARTS = 10n ** 20n;

/** Sums of loads on a grid stay this small: below 2^53 / 3, with room for what is rounded up. */
const MOST_ON_GRID = 2n ** 51n;

/** Where stations are schedules, each model and each kind of its units counts with its share. */
function partsOfSchedules(line: Line): bigint[] {
  const weights = weightsOf(line);
  const densOf = (model: number, part: Ratio) => [part.den, multiply(weights[model]!, part).den];
  return [
    ...unitRows(line).flatMap(({ model, ofModel, times, machines }) =>
      [...times, ...machines].flatMap((each) => densOf(model, multiply(ofModel, each))),
    ),
    ...[timesAgain(line), machinesAgain(line)].flatMap((all) =>
      all.flatMap((times, model) => times.flatMap((each) => densOf(model, each))),
    ),
  ];
}

/** A number of parts as microseconds. */
export function fromParts(line: Line, parts: number): Ratio {
  return ratio(BigInt(parts), partsOf(line));
}

/** A time as a whole number of parts. */
export function wholeParts(line: Line, time: Ratio, rounding: Rounding): number {
  const exact = multiply(time, ratio(partsOf(line)));
  return Number(rounding === "up" ? ceiling(exact) : floor(exact));
}

/** The loads of all tasks in parts. */
export function loadsInParts(line: Line, rounding: Rounding = "up"): number[] {
  return line.tasks.map(({ load }) => wholeParts(line, load, rounding));
}

/** No station takes as much as this less than with loads rounded up, in microseconds; 0 where nothing is rounded. */
export function mostRounding(line: Line): Ratio {
  if (isCountedExactly(line)) return ZERO;
  const weights = weightsOf(line);
  const isScheduled = hasSchedules(line);
  // Every kind of units is rounded for itself, hands and machines, and so is what they do again.
  const rows = isScheduled ? 2 * (unitRows(line).length + weights.length) : 1;
  const least = isScheduled ? weights.reduce((one, two) => (compare(two, one) < 0 ? two : one)) : ONE;
  return divide(ratio((line.tasks.length + 1) * rows, partsOf(line)), least);
}

/** How many parts of the time the gap is one of, rounded down to a power of ten. */
export function partsWithin(time: Ratio, gap: Ratio): bigint {
  const parts = floor(divide(time, gap)).toString();
  return 10n ** BigInt(parts.length - 1);
}
