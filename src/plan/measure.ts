import type { Line } from "../line/line.js";
import type { Pace } from "../time/pace.js";
import type { Ratio } from "../time/ratio.js";
import type { Plan } from "./plan.js";
import * as figures from "./plan-figures.js";
import * as at from "./station-figures.js";

/** The figures of one station; times per unit in microseconds. */
export interface StationMeasures {
  readonly id: string;
  readonly tasks: readonly number[];
  readonly places: number;
  readonly crew: number;
  readonly operators: number;
  readonly stationTime: Ratio;
  readonly stationLimit: Ratio;
  readonly workingTime: Ratio;
  /** Station time / station limit. */
  readonly load: Ratio;
  readonly idle: Ratio;
  readonly overload: Ratio;
}

/** The figures of a whole plan, each from its one function; times in microseconds, null where not known. */
export interface PlanMeasures {
  readonly stations: number;
  readonly operators: number;
  /** Operators of all shifts of a day; null without a calendar. */
  readonly operatorsPerDay: number | null;
  readonly workContent: Ratio;
  readonly cycleOfPlan: Ratio;
  readonly slowestStation: string;
  readonly efficiencyAtPace: Ratio | null;
  readonly efficiencyAtSlowest: Ratio | null;
  readonly balanceDelayAtPace: Ratio | null;
  readonly balanceDelayAtSlowest: Ratio | null;
  readonly smoothness: number;
  readonly idlePerUnit: Ratio;
  readonly idlePerShift: Ratio | null;
  readonly outputPerShift: number | null;
}

export function measureStations(line: Line, pace: Pace, plan: Plan): StationMeasures[] {
  return plan.stations.map((station) => ({
    ...station,
    operators: at.operators(station),
    stationTime: at.stationTime(line, station),
    stationLimit: at.stationLimit(pace, station),
    workingTime: at.workingTime(pace, station),
    load: at.load(line, pace, station),
    idle: at.idleTime(line, pace, station),
    overload: at.overload(line, pace, station),
  }));
}

export function measurePlan(line: Line, pace: Pace, plan: Plan): PlanMeasures {
  const [atPace, atSlowest] = [
    figures.efficiencyAtPace(line, pace, plan),
    figures.efficiencyAtSlowest(line, pace, plan),
  ];
  return {
    stations: plan.stations.length,
    operators: figures.peopleOf(plan),
    operatorsPerDay: figures.peoplePerDay(line, plan),
    workContent: figures.workContent(line, plan),
    cycleOfPlan: figures.cycleOfPlan(line, pace, plan),
    slowestStation: figures.slowestStation(line, pace, plan).id,
    efficiencyAtPace: atPace,
    efficiencyAtSlowest: atSlowest,
    balanceDelayAtPace: figures.balanceDelay(atPace),
    balanceDelayAtSlowest: figures.balanceDelay(atSlowest),
    smoothness: figures.smoothness(line, pace, plan),
    idlePerUnit: figures.idlePerUnit(line, pace, plan),
    idlePerShift: figures.idlePerShift(line, pace, plan),
    outputPerShift: figures.outputPerShift(line, pace, plan),
  };
}
