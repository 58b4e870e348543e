import type { FloorStation, Line } from "../line/line.js";
import { asksToKeepPace, spreadRow } from "../line/parts/keep-pace.js";
import { limitRows } from "../line/parts/limits.js";
import { handlingAt } from "../line/passes.js";
import { directFollowers } from "../line/precedence.js";
import { allFollowers } from "../line/reach.js";
import type { Pace } from "../time/pace.js";
import { add, compare, floor, multiply, ONE, type Ratio, ratio, subtract, ZERO } from "../time/ratio.js";
import { mergeTogether } from "./merge-together.js";
import { modelLoad } from "./model-load.js";
import { loadsInParts, partsOf, type Rounding, wholeParts } from "./parts.js";
import type { ScheduleProblem, WorkSide } from "./station/schedule/schedule-problem.js";
import { stationsAllowed } from "./station/station-rules.js";
import { rulesOf } from "./station/task-rules.js";
import { machinesAgain, sharesEquipment, sharesWork, timesAgain, unitRows, weightsOf } from "./unit-rows.js";
import { openWindows } from "./windows.js";
import type { Counted, SkillProblem, SpreadOfTimes, StationKind, StationLimits, Work } from "./work.js";

/** How stations are limited: by a pace, or only by a longest cycle where their number is given. */
export interface WorkLimits {
  readonly pace: Pace;
  /** No task may exceed the station limit, not even alone. */
  readonly strictLimit: boolean;
  /** No station may have a longer cycle than this, in microseconds; null where only the pace counts. */
  readonly slowest: Ratio | null;
  /** Loads are not limited by the pace at all, and every station has one place. */
  readonly free: boolean;
  /** Handling counts as if units passed every station once: no plan needs less than with all passes. */
  readonly isHandledOnce?: boolean;
  /** Positions that a plan to start from reaches along the floor and behind it; none unless said. */
  readonly keptPositions?: number;
}

/** Only handling counts: the plan sets its own pace, at one place a station. */
export function withoutPace(line: Line): WorkLimits {
  const pace = {
    takt: null,
    lineCycle: ZERO,
    handling: line.handling,
    planTo: ONE,
    workingTime: ZERO,
    stationLimit: ZERO,
  };
  return { pace, strictLimit: true, slowest: null, free: true };
}

/**
 * The line as the search with shop-floor rules sees it. Limits are rounded down to whole parts of a microsecond: whole loads that keep
 * them as they are keep them so, too.
 *
 * @param rounding of loads that are no whole parts: "up", every plan of the work holds; "down", every plan that holds is one of the work
 */
