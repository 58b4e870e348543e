import type { Line } from "../line/line.js";
import { repairsPerGoodUnit } from "../line/visits.js";
import type { Pace } from "../time/pace.js";
import type { Ratio } from "../time/ratio.js";
import * as kinds from "./kinds-of-time.js";
import { type WorstModel, worstModel } from "./model-figures.js";
import type { Plan, Station } from "./plan.js";
import * as figures from "./plan-figures.js";
import { type RepairLoad, repairLoads, repairPeople } from "./repair-figures.js";
import * as at from "./station-figures.js";
import {
  equipmentNeeded,
  type LimitUse,
  limitsUsed,
  type NeededEquipment,
  skillsNeeded,
} from "./station-needs.js";
import { taskStarts } from "./task-starts.js";
import { type ValueShare, valueShares } from "./value-shares.js";
import { leadTime, leadTimeOfWaits, type WaitingUnits, waitingUnits } from "./wait-figures.js";

/** The figures of one station; times per good unit in microseconds; null where the line has nothing of the kind. */
export interface StationMeasures extends Station {
  readonly operators: number;
  readonly stationTime: Ratio;
  readonly stationLimit: Ratio;
  readonly workingTime: Ratio;
  /** Station time / station limit. */
  readonly load: Ratio;
  readonly idle: Ratio;
  readonly overload: Ratio;
  /** Hand work without walking; null on a line with neither walking nor machines, where it is all of the work. */
  readonly manualTime: Ratio | null;
  readonly walkingTime: Ratio | null;
  readonly machineTime: Ratio | null;
  /** Station time with the work of every n-th unit in full; null at a station without such work. */
  readonly peakTime: Ratio | null;
  readonly worstModel: WorstModel | null;
  /** When each task starts, parallel to `tasks`; null on a line without sides. */
  readonly starts: readonly Ratio[] | null;
  readonly skills: readonly string[] | null;
  readonly equipment: readonly NeededEquipment[] | null;
  /** Null on a line without limits. */
  readonly uses: readonly LimitUse[] | null;
}

export interface UnequalShifts {
  /** Idle time of all stations in a day, in microseconds. */
  readonly idlePerDay: Ratio;
  readonly output: readonly figures.ShiftOutput[];
}

/** The figures of a whole plan, each from its one function; times in microseconds, null where not known or not applicable. */
export interface PlanMeasures {
  readonly stations: number;
  /** People on the line; who repairs beside it is not among them. */
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
  /** What the figures of a shift are where shifts differ in length: of a day, and of each shift by name; null where they are alike. */
  readonly ofUnequalShifts: UnequalShifts | null;
  /** From the first station to the end of the line, waits included. */
  readonly leadTime: Ratio;
  /** What waits add to the lead time; null where nothing waits. */
  readonly leadTimeOfWaits: Ratio | null;
  /** Units and fixtures in each wait; null where nothing waits. */
  readonly waiting: readonly WaitingUnits[] | null;
  /** By test; null where nothing is repaired. */
  readonly repairs: readonly RepairLoad[] | null;
  readonly repairPeople: number | null;
  /** null where no task says its kind of work. */
  readonly valueShares: readonly ValueShare[] | null;
}

export function measureStations(line: Line, pace: Pace, plan: Plan): StationMeasures[] {
  const has = (has: (task: Line["tasks"][number]) => boolean) => line.tasks.some(has);
  const hasWalking = has(({ walking }) => walking > 0);
  const hasMachines = has((task) => task.machineTime > 0);
  const hasSkills = has(({ skills }) => skills.length > 0);
  const hasEquipment = has(({ equipment }) => equipment.length > 0);
  const hasUses = has(({ uses }) => uses.length > 0);
  return plan.stations.map((station) => ({
    ...station,
    operators: at.operators(station),
    stationTime: at.stationTime(line, station),
    stationLimit: at.stationLimit(line, pace, station),
    workingTime: at.workingTime(pace, station),
    load: at.load(line, pace, station),
    idle: at.idleTime(line, pace, station),
    overload: at.overload(line, pace, station),
    manualTime: hasWalking || hasMachines ? kinds.manualTime(line, station) : null,
    walkingTime: hasWalking ? kinds.walkingTime(line, station) : null,
    machineTime: hasMachines ? kinds.machineTime(line, station) : null,
    peakTime: station.tasks.some((task) => line.tasks[task]!.every > 1)
      ? kinds.peakTime(line, station)
      : null,
    worstModel: worstModel(line, pace, station),
    starts: taskStarts(line, station),
    skills: hasSkills ? skillsNeeded(line, station) : null,
    equipment: hasEquipment ? equipmentNeeded(line, pace, station) : null,
    uses: hasUses ? limitsUsed(line, station) : null,
  }));
}

/** The figures of a day and of each shift at a line cycle; null without a calendar, where shifts are alike, and without work. */
export function ofUnequalShifts(line: Line, pace: Pace, plan: Plan, lineCycle: Ratio): UnequalShifts | null {
  if (figures.shiftTime(line) !== null) return null;
  const [idlePerDay, output] = [
    figures.idlePerDay(line, pace, plan),
    figures.outputByShiftAt(line, lineCycle),
  ];
  return idlePerDay === null || output === null ? null : { idlePerDay, output };
}

export function measurePlan(line: Line, pace: Pace, plan: Plan): PlanMeasures {
  const [atPace, atSlowest] = [
    figures.efficiencyAtPace(line, pace, plan),
    figures.efficiencyAtSlowest(line, pace, plan),
  ];
  const waiting = waitingUnits(line, pace);
  const repaired = line.tasks.some(({ test }) => test?.failures === "repaired");
  const repairs = repaired ? repairsPerGoodUnit(line) : [];
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
    ofUnequalShifts: ofUnequalShifts(line, pace, plan, figures.cycleOfPlan(line, pace, plan)),
    leadTime: leadTime(line, pace, plan),
    leadTimeOfWaits: waiting.length > 0 ? leadTimeOfWaits(line, pace, plan) : null,
    waiting: waiting.length > 0 ? waiting : null,
    repairs: repaired ? repairLoads(line, repairs) : null,
    repairPeople: repaired ? repairPeople(line, pace, repairs) : null,
    valueShares: line.tasks.some(({ kind }) => kind !== null) ? valueShares(line) : null,
  };
}
