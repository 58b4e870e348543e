import type { Line, Wait } from "../../line/line.js";
import {
  add,
  ceiling,
  compare,
  divide,
  larger,
  multiply,
  type Ratio,
  ratio,
  subtract,
  ZERO,
} from "../../time/ratio.js";
import type { Post } from "../post.js";
import { workingTime } from "./working-time.js";

/** Units that only wait, each in a fixture of its own. */
export interface WaitingUnits {
  readonly wait: Wait;
  /** Units in the wait at the same time, on average. */
  readonly units: Ratio;
  /** The fixtures that they need: units, rounded up; none on a line that moves together, where units wait in the line. */
  readonly fixtures: number;
}

/**
 * For each wait of some time the units in it: wait x visits of the task before it / cycle at which units come, of the models that have both tasks and ask for it
 * (Little 1961). Nobody works in a wait, so it is no part of the work content.
 */
export function waitingUnits(line: Line, cycle: Ratio): WaitingUnits[] {
  if (compare(cycle, ZERO) <= 0) return [];
  return line.waits
    .filter(({ wait }) => wait > 0)
    .map((wait) => {
      const units = divide(waitedPerUnit(line, wait), cycle);
      return { wait, units, fixtures: line.flow.pacing === "unpaced" ? Number(ceiling(units)) : 0 };
    });
}

/** How long one good unit of the mix waits: the wait of its model x visits of the task before it, on units that have both tasks. */
function waitedPerUnit({ models, tasks }: Line, { from, to, wait, byModel }: Wait): Ratio {
  const { visits } = tasks[from]!;
  if (models.length === 0) return multiply(ratio(wait), visits[0]!);
  return models
    .map(({ share }, model) => {
      if (tasks[to]!.times[model] === null) return ZERO;
      return multiply(multiply(share, visits[model]!), ratio(byModel?.[model] ?? wait));
    })
    .reduce(add, ZERO);
}

/**
 * What waits add to the lead time of a unit on an unpaced line, in microseconds. Stations pass a unit on every cycle of the plan x places x units that stand
 * at a place; a wait is over at the earliest so long after the station before it, and stations in between shorten what is left of it. Of
 * waits side by side the longer counts.
 *
 * @param posts the stations of the plan
 * @param cycle of the plan
 */
export function leadTimeOfWaits(line: Line, posts: readonly Post[], cycle: Ratio): Ratio {
  return subtract(leadTime(line, posts, cycle), timeMoving(posts, cycle));
}

/** How long a unit is on its way through an unpaced line, stations and waits, in microseconds. */
export function leadTime(line: Line, posts: readonly Post[], cycle: Ratio): Ratio {
  const stationOf = new Map(posts.flatMap(({ tasks }, at) => tasks.map((task) => [task, at] as const)));
  const left: Ratio[] = [];
  for (const [at, post] of posts.entries()) {
    const start = line.waits
      .filter(({ from, to }) => stationOf.get(to) === at && (stationOf.get(from) ?? at) < at)
      .map(({ from, wait }) => add(left[stationOf.get(from)!]!, ratio(wait)))
      .reduce(larger, left[at - 1] ?? ZERO);
    left.push(add(start, timeAt(post, cycle)));
  }
  return left.at(-1) ?? ZERO;
}

/** The stations alone. */
const timeMoving = (posts: readonly Post[], cycle: Ratio): Ratio =>
  posts.map((post) => timeAt(post, cycle)).reduce(add, ZERO);

/** Places x cycle of the plan, for each of as few units at a place as its dwell allows. */
function timeAt(post: Post, cycle: Ratio): Ratio {
  const working = workingTime(post, cycle);
  const units = compare(working, ZERO) > 0 ? Number(ceiling(divide(post.dwell, working))) : 1;
  return multiply(cycle, ratio(post.places * Math.max(1, units)));
}