export function layOutWork(line: Line, limits: WorkLimits, rounding: Rounding = "up"): Work {
  const members = mergeTogether(line.before, line.together);
  const blockOf: number[] = [];
  for (const [block, tasks] of members.entries()) for (const task of tasks) blockOf[task] = block;
  const before = members.map((tasks, block) =>
    [...new Set(tasks.flatMap((task) => line.before[task]!.map((each) => blockOf[each]!)))]
      .filter((each) => each !== block)
      .sort((one, two) => one - two),
  );
  const loads = loadsInParts(line, rounding);
  const models = modelLoadsOf(line, rounding);
  const passed = passesOfBlocks(line, limits, members);
  const tasksOf = (block: number) => members[block]!.map((task) => line.tasks[task]!);
  const sum = (block: number, value: (task: number) => number) =>
    members[block]!.reduce((total, task) => total + value(task), 0);
  const waits = line.waits.map(({ from, to, stations }) => ({
    from: blockOf[from]!,
    to: blockOf[to]!,
    stations,
  }));
  const positions =
    Math.max(line.floor.length, limits.keptPositions ?? 0) +
    members.length +
    waits.reduce((total, each) => total + each.stations, 0);
  const windows = openWindows(line, members, before, waits, positions);
  const zones = members.map((_, block) => tasksOf(block).find((task) => task.zone !== null)?.zone ?? null);
  const isPositional =
    line.floor.length > 0 ||
    waits.some((each) => each.stations > 1) ||
    windows.last.some((last) => last < positions - 1);
  return {
    size: members.length,
    members,
    before,
    after: directFollowers(before),
    loads: members.map((_, block) => sum(block, (task) => loads[task]!)),
    people: members.map((_, block) => Math.max(...tasksOf(block).map((task) => task.people))),
    work: members.map((_, block) => sum(block, (task) => loads[task]! * line.tasks[task]!.people)),
    passes: passed.ofBlocks,
    mayStandAlone: members.map((tasks) => tasks.filter((task) => loads[task]! > 0).length <= 1),
    kinds: kindsOf(line, limits, passed),
    ...windows,
    allowed: stationsAllowed(line, members, blockOf),
    zones,
    apart: apartOf(line, blockOf, members.length),
    equipment: countedOf(line, members, limits),
    limits: limitRows(line).map(({ uses, ...row }) => ({
      ...row,
      uses: members.map((tasks) => tasks.reduce((all, task) => all + uses[task]!, 0n)),
    })),
    spread: spreadOf(line, limits, members, passed),
    waits,
    modelLoads: models.map((own) =>
      members.map((tasks) => tasks.reduce((total, task) => total + own[task]!, 0)),
    ),
    modelShares: line.modelOverload === null ? [] : weightsOf(line),
    schedule: scheduleOf(line, rounding),
    skills: skillsOf(line, members),
    today: null,
    isPositional,
    positions,
  };
}

/** How far times vary; null where no station is asked to keep the pace with some chance, and where there is no pace. */
function spreadOf(
  line: Line,
  { pace, free }: WorkLimits,
  members: readonly (readonly number[])[],
  { handlings }: PassedStations,
): SpreadOfTimes | null {
  if (free || !asksToKeepPace(line)) return null;
  const most = Math.max(line.maxPlaces, ...line.floor.map(({ maxPlaces }) => maxPlaces ?? 1));
  const rooms = handlings.map((handling) =>
    Array.from({ length: most }, (_, at) => subtract(multiply(ratio(at + 1), pace.lineCycle), handling)),
  );
  const { models, scores, scoreScale, whole } = spreadRow(line, rooms.flat())!;
  const ofBlocks = (amounts: readonly bigint[]) =>
    members.map((tasks) => tasks.reduce((sum, task) => sum + amounts[task]!, 0n));
  return {
    models: models.map(({ means, variances }) => ({
      means: ofBlocks(means),
      variances: ofBlocks(variances),
    })),
    scores,
    scoreScale,
    rooms: rooms.map((each) => each.map(whole)),
  };
}

/** Loads of each model by task, in parts; empty where models are held on average only. */
function modelLoadsOf(line: Line, rounding: Rounding): number[][] {
  if (line.modelOverload === null) return [];
  return line.models.map((_, model) =>
    line.tasks.map((_task, task) => wholeParts(line, modelLoad(line, task, model), rounding)),
  );
}

/** What a good unit loses to handling at stations that it passes once, and at those that it passes as often as some block is done. */
export interface PassedStations {
  /** In microseconds, ascending. */
  readonly handlings: readonly Ratio[];
  /** The place in that list for a station with just this block. */
  readonly ofBlocks: readonly number[];
}

export function passesOfBlocks(
  line: Line,
  limits: WorkLimits,
  members: readonly (readonly number[])[],
): PassedStations {
  const own = members.map((tasks) => handlingOf(line, limits, tasks));
  const all = [ratio(limits.pace.handling), ...own].sort(compare);
  const handlings = all.filter((each, at) => at === 0 || compare(each, all[at - 1]!) !== 0);
  return {
    handlings,
    ofBlocks: own.map((each) => handlings.findIndex((handling) => compare(handling, each) === 0)),
  };
}

