import type { FloorStation, Line } from "../../line/line.js";
import type { Pace } from "../../time/pace.js";
import type { Plan, Station, StationSide } from "../plan.js";
import { floorStationOf, stationNumbers } from "../station-numbers.js";
import { lineOfStations } from "./scrap-at-benches.js";

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
  const sides = station.sides?.length === station.tasks.length ? station.sides : null;
  return {
    station,
    id: station.id,
    number,
    floor: floorStationOf(line, station.id),
    tasks: station.tasks.filter(isKnown),
    sides: sides?.filter((_, at) => isKnown(station.tasks[at])) ?? null,
  };
}
