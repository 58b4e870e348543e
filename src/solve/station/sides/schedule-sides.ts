import { floor, type Ratio, ratio } from "../../../time/ratio.js";
import { type FilledStation, kindAt, limitsWith, type Work } from "../../work.js";
import { fitSides } from "./fit-sides.js";
import type { SideLimits, SideSchedule } from "./side-problem.js";

type Filled = Pick<FilledStation, "position" | "blocks" | "places">;

/** The most time of a station: more than the limit where one block alone takes time and may take more. */
export function limitOf(problem: Work, { position, blocks, places }: Filled): number {
  const { limits, alone } = limitsWith(problem, kindAt(problem, position), blocks);
  const timed = blocks.filter((block) => problem.loads[block]! > 0);
  const isAlone = timed.length === 1 && problem.mayStandAlone[timed[0]!]!;
  return isAlone ? Math.max(limits[places - 1]!, alone[places - 1]!) : limits[places - 1]!;
}

/** The most that one model may take of a station; endless where models are held on average only. */
export function modelLimitOf(problem: Work, { position, blocks, places }: Filled): number {
  const { modelLimits } = limitsWith(problem, kindAt(problem, position), blocks);
  return modelLimits[places - 1] ?? Number.POSITIVE_INFINITY;
}

/** How the tasks of a station fit both sides of a wide product; null where they do not, or where the line has no sides. */
export function scheduleSides(problem: Work, station: Filled): SideSchedule | null {
  const { sides } = problem;
  if (sides === null) return null;
  const [mean, most] = [limitOf(problem, station), modelLimitOf(problem, station)];
  const key = `${mean}/${most}:${station.blocks.toSorted((one, two) => one - two).join()}`;
  const known = scheduled.get(problem) ?? new Map<string, SideSchedule | null>();
  scheduled.set(problem, known);
  let schedule = known.get(key);
  if (schedule === undefined) {
    schedule = fitSides(sides, tasksOf(problem, station.blocks), sideLimitsOf(problem, mean, most));
    if (known.size < MOST_REMEMBERED) known.set(key, schedule);
  }
  return schedule;
}

/** By problem, as long as that is in use: moves and swaps come back to the same stations again and again. */
const scheduled = new WeakMap<Work, Map<string, SideSchedule | null>>();
const MOST_REMEMBERED = 100_000;

/** The tasks of blocks, in order of work. */
export function tasksOf({ members }: Work, blocks: readonly number[]): number[] {
  return blocks.toSorted((one, two) => one - two).flatMap((block) => members[block]!);
}

/** When the tasks of a station with sides may end: on average, and of one model. */
export function sideLimitsOf(
  { sides, modelLoads, modelShares }: Work,
  mean: number,
  most: number,
): SideLimits {
  const models = sides!.again.map((_, model) => {
    // A model without work at these stations keeps any limit.
    const isHeld = modelLoads[model]?.some((load) => load > 0) ?? false;
    return isHeld ? inShare(most, modelShares[model]!) : Number.POSITIVE_INFINITY;
  });
  return { mean, models };
}

/** A limit of whole parts for the share of a model in the units: its own times are whole parts, too, so no less holds. */
const inShare = (most: number, { num, den }: Ratio): number => Number(floor(ratio(BigInt(most) * num, den)));
