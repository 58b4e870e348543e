import type { Line } from "../line/line.js";
import { passesOf } from "../line/passes.js";
import { repairsPerGoodUnit } from "../line/visits.js";
import type { Pace } from "../time/pace.js";
import { divide, larger, type Ratio, subtract } from "../time/ratio.js";
import { carriersOfPlan } from "./figures/carriers.js";
import { type CycleSetBy, cycleOfPlan, cycleSetBy, slowestPost } from "./figures/cycle.js";
import { balanceDelay, efficiencyAtPace, efficiencyAtSlowest } from "./figures/efficiency.js";
import { heldCycle } from "./figures/held-cycle.js";
import { idleAt, idlePerDay, idlePerShift, idlePerUnit } from "./figures/idle.js";
import * as kinds from "./figures/kinds-of-time.js";
import { type LimitUse, limitsUsed } from "./figures/limits-used.js";
import { equipmentNeeded, type NeededEquipment } from "./figures/machines.js";
import { outputByShift, outputPerShift, type ShiftOutput, shiftTime } from "./figures/output.js";
import { type PaceKept, paceKept } from "./figures/pace-kept.js";
import { peopleAt, peopleAtAll, peopleOfDay } from "./figures/people.js";
import { type RepairLoad, repairLoads, repairPeople } from "./figures/repairs.js";
import { smoothness } from "./figures/smoothness.js";
import { timeInLine } from "./figures/stands-in-line.js";
import { type ValueShare, valueShares } from "./figures/value-shares.js";
import { leadTime, leadTimeOfWaits, type WaitingUnits, waitingUnits } from "./figures/waits.js";
import { workContent } from "./figures/work-content.js";
import {
  load,
  overload,
  stationLimit,
  stationTime,
  waitingTime,
  workingTime,
} from "./figures/working-time.js";
import { type WorstModel, worstModel } from "./figures/worst-model.js";
import type { Plan, Station } from "./plan.js";
import { type Post, postsOf } from "./post.js";
import { equipmentTimes, taskStarts } from "./station-schedule.js";
import { skillsNeeded } from "./who-stands-where.js";

/** The figures of one station; times per good unit in microseconds; null where the line has nothing of the kind. */
export interface StationMeasures extends Station {
  readonly operators: number;
  readonly stationTime: Ratio;
  readonly stationLimit: Ratio;
  readonly workingTime: Ratio;
  /** How often a good unit passes it, and is handled. */
  readonly passes: Ratio;
  /** Station time / station limit. */
  readonly load: Ratio;
  readonly idle: Ratio;
  readonly overload: Ratio;
  /** Hand work without walking; null where there is neither walking nor a machine and no crew shares its work: it is the station time. */
  readonly manualTime: Ratio | null;
  readonly walkingTime: Ratio | null;
  readonly machineTime: Ratio | null;
  /** Station time with the work of every n-th unit in full; null at a station without such work. */
  readonly peakTime: Ratio | null;
  readonly worstModel: WorstModel | null;
  /** When each task starts, parallel to `tasks`. */
  readonly starts: readonly Ratio[];
  /** How long a unit stands at a place, what machines run by themselves included. */
  readonly dwell: Ratio;
  /** Of that, how long the busiest person of the place does nothing on the unit: dwell - station time. */
  readonly waitingTime: Ratio;
  /** Units that may stand at one place at a time. */
  readonly holds: number;
  /** How long a unit keeps each equipment of the station, by name in the order of the tasks. */
  readonly equipmentTimes: ReadonlyMap<string, Ratio>;
  readonly skills: readonly string[] | null;
  readonly equipment: readonly NeededEquipment[] | null;
  /** Null on a line without limits. */
  readonly uses: readonly LimitUse[] | null;
  /** Null where no chance is asked with which it stays within its working time. */
  readonly paceKept: PaceKept | null;
}

