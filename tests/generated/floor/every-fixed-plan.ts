import type { Line } from "../../../src/line/line.js";
import {
  add,
  compare,
  divide,
  larger,
  multiply,
  ONE,
  type Ratio,
  ratio,
  ZERO,
} from "../../../src/time/ratio.js";
import { timeAgain, UNITS, unitRows } from "../../tools/unit-rows.js";
import { passesOf } from "./every-floor-plan.js";
import { everySchedule } from "./every-schedule.js";

/** Of a microsecond: shares, visits and units of every kind are whole in them. */
const PARTS = 3600;

const least = (one: Ratio, two: Ratio): Ratio => (compare(one, two) <= 0 ? one : two);

/**
 * The shortest line cycle at which up to `count` stations of one place each can be worked, in microseconds: every assignment of
 * tasks to stations in order of flow, and at each station every order and every choice of sides. These ask for it: the mean time
 * with handling at each pass; each model, which may be above the working time by the overload; how long a unit stands; its equipment.
 */
export function leastFixedCycle(line: Line, count: number): Ratio | null {
  const needs = new Map<string, Ratio>();
  const needOf = (tasks: readonly number[]) => {
    const known = needs.get(tasks.join()) ?? stationNeed(line, tasks);
    needs.set(tasks.join(), known);
    return known;
  };
  let best: Ratio | null = null;
  const positionOf: number[] = [];
  const go = (task: number) => {
    if (task === line.tasks.length) {
      const stations = Array.from({ length: count }, (_, at) =>
        [...positionOf.keys()].filter((each) => positionOf[each] === at),
      ).filter((tasks) => tasks.length > 0);
      if (!hasEquipment(line, stations)) return;
      const all = stations.map(needOf).reduce(larger);
      best = best === null ? all : least(best, all);
      return;
    }
    const first = Math.max(0, ...line.before[task]!.map((earlier) => positionOf[earlier]!));
    for (let at = first; at < count; at++) {
      positionOf[task] = at;
      go(task + 1);
    }
    positionOf.length = task;
  };
  go(0);
  return best;
}

/** What the hands and the models ask for at one station. */
function stationNeed(line: Line, tasks: readonly number[]): Ratio {
  const { modelOverload: overload } = line;
  const handling = multiply(ratio(line.handling), ratio(Math.round(passesOf(line, tasks) * 1e6), 1e6));
  if (line.tasks.some(({ equipment, side }) => equipment.length > 0 || side !== null))
    return scheduleNeed(line, tasks, handling);
  const times = timesOf(line, tasks);
  const held = overload === null ? [] : times.map((each) => divide(each, add(ONE, overload)));
  return [meanOf(line, times), ...held].map((each) => add(each, handling)).reduce(larger);
}

/** The same of a station where machines run or that has sides: hands, models, the unit that stands there and the equipment that it keeps. */
function scheduleNeed(line: Line, tasks: readonly number[], handling: Ratio): Ratio {
  const more = line.modelOverload === null ? null : add(ONE, line.modelOverload);
  const exact = (parts: number) => ratio(Math.round(parts), PARTS);
  return everySchedule(line, tasks, 1, PARTS)
    .map(({ busy, models, dwell, stands, held }) => {
      const ofModels = more === null ? [] : [...models, ...stands].map((each) => divide(exact(each), more));
      const ofPeople = [exact(busy), exact(dwell), ...ofModels].map((each) => add(each, handling));
      return [...ofPeople, ...[...held.values()].map(exact)].reduce(larger);
    })
    .reduce(least);
}

/** The times that the models take: the mean over their units. */
function timesOf(line: Line, tasks: readonly number[]): Ratio[] {
  const models = [...Array(Math.max(1, line.models.length)).keys()];
  const rows = unitRows(line);
  const again = (model: number) => tasks.map((task) => timeAgain(line, task, model)).reduce(add, ZERO);
  const sumOf = (times: readonly number[]) => tasks.reduce((sum, task) => sum + times[task]!, 0);
  return models.map((model) =>
    rows
      .map((row) => (row.model === model ? ratio(sumOf(row.times) * row.count, UNITS) : ZERO))
      .reduce(add, again(model)),
  );
}

/** Each model takes a time of its own. */
const meanOf = ({ models }: Line, ends: readonly Ratio[]): Ratio =>
  models.length === 0
    ? ends[0]!
    : models.map(({ share }, model) => multiply(share, ends[model]!)).reduce(add);

/** Whether each station of one place has equipment of its own. */
const hasEquipment = (line: Line, stations: readonly (readonly number[])[]): boolean =>
  [...line.equipment].every(([name, count]) => {
    const isUser = (task: number) => line.tasks[task]!.equipment.includes(name);
    return stations.filter((tasks) => tasks.some(isUser)).length <= count;
  });
