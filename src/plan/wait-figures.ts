import type { Line, Wait } from "../line/line.js";
import type { Micros } from "../time/duration.js";
import type { Pace } from "../time/pace.js";
import { add, ceiling, compare, divide, multiply, type Ratio, ratio, ZERO } from "../time/ratio.js";
import type { Plan } from "./plan.js";
import { cycleOfPlan } from "./plan-figures.js";

/** Units that only wait, each in a fixture of its own. */
export interface WaitingUnits {
  readonly wait: Wait;
  /** Units in the wait at the same time, on average. */
  readonly units: Ratio;
  /** The fixtures that they need: units, rounded up. */
  readonly fixtures: number;
}

/**
 * For each wait of some time the units in it: wait x visits of the task before it / line cycle, of the models that have both tasks and ask for it
 * (Little 1961). Nobody works in a wait, so it is no part of the work content.
 */
export function waitingUnits(line: Line, pace: Pace): WaitingUnits[] {
  if (compare(pace.lineCycle, ZERO) <= 0) return [];
  return line.waits
    .filter(({ wait }) => wait > 0)
    .map((wait) => {
      const units = divide(waitedPerUnit(line, wait), pace.lineCycle);
      return { wait, units, fixtures: Number(ceiling(units)) };
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
 * What waits add to the lead time of a unit, in microseconds: the longest sum of waits that follow each other along the stations
 * of the plan; of waits side by side the longer counts.
 */
export function leadTimeOfWaits(line: Line, plan: Plan): Micros {
  const stationOf = new Map(
    plan.stations.flatMap(({ tasks }, at) => tasks.map((task) => [task, at] as const)),
  );
  const waited: Micros[] = [];
  for (const at of plan.stations.keys()) {
    const upTo = (from: number) => waited[Math.min(stationOf.get(from) ?? at, at - 1)] ?? 0;
    waited[at] = line.waits
      .filter(({ to }) => stationOf.get(to) === at)
      .map(({ from, wait }) => upTo(from) + wait)
      .reduce((most, each) => Math.max(most, each), waited[at - 1] ?? 0);
  }
  return waited.at(-1) ?? 0;
}

/** How long a unit is on its way through the line: sum of places x cycle of the plan + what waits add, in microseconds. */
export function leadTime(line: Line, pace: Pace, plan: Plan): Ratio {
  const places = plan.stations.reduce((sum, station) => sum + station.places, 0);
  const moving = multiply(cycleOfPlan(line, pace, plan), ratio(places));
  return { num: moving.num + BigInt(leadTimeOfWaits(line, plan)) * moving.den, den: moving.den };
}