export interface UnequalShifts {
  /** Idle time of all stations in a day, in microseconds. */
  readonly idlePerDay: Ratio;
  readonly output: readonly ShiftOutput[];
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
  /** What of it needs that cycle. */
  readonly cycleSetBy: CycleSetBy;
  readonly efficiencyAtPace: Ratio | null;
  readonly efficiencyAtSlowest: Ratio | null;
  readonly balanceDelayAtPace: Ratio | null;
  readonly balanceDelayAtSlowest: Ratio | null;
  readonly smoothness: number;
  readonly idlePerUnit: Ratio;
  readonly idlePerShift: Ratio | null;
  /** How often a good unit comes at the best, at which outputs are told: the cycle of the plan, or more where waits hold the line up. */
  readonly outputCycle: Ratio;
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
  const isShared = plan.stations.some(({ persons }) => persons !== null);
  const hasSkills = has(({ skills }) => skills.length > 0);
  const hasEquipment = has(({ equipment }) => equipment.length > 0);
  const hasUses = has(({ uses }) => uses.length > 0);
  const { lineCycle } = pace;
  const posts = postsOf(line, pace, plan);
  return plan.stations.map((station, at) => {
    const post = posts[at]!;
    return {
      ...station,
      operators: peopleAt(post),
      stationTime: stationTime(post),
      stationLimit: stationLimit(post, lineCycle),
      workingTime: workingTime(post, lineCycle),
      passes: passesOf(line, station.tasks),
      load: load(post, lineCycle),
      idle: idleAt(post, lineCycle),
      overload: overload(post, lineCycle),
      manualTime: hasWalking || hasMachines || isShared ? kinds.manualTime(line, station) : null,
      walkingTime: hasWalking ? kinds.walkingTime(line, station) : null,
      machineTime: hasMachines ? kinds.machineTime(line, station) : null,
      peakTime: station.tasks.some((task) => line.tasks[task]!.every > 1)
        ? kinds.peakTime(line, station)
        : null,
      worstModel: worstModel(line, pace, station),
      starts: taskStarts(line, station),
      dwell: post.dwell,
      waitingTime: waitingTime(post),
      holds: post.holds,
      equipmentTimes: equipmentTimes(line, station),
      skills: hasSkills ? skillsNeeded(line, station) : null,
      equipment: hasEquipment ? equipmentNeeded(line, pace, station, post.equipment) : null,
      uses: hasUses ? limitsUsed(line, station) : null,
      paceKept: paceKept(line, station, stationTime(post), workingTime(post, lineCycle)),
    };
  });
}

/** What is counted by the shift at a cycle at which good units come: per shift where shifts are alike, else of a day and of each of them. */
export function measureShifts(
  line: Line,
  { lineCycle }: Pace,
  idle: Ratio,
  cycle: Ratio,
): Pick<PlanMeasures, "idlePerShift" | "outputPerShift" | "ofUnequalShifts"> {
  const perShift = {
    idlePerShift: idlePerShift(line, lineCycle, idle),
    outputPerShift: outputPerShift(line, cycle),
    ofUnequalShifts: null,
  };
  if (shiftTime(line) !== null) return perShift;
  const [perDay, output] = [idlePerDay(line, lineCycle, idle), outputByShift(line, cycle)];
  return perDay === null || output === null
    ? perShift
    : { ...perShift, ofUnequalShifts: { idlePerDay: perDay, output } };
}

/**
 * The figures of a plan over all its people, those at benches among them; stations, smoothness and lead time are counted over the
 * stations of the line.
 *
 * @param benches what works beside the line
 */
export function measurePlan(line: Line, pace: Pace, plan: Plan, benches: readonly Post[] = []): PlanMeasures {
  const { lineCycle } = pace;
  const stations = postsOf(line, pace, plan);
  const posts = [...stations, ...benches];
  const [atPace, atSlowest] = [efficiencyAtPace(posts, lineCycle), efficiencyAtSlowest(posts)];
  const [idle, cycle] = [idlePerUnit(posts, lineCycle), cycleOfPlan(posts)];
  const outputCycle = heldCycle(line, plan, cycle);
  const slowest = slowestPost(posts);
  const moves = movesOf(line, plan, larger(lineCycle, cycle));
  const waiting = waitingUnits(line, moves?.every ?? lineCycle);
  const repaired = line.tasks.some(({ test }) => test?.failures === "repaired");
  const repairs = repaired ? repairsPerGoodUnit(line) : [];
  return {
    stations: stations.length,
    operators: peopleAtAll(posts),
    operatorsPerDay: line.calendar === null ? null : peopleOfDay(posts),
    workContent: workContent(posts),
    cycleOfPlan: cycle,
    slowestStation: slowest.id,
    cycleSetBy: cycleSetBy(slowest),
    efficiencyAtPace: atPace,
    efficiencyAtSlowest: atSlowest,
    balanceDelayAtPace: balanceDelay(atPace),
    balanceDelayAtSlowest: balanceDelay(atSlowest),
    smoothness: smoothness(stations, cycle),
    idlePerUnit: idle,
    outputCycle,
    ...measureShifts(line, pace, idle, outputCycle),
    leadTime: moves?.leadTime ?? leadTime(line, stations, cycle),
    leadTimeOfWaits:
      waiting.length > 0 ? (moves?.leadTimeOfWaits ?? leadTimeOfWaits(line, stations, cycle)) : null,
    waiting: waiting.length > 0 ? waiting : null,
    repairs: repaired ? repairLoads(line, repairs) : null,
    repairPeople: repaired ? repairPeople(line, pace, repairs) : null,
    valueShares: line.tasks.some(({ kind }) => kind !== null) ? valueShares(line) : null,
  };
}

/**
 * How often a good unit comes from a line on which all units move together, and how long a unit is in it; null on an unpaced line.
 *
 * @param least how often one would come if no wait held it up
 */
function movesOf(line: Line, plan: Plan, least: Ratio) {
  if (line.flow.pacing === "unpaced") return null;
  const every = heldCycle(line, plan, least);
  const carriers = carriersOfPlan(line, plan);
  const time = (cycle: Ratio) => timeInLine(line, plan, divide(cycle, carriers));
  return { every, leadTime: time(every), leadTimeOfWaits: subtract(time(every), time(least)) };
}
