import { listSides } from "./side-list.js";
import { overAll, type SideLimits, type SideProblem, type SideSchedule } from "./side-problem.js";
import { type SideOrder, SideSearch } from "./side-search.js";
import { SideStation } from "./side-station.js";

/**
 * Whether the tasks fit one station of a wide product within its limits, and how: the tasks of a side follow each other, and a task
 * waits for the tasks before it at the same station. Loads by side alone prove nothing, so starts are searched: every schedule
 * without needless waiting comes up by putting the tasks one after another to the earliest time (active schedules, Giffler &
 * Thompson 1960). One person is preferred to two, then the earlier finish.
 *
 * @param tasks in an order of work
 */
export function fitSides(
  problem: SideProblem,
  tasks: readonly number[],
  limits: SideLimits,
): SideSchedule | null {
  const again = againOf(problem, tasks);
  const once = onceOnly(problem, again, limits);
  const found = onOneSide(problem, tasks, once) ?? onBothSides(problem, tasks, once);
  if (found === null) return null;
  const ends = found.ends.map((end, model) => end + again[model]!);
  return { ...found, finish: found.finish + overAll(problem, again), ends };
}

/** Work done again, by model. */
const againOf = ({ again }: SideProblem, tasks: readonly number[]): number[] =>
  again.map((times) => tasks.reduce((sum, task) => sum + times[task]!, 0));

/** What limits leave to the work done once. */
const onceOnly = (
  problem: SideProblem,
  again: readonly number[],
  { mean, models }: SideLimits,
): SideLimits => ({
  mean: mean - overAll(problem, again),
  models: models.map((most, model) => most - again[model]!),
});

/** All of it by one person, where no task needs the other side. */
function onOneSide(problem: SideProblem, tasks: readonly number[], limits: SideLimits): SideSchedule | null {
  const wanted = new Set(tasks.map((task) => problem.sides[task]!).filter((side) => side !== "either"));
  if (wanted.size > 1 || wanted.has("both")) return null;
  const side = wanted.has("right") ? "right" : "left";
  const ends = limits.models.map(() => 0);
  for (const [row, loads] of problem.rows.entries())
    for (const task of tasks) ends[problem.modelOf[row]!]! += loads[task]!;
  const finish = overAll(problem, ends);
  if (finish > limits.mean || ends.some((end, model) => end > limits.models[model]!)) return null;
  return { tasks, sides: tasks.map(() => side), finish, ends, crew: 1 };
}

/** The earliest finish by two people. */
function onBothSides(
  problem: SideProblem,
  tasks: readonly number[],
  limits: SideLimits,
): SideSchedule | null {
  const station = new SideStation(problem, tasks, limits);
  const least = station.leastMean();
  if (least > limits.mean) return null;
  const natural = [...tasks.keys()];
  // Of the earliest orders the one that keeps closest to the order of the tasks.
  const earliest = earliestFinish(station, limits.mean, least);
  if (earliest === null) return null;
  const best = searchBelow(station, natural, earliest, earliest);
  if (best === null) return null;
  const { sides, finish } = best;
  return {
    tasks: best.tasks.map((at) => tasks[at]!),
    sides,
    finish,
    ends: station.byModel(best.ends),
    crew: 2,
  };
}

/** The earliest finish, null where it is later than allowed: soon found where the longest chains are tried first. */
function earliestFinish(station: SideStation, most: number, least: number): number | null {
  const order = station.byTails();
  const listed = Math.min(most, listSides(station, order));
  if (listed <= least) return listed;
  return searchBelow(station, order, listed, least)?.finish ?? null;
}

function searchBelow(
  station: SideStation,
  order: readonly number[],
  most: number,
  least: number,
): SideOrder | null {
  const search = new SideSearch(station, order, most, least);
  search.advance(Number.POSITIVE_INFINITY);
  return search.best;
}

/** Only how many sides the tasks need within the limits, found bit by bit: what is quick to see first, a search only then. */
export class SideCrew {
  /** Tasks put to a side so far. */
  steps = 0;
  /** 0: they do not fit; null: not known yet. */
  crew: 0 | 1 | 2 | null;
  private readonly search: SideSearch | null = null;

  /** @param tasks in an order of work */
  constructor(problem: SideProblem, tasks: readonly number[], limits: SideLimits) {
    const once = onceOnly(problem, againOf(problem, tasks), limits);
    this.steps = tasks.length;
    this.crew = onOneSide(problem, tasks, once) === null ? null : 1;
    if (this.crew !== null) return;
    const station = new SideStation(problem, tasks, once);
    if (station.leastMean() > once.mean) {
      this.crew = 0;
      return;
    }
    const order = station.byTails();
    this.steps += tasks.length;
    if (listSides(station, order) <= once.mean) {
      this.crew = 2;
      return;
    }
    this.search = new SideSearch(station, order, once.mean, once.mean);
  }

  /** Goes on until the crew is known or so many further tasks are put to a side. */
  advance(mostSteps: number): void {
    if (this.crew !== null) return;
    const search = this.search!;
    const before = search.steps;
    if (search.advance(before + mostSteps)) this.crew = search.best === null ? 0 : 2;
    this.steps += search.steps - before;
  }
}
