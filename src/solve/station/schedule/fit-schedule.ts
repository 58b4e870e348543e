import { listTasks } from "./list-tasks.js";
import { OpenSchedule } from "./open-schedule.js";
import type { PeopleOfTasks } from "./people-of-tasks.js";
import type { ScheduleLimits, ScheduleProblem } from "./schedule-problem.js";
import { type FoundOrder, ScheduleSearch } from "./schedule-search.js";
import { shareLoads } from "./share-loads.js";
import type { StationTasks } from "./station-tasks.js";

/** Whether the tasks of a station can be done by its people within its limits, found bit by bit: what is quick to see first, a search only then. */
export class ScheduleQuestion {
  /** Tasks put so far. */
  steps = 0;
  /** Null: not known yet. */
  fits: boolean | null = null;
  /** An order that fits. */
  found: FoundOrder | null = null;
  private readonly search: ScheduleSearch | null = null;

  /** @param station of one task or more */
  constructor(station: StationTasks, limits: ScheduleLimits, who: PeopleOfTasks) {
    const open = openSchedule(station, limits, who);
    this.steps = station.size;
    const { dwell } = open.limits;
    if (open.least() > dwell) {
      this.fits = false;
      return;
    }
    const masks = who.isShared ? this.shareByLoads(open, who) : null;
    if (this.fits !== null) return;
    const order = station.byTails();
    this.steps += 2 * station.size;
    this.found = listTasks(open, order);
    if (this.found === null && masks !== null && who.persons > 1) {
      this.steps += 2 * station.size;
      this.found = listTasks(open, order, masks);
    }
    if (this.found !== null) this.fits = true;
    else this.search = new ScheduleSearch(open, order, dwell, dwell);
  }

  /**
   * Who may do what as far as loads go, null where that is not known. Where the loads of people alone say it, that is the answer: no where
   * these cannot be shared, yes where nothing waits for anything.
   */
  private shareByLoads(open: OpenSchedule, who: PeopleOfTasks): readonly number[] | null {
    const { certain, people, persons } = who;
    const { station, limits } = open;
    const { problem, tasks } = station;
    const loads = tasks.map((task) => problem.loads[task]!);
    const masks = shareLoads(loads, { certain, people }, persons, limits.hands);
    if (masks === "no") this.fits = false;
    if (typeof masks === "string") return null;
    const isAlone =
      station.names.length === 0 &&
      tasks.every((_, at) => station.before[at]!.length === 0 && station.machines[at] === 0) &&
      people.every((each) => each === 1 || each === persons);
    if (!isAlone) return masks;
    // Those for everybody first, then each does the others in a row.
    const order = [...tasks.keys()].sort((one, two) => people[two]! - people[one]! || one - two);
    for (const task of order) {
      if (!open.mayWork(task, masks[task]!)) return masks;
      open.put(task, masks[task]!);
    }
    const dwell = open.least();
    if (dwell === Number.POSITIVE_INFINITY) return masks;
    this.found = { tasks: order, masks: order.map((task) => masks[task]!), dwell };
    this.fits = true;
    return masks;
  }

  /** Goes on until the answer is known or so many further tasks are put. */
  advance(mostSteps: number): void {
    if (this.fits !== null) return;
    const search = this.search!;
    const before = search.steps;
    if (search.advance(before + mostSteps)) {
      this.found = search.best;
      this.fits = search.best !== null;
    }
    this.steps += search.steps - before;
  }
}

/** An order with the schedule that it comes to. */
export interface OrderedTasks {
  readonly order: FoundOrder;
  readonly schedule: OpenSchedule;
}

/**
 * The order that leaves the unit standing for the shortest time, of those the one that keeps closest to the order of the tasks; null where
 * none fits. Large stations get the best that many steps find.
 */
export function orderTasks(
  station: StationTasks,
  limits: ScheduleLimits,
  who: PeopleOfTasks,
): OrderedTasks | null {
  const question = new ScheduleQuestion(station, limits, who);
  question.advance(Number.POSITIVE_INFINITY);
  if (question.found === null) return null;
  const open = openSchedule(station, limits, who);
  const least = open.least();
  let best = question.found;
  if (best.dwell > least) {
    const search = new ScheduleSearch(open, station.byTails(), best.dwell - 1, least);
    search.advance(MOST_STEPS);
    best = search.best ?? best;
  }
  const natural = new ScheduleSearch(open, [...station.tasks.keys()], best.dwell, best.dwell);
  natural.advance(MOST_STEPS);
  best = natural.best ?? best;
  while (open.depth > 0) open.takeBack();
  for (const [at, task] of best.tasks.entries()) open.put(task, best.masks[at]!);
  return { order: best, schedule: open };
}

/** Tasks put in each part of the search for the order that is shown. */
const MOST_STEPS = 5_000;

/** Nothing put yet; limits are those of the work that is done once. */
function openSchedule(station: StationTasks, limits: ScheduleLimits, who: PeopleOfTasks): OpenSchedule {
  // Nobody works for longer than the unit stands.
  const isLoaded = who.isShared && (limits.hands < limits.dwell || station.problem.modelLoads.length > 0);
  return new OpenSchedule(station, onceOnly(station, limits), who, isLoaded);
}

/** What limits leave to the work done once; loads of people have all of it. */
function onceOnly({ problem, tasks }: StationTasks, limits: ScheduleLimits): ScheduleLimits {
  const again = modelsAgain(problem, tasks);
  return {
    ...limits,
    dwell: limits.dwell - overAll(problem, again),
    modelDwell: limits.modelDwell.map((most, model) => most - again[model]!),
    equipment: limits.equipment.map((most, counted) => most - heldAgain(problem, tasks, counted)),
  };
}

/** All that is done again of each model, machines with it, x its share. */
export const modelsAgain = ({ again }: ScheduleProblem, tasks: readonly number[]): number[] =>
  again.map(({ hands, machines }) => tasks.reduce((sum, task) => sum + hands[task]! + machines[task]!, 0));

/** The same on average. */
export const timeAgain = (problem: ScheduleProblem, tasks: readonly number[]): number =>
  overAll(problem, modelsAgain(problem, tasks));

/** The same at tasks that take a counted equipment. */
export const heldAgain = (problem: ScheduleProblem, tasks: readonly number[], counted: number): number =>
  timeAgain(
    problem,
    tasks.filter((task) => problem.equipment[task]!.some((name) => problem.countedAs[name] === counted)),
  );

/** What all units take on average, of what each model takes x its share. */
export const overAll = ({ isBuilt }: ScheduleProblem, byModel: readonly number[]): number =>
  byModel.reduce((sum, each, model) => (isBuilt[model] ? sum + each : sum), 0);
