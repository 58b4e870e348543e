import type { Line } from "../../line/line.js";
import {
  add,
  compare,
  divide,
  floor,
  leastCommonMultiple,
  ONE,
  type Ratio,
  ratio,
  ZERO,
} from "../../time/ratio.js";
import { machineRun, type WorkLimits } from "../lay-out-work.js";
import { partsOf } from "../parts.js";
import type { Work } from "../work.js";
import { busyOf } from "./cycle-of-work.js";

/** How a search for the shortest cycle goes from one probe to the next, in microseconds. */
export interface CycleSteps {
  /** Cycles of stations are whole numbers of these, whatever their places. */
  readonly coarse: Ratio;
  /** So are all cycles of plans of these, those that models and machines need among them: no two are closer. */
  readonly fine: Ratio;
}

/** @param least no plan has a shorter cycle */
export function cycleStepsOf(line: Line, problem: Work, limits: WorkLimits, least: Ratio): CycleSteps {
  const places = upTo(BigInt(Math.max(...problem.kinds.map(({ limits: all }) => all.length))));
  const coarse = partsOf(line) * places;
  if (!limits.free) return { coarse: ratio(1n, coarse), fine: ratio(1n, coarse) };
  // A time of n parts asks for n x d / (d + o) of them where o / d is the overload.
  const models = line.modelOverload === null ? ONE : add(ONE, line.modelOverload);
  const machines = [...line.equipment.keys()].map((name) => machineParts(line, name, least));
  const fine = [coarse * models.num, ...machines].reduce(leastCommonMultiple);
  return { coarse: ratio(1n, coarse), fine: ratio(1n, fine) };
}

/** Parts of a microsecond in which the busy time of any tasks, shared among as many machines as can matter, is whole. */
function machineParts(line: Line, name: string, least: Ratio): bigint {
  const all = busyOf(line, [...line.tasks.keys()], name);
  if (compare(all, ZERO) === 0) return 1n;
  const tasks = line.tasks.flatMap(({ equipment, machineTime }, task) =>
    machineTime > 0 && equipment.includes(name) ? [machineRun(line, task).den] : [],
  );
  // Shared among more machines, the time is below the least cycle.
  return tasks.reduce(leastCommonMultiple, 1n) * upTo(floor(divide(all, least)));
}

/** A multiple of every whole number up to `most`. */
function upTo(most: bigint): bigint {
  let common = 1n;
  for (let each = 2n; each <= most; each++) common = leastCommonMultiple(common, each);
  return common;
}

/** The middle between the two, rounded down to a multiple of the step. */
export function halfWay(one: Ratio, two: Ratio, step: Ratio): Ratio {
  const steps = floor(divide(divide(add(one, two), ratio(2)), step));
  return ratio(steps * step.num, step.den);
}
