import type { Line } from "../line/line.js";
import { type UnitKind, unitKinds } from "../line/unit-kinds.js";
import { moreOftenWithAllWork } from "../line/visits.js";
import { add, larger, multiply, ONE, type Ratio, ratio, subtract, ZERO } from "../time/ratio.js";
import type { Station } from "./plan.js";

/** What a task takes of its station for one unit, in microseconds. */
type Takes = (task: number) => Ratio;

/**
 * When each task of a station with sides starts for the first time, from the arrival of the unit, in microseconds; parallel to the
 * station's tasks. A task starts when its side is free and the tasks before it at the same station have ended. Units of each kind
 * have starts of their own: these are the mean of them, with a task that a unit does not have as one of no time. null without sides.
 */
export function taskStarts(line: Line, station: Station): Ratio[] | null {
  if (station.sides === null) return null;
  const ofKinds = sharesOf(line).flatMap((share, model) =>
    kindsAt(line, station).map((kind) =>
      startsOf(line, station, firstTakes(line, model, kind)).map((start) =>
        multiply(multiply(share, kind.share), start),
      ),
    ),
  );
  return station.tasks.map((_, at) => ofKinds.map((starts) => starts[at]!).reduce(add, ZERO));
}

/**
 * How long good units stay at a station on average, in microseconds: the sum of the loads; where it has sides, the share-weighted
 * mean of what each model takes. Every unit waits for its own longer side, so this is never less than the latest end of mean times.
 */
export function meanTimeAt(line: Line, station: Station): Ratio {
  if (station.sides === null) return sumAt(station, (task) => line.tasks[task]!.load);
  return sharesOf(line)
    .map((share, model) => multiply(share, modelTime(line, station, model)))
    .reduce(add, ZERO);
}

/**
 * How long a good unit of a model stays at a station on average, in microseconds: the sum of (task time + walking) x visits. With
 * sides, the mean latest end of the tasks that are due on its units, each done once, and what is done again in full: a unit that
 * failed or is scrapped later holds both sides while one works on it.
 */
export function modelTime(line: Line, station: Station, model: number): Ratio {
  if (station.sides === null) {
    return sumAt(station, (task) => multiply(handTime(line, task, model), visitsOf(line, task, model)));
  }
  return kindsAt(line, station)
    .map((kind) => multiply(kind.share, timeOfUnit(line, station, model, kind.isDue)))
    .reduce(add, ZERO);
}

/**
 * How long a unit of a model stays on which the work of just these numbers of units is due, in microseconds. What is done again is spread
 * over all units, so that the mean over the kinds of units is the time of the model.
 */
export function timeOfUnit(line: Line, station: Station, model: number, isDue: UnitKind["isDue"]): Ratio {
  const oftenWhenDue = (task: number) =>
    multiply(visitsOf(line, task, model), ratio(line.tasks[task]!.every));
  if (station.sides === null) {
    return sumAt(station, (task) =>
      isDue(line.tasks[task]!.every) ? multiply(handTime(line, task, model), oftenWhenDue(task)) : ZERO,
    );
  }
  const again = sumAt(station, (task) => {
    const extra = subtract(visitsOf(line, task, model), ratio(1, line.tasks[task]!.every));
    // Work that only a share of the units has is taken to be on all of them.
    return multiply(handTime(line, task, model), larger(ZERO, extra));
  });
  return add(again, latestEnd(line, station, firstTakes(line, model, { isDue })));
}

/** The same of a unit that gets all the work done on every so many units only. */
export function peakTimeAt(line: Line, station: Station, model: number): Ratio {
  const more = moreOftenWithAllWork(line);
  const often = (task: number) => {
    const column = line.tasks[task]!.times.length === 1 ? 0 : model;
    return multiply(visitsOf(line, task, model), more[task]![column]!);
  };
  const takes = (task: number) => handTime(line, task, model);
  if (station.sides === null) return sumAt(station, (task) => multiply(takes(task), often(task)));
  const again = sumAt(station, (task) => multiply(takes(task), larger(ZERO, subtract(often(task), ONE))));
  return add(latestEnd(line, station, takes), again);
}

const sharesOf = ({ models }: Line): readonly Ratio[] =>
  models.length === 0 ? [ONE] : models.map(({ share }) => share);

const kindsAt = (line: Line, { tasks }: Station): UnitKind[] =>
  unitKinds(tasks.map((task) => line.tasks[task]!.every));

const firstTakes =
  (line: Line, model: number, { isDue }: Pick<UnitKind, "isDue">): Takes =>
  (task) =>
    isDue(line.tasks[task]!.every) ? handTime(line, task, model) : ZERO;

/** Task time and walking of a model, 0 for a task that it does not have. */
function handTime(line: Line, task: number, model: number): Ratio {
  const { times, walking } = line.tasks[task]!;
  const own = times[times.length === 1 ? 0 : model]!;
  return own === null ? ZERO : ratio(own + walking);
}

function visitsOf(line: Line, task: number, model: number): Ratio {
  const { times, visits } = line.tasks[task]!;
  return visits[times.length === 1 ? 0 : model]!;
}

const sumAt = ({ tasks }: Station, takes: Takes): Ratio => tasks.map(takes).reduce(add, ZERO);

function latestEnd(line: Line, station: Station, takes: Takes): Ratio {
  return startsOf(line, station, takes)
    .map((start, at) => add(start, takes(station.tasks[at]!)))
    .reduce(larger, ZERO);
}

function startsOf(line: Line, { tasks, sides }: Station, takes: Takes): Ratio[] {
  const free = { left: ZERO, right: ZERO };
  const ends = new Map<number, Ratio>();
  return tasks.map((task, at) => {
    const used =
      sides![at] === "both" ? (["left", "right"] as const) : ([sides![at] as "left" | "right"] as const);
    const start = [
      ...used.map((side) => free[side]),
      ...line.before[task]!.map((earlier) => ends.get(earlier) ?? ZERO),
    ].reduce(larger, ZERO);
    const end = add(start, takes(task));
    for (const side of used) free[side] = end;
    ends.set(task, end);
    return start;
  });
}