/** What a good unit loses to handling at a station with these tasks, in microseconds. */
export const handlingOf = (
  line: Line,
  { pace, isHandledOnce }: WorkLimits,
  tasks: readonly number[],
): Ratio => (isHandledOnce ? ratio(pace.handling) : handlingAt(line, pace, tasks));

/**
 * The limits with handling counted once, where units pass some station more often and stations would then have no rules: a plan that
 * holds with all passes is found as on a plain line, and what is proved of it holds. Null elsewhere.
 */
export function handledOnce(line: Line, limits: WorkLimits): WorkLimits | null {
  const passes = line.tasks.map((_, task) => handlingAt(line, limits.pace, [task]));
  if (passes.every((each) => compare(each, ratio(limits.pace.handling)) === 0)) return null;
  const once = { ...limits, isHandledOnce: true };
  return rulesOf(layOutWork(line, once)) === null ? once : null;
}

/** Stations of the floor, and those behind it: what holds the same is one object. */
function kindsOf(line: Line, limits: WorkLimits, { handlings }: PassedStations): StationKind[] {
  const made = new Map<string, StationKind>();
  const people = {
    isSided: line.tasks.some(({ side }) => side !== null),
    together: line.tasks.reduce((most, task) => Math.max(most, task.people), 1),
  };
  return [...line.floor, null].map((station) => {
    const { maxPlaces, holds, maxCrew, planTo } = station ?? NOTHING_OF_ITS_OWN;
    const own = [maxPlaces, holds, maxCrew, planTo?.num, planTo?.den].join(" ");
    const known = made.get(own);
    if (known !== undefined) return known;
    const [once, ...morePasses] = handlings.map((each) => limitsOf(line, limits, station, each, people));
    const kind = { ...once!, morePasses };
    made.set(own, kind);
    return kind;
  });
}

const NOTHING_OF_ITS_OWN = { maxPlaces: null, holds: null, maxCrew: null, planTo: null };

function limitsOf(
  line: Line,
  limits: WorkLimits,
  station: FloorStation | null,
  handling: Ratio,
  { isSided, together }: { readonly isSided: boolean; readonly together: number },
): StationLimits {
  const { pace, strictLimit, slowest, free } = limits;
  const most = free ? 1 : (station?.maxPlaces ?? line.maxPlaces);
  const holds = station?.holds ?? line.holds;
  const maxCrew = station?.maxCrew ?? line.maxCrew;
  const places = Array.from({ length: most }, (_, at) => ratio(at + 1));
  const all = Number.MAX_SAFE_INTEGER;
  const whole = (value: Ratio, count: Ratio, units = ONE) => {
    const cut = slowest === null ? null : subtract(multiply(count, slowest), handling);
    const parts = wholeParts(line, multiply(units, value), "down");
    return cut === null ? parts : Math.min(parts, wholeParts(line, multiply(units, cut), "down"));
  };
  const lineCycle = free ? slowest : pace.lineCycle;
  const working = places.map((count) =>
    lineCycle === null ? ratio(all) : subtract(multiply(count, lineCycle), handling),
  );
  const planTo = free ? ONE : (station?.planTo ?? pace.planTo);
  const loaded = working.map((each, at) => whole(multiply(each, planTo), places[at]!));
  const ofModel = (units: Ratio) =>
    line.modelOverload === null
      ? []
      : working.map((each) =>
          wholeParts(line, multiply(each, multiply(add(ONE, line.modelOverload!), units)), "down"),
        );
  return {
    limits: loaded,
    alone: strictLimit ? loaded : working.map((each, at) => whole(each, places[at]!)),
    modelLimits: ofModel(ONE),
    modelDwell: ofModel(ratio(holds)),
    dwell: working.map((each, at) => whole(each, places[at]!, ratio(holds))),
    holds,
    maxCrew,
    atOnce: isSided ? 2 : maxCrew === 1 ? 1 : Math.max(maxCrew, together),
  };
}

