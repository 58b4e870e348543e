import type { FloorStation, Line, Task, Test } from "../../line/line.js";
import { visitsOfLine } from "../../line/visits.js";
import type { Pace } from "../../time/pace.js";
import type { Ratio } from "../../time/ratio.js";
import type { Plan, Station, StationSide } from "../plan.js";
import { floorStationOf, stationNumbers } from "../station-numbers.js";
import { addUp } from "./whole-times.js";

/** A plan beside the line that it is for, as every check reads it. */
export interface PlanView {
  /** Without what its benches scrap in the loads of stations. */
  readonly line: Line;
  readonly pace: Pace;
  readonly plan: Plan;
  readonly strictLimit: boolean;
  readonly stations: readonly StationView[];
  /** Benches beside the line; they have no number along the floor. */
  readonly benches: readonly StationView[];
  /** The first station that holds each task. */
  readonly stationOf: ReadonlyMap<number, StationView>;
  /** Whether the product is worked from two sides. */
  readonly isSided: boolean;
}

export interface StationView {
  readonly station: Station;
  readonly id: string;
  /** Along the floor, from 0. */
  readonly number: number;
  /** null behind the floor. */
  readonly floor: FloorStation | null;
  /** Tasks that the line has, in order of work. */
  readonly tasks: readonly number[];
  /** The side of each of `tasks`; null where the plan gives none, or not one for each task. */
  readonly sides: readonly StationSide[] | null;
  /** Who does each of `tasks`; null where the plan does not say it of each task. */
  readonly persons: readonly (readonly number[])[] | null;
}

export function viewPlan(given: Line, pace: Pace, plan: Plan, strictLimit: boolean): PlanView {
  const line = lineOfStations(given, new Set(plan.benches?.flatMap(({ tasks }) => tasks)));
  const numbers = stationNumbers(line, plan);
  const stations = plan.stations.map((station, at) => viewStation(line, station, numbers[at]!));
  const benches = (plan.benches ?? []).map((bench) => ({ ...viewStation(line, bench, -1), floor: null }));
  const stationOf = new Map<number, StationView>();
  for (const each of stations)
    for (const task of each.tasks) if (!stationOf.has(task)) stationOf.set(task, each);
  const isSided = line.tasks.some(({ side }) => side !== null);
  return { line, pace, plan, strictLimit, stations, benches, stationOf, isSided };
}

function viewStation(line: Line, station: Station, number: number): StationView {
  const isKnown = (task: number | undefined) => task !== undefined && line.tasks[task] !== undefined;
  const ofEach = <Said>(said: readonly Said[] | null): readonly Said[] | null =>
    said?.length === station.tasks.length ? said.filter((_, at) => isKnown(station.tasks[at])) : null;
  return {
    station,
    id: station.id,
    number,
    floor: floorStationOf(line, station.id),
    tasks: station.tasks.filter(isKnown),
    sides: ofEach(station.sides),
    persons: ofEach(station.persons),
  };
}

/**
 * The line with the loads of its stations as the benches of a plan leave them: what a test at a bench scraps are loose parts, and no
 * unit of the line is started, nor anything done again on one, for those. Loads that count no such scrap are left alone.
 */
function lineOfStations(line: Line, atBenches: ReadonlySet<number>): Line {
  const tests = line.tasks.map(({ test }, at) => (atBenches.has(at) ? keepParts(test) : test));
  if (tests.every((test, at) => test === line.tasks[at]!.test)) return line;
  const kept = { ...line, tasks: line.tasks.map((task, at) => ({ ...task, test: tests[at]! })) };
  const [all, units] = [visitsOfLine(line).visits, visitsOfLine(kept).visits];
  const tasks = line.tasks.map((task, at) =>
    atBenches.has(at) || !isAlike(task.visits, all[at]!) || isAlike(all[at]!, units[at]!)
      ? task
      : visited(line, task, units[at]!),
  );
  return { ...line, tasks };
}

/** The same test with nothing scrapped. */
function keepParts(test: Test | null): Test | null {
  if (test === null) return null;
  if (test.failures === "scrapped") return { failures: "scrapped", scrap: { num: 0n, den: 1n } };
  return test.retest === "scrap" ? { ...test, retest: "once" } : test;
}

const isAlike = (one: readonly Ratio[], two: readonly Ratio[]): boolean =>
  one.every(({ num, den }, at) => num * two[at]!.den === two[at]!.num * den);

/** The task with these visits: its load changes by the time that they save. */
function visited(line: Line, task: Task, visits: readonly Ratio[]): Task {
  const saved = task.times.map((own, model): Ratio => {
    const [was, is] = [task.visits[model]!, visits[model]!];
    const share = line.models[model]?.share ?? { num: 1n, den: 1n };
    const once = BigInt(own === null ? 0 : own + task.walking);
    const num = once * share.num * (is.num * was.den - was.num * is.den);
    return { num, den: share.den * is.den * was.den };
  });
  return { ...task, visits, load: addUp([task.load, ...saved]) };
}