function apartOf(line: Line, blockOf: readonly number[], size: number): number[][] {
  const apart = Array.from({ length: size }, () => new Set<number>());
  for (const group of line.apart) {
    for (const one of group) {
      for (const two of group) if (one !== two) apart[blockOf[one]!]!.add(blockOf[two]!);
    }
  }
  return apart.map((set) => [...set].sort((one, two) => one - two));
}

function countedOf(
  line: Line,
  members: readonly (readonly number[])[],
  { pace, free, slowest }: WorkLimits,
): Counted[] {
  const paced = free ? slowest : pace.lineCycle;
  const lineCycle =
    paced === null || slowest === null ? paced : compare(paced, slowest) < 0 ? paced : slowest;
  const cycle = lineCycle === null ? null : multiply(lineCycle, ratio(partsOf(line)));
  return [...line.equipment].map(([name, count]) => ({
    name,
    count,
    needs: members.map((tasks) => tasks.some((task) => line.tasks[task]!.equipment.includes(name))),
    time: (units) =>
      cycle === null ? Number.POSITIVE_INFINITY : Number(floor(multiply(ratio(units), cycle))),
  }));
}

/** People who need somebody else at a task take both sides. */
const workSides = ({ tasks }: Line): WorkSide[] =>
  tasks.map(({ side, people }) => (people > 1 ? ("both" as const) : (side ?? "either")));

const isBuilt = ({ models }: Line): boolean[] =>
  models.length === 0 ? [true] : models.map(({ share }) => share.num > 0n);

/** Null where the order of work at a station changes nothing. It is the same at every pace. */
function scheduleOf(line: Line, rounding: Rounding): ScheduleProblem | null {
  const known = scheduled[rounding].get(line);
  if (known !== undefined) return known;
  const schedule = layOutSchedule(line, rounding);
  scheduled[rounding].set(line, schedule);
  return schedule;
}

type Scheduled = WeakMap<Line, ScheduleProblem | null>;
const scheduled: Record<Rounding, Scheduled> = { up: new WeakMap(), down: new WeakMap() };

function layOutSchedule(line: Line, rounding: Rounding): ScheduleProblem | null {
  const isSided = line.tasks.some(({ side }) => side !== null);
  const hasMachines = line.tasks.some(({ machineTime }) => machineTime > 0);
  const names = [...new Set(line.tasks.flatMap(({ equipment }) => equipment))];
  const users = names.map((name) =>
    [...line.tasks.keys()].filter((task) => line.tasks[task]!.equipment.includes(name)),
  );
  if (!hasMachines && !sharesWork(line) && !sharesEquipment(line)) return null;
  const weights = weightsOf(line);
  const shared = (times: readonly Ratio[], share: Ratio) =>
    times.map((each) => wholeParts(line, multiply(share, each), rounding));
  const numbers = (times: readonly Ratio[]) => times.map(({ num }) => Number(num));
  const machines = machinesAgain(line);
  const models = modelLoadsOf(line, rounding);
  return {
    sides: isSided ? workSides(line) : null,
    people: line.tasks.map(({ people }) => people),
    loads: loadsInParts(line, rounding),
    modelLoads: models,
    rows: unitRows(line).map(({ model, ofModel, times, machines: runs }) => {
      const share = multiply(weights[model]!, ofModel);
      const ofUnit = { hands: numbers(times), machines: numbers(runs) };
      return { model, hands: shared(times, share), machines: shared(runs, share), ofUnit };
    }),
    again: timesAgain(line).map((times, model) => ({
      hands: shared(times, weights[model]!),
      machines: shared(machines[model]!, weights[model]!),
    })),
    isBuilt: isBuilt(line),
    before: line.before,
    equipment: line.tasks.map(({ equipment }) => equipment.map((name) => names.indexOf(name))),
    countedAs: names.map((name) => [...line.equipment.keys()].indexOf(name)),
    hasMachines,
    ...holdsOf(line, names, users, !sharesWork(line)),
  };
}

/**
 * What may become one hold of an equipment, whichever tasks share a station.
 *
 * @param users by name of equipment
 * @param isOneByOne people of a station do one thing after the other, so that only a machine can hold up what follows it
 */
function holdsOf(
  line: Line,
  names: readonly string[],
  users: readonly (readonly number[])[],
  isOneByOne: boolean,
): Pick<ScheduleProblem, "joined" | "mayJoinHolds" | "joins" | "holdsMayGrow" | "isBetween"> {
  const followers = allFollowers(line.before);
  const isAfter = (later: number, earlier: number) => followers.has(earlier, later);
  const areInRow = (one: number, two: number) => isAfter(one, two) || isAfter(two, one);
  const joined = users.map((tasks) => {
    const holds: number[][] = [];
    for (const task of tasks) {
      const together = holds.filter((hold) => hold.some((each) => areInRow(each, task)));
      for (const each of together) holds.splice(holds.indexOf(each), 1);
      holds.push([...together.flat(), task]);
    }
    return holds;
  });
  const isSeveral = (hold: readonly number[]) => hold.length > 1;
  const counted = joined
    .filter((_, name) => line.equipment.has(names[name]!))
    .flat()
    .filter(isSeveral);
  const several = joined.flat().filter(isSeveral);
  const isJoining = (task: number) =>
    users.some((tasks) => {
      if (!tasks.includes(task)) return false;
      const count = (isNear: (other: number) => boolean) => tasks.filter(isNear).length;
      return count((other) => isAfter(other, task)) > 1 || count((other) => isAfter(task, other)) > 1;
    });
  const mayWait = (hold: readonly number[]) =>
    hold.some(
      (task) => hold.some((each) => isAfter(task, each)) && waitsForMachines(line, isAfter, hold, task),
    );
  return {
    joined,
    mayJoinHolds: several.some((hold) =>
      hold.some((one) => hold.some((two) => one !== two && !areInRow(one, two))),
    ),
    joins: line.tasks.map((_, task) => isJoining(task)),
    holdsMayGrow: sharesEquipment(line) && counted.some((hold) => !isOneByOne || mayWait(hold)),
    isBetween: (tasks) =>
      tasks.some((task) =>
        several.some(
          (hold) => hold.some((each) => isAfter(each, task)) && hold.some((each) => isAfter(task, each)),
        ),
      ),
  };
}

/** Whether a task of a hold may wait for a machine outside of it that does not come before all of it, or for further equipment. */
function waitsForMachines(
  line: Line,
  isAfter: (later: number, earlier: number) => boolean,
  hold: readonly number[],
  task: number,
): boolean {
  if (line.tasks[task]!.equipment.length > 1) return true;
  return line.tasks.some(
    ({ machineTime }, other) =>
      machineTime > 0 &&
      !hold.includes(other) &&
      isAfter(task, other) &&
      !hold.every((each) => each === task || isAfter(each, other)),
  );
}

/** People count only where no station says which skills it has. */
function skillsOf(line: Line, members: readonly (readonly number[])[]): SkillProblem | null {
  if (line.people.length === 0 || line.floor.some((station) => station.skills !== null)) return null;
  const names = [...new Set(line.tasks.flatMap((task) => task.skills))];
  if (names.length === 0) return null;
  const bits = (skills: readonly string[]) =>
    skills.reduce(
      (set, skill) => (names.includes(skill) ? set | (1n << BigInt(names.indexOf(skill))) : set),
      0n,
    );
  return {
    needs: members.map((tasks) => bits(tasks.flatMap((task) => line.tasks[task]!.skills))),
    needsOfTasks: line.tasks.map(({ skills }) => bits(skills)),
    people: line.people.map((person) => bits(person.skills)),
  };
}
