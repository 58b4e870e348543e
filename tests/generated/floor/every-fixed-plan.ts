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
import { everyModelOrder } from "./every-model-order.js";

/** Parts of a microsecond in which all times of the lines here are whole: rare tasks and shares of fifths. */
const PARTS = 30;
const inParts = (value: Ratio): number => Number(multiply(value, ratio(PARTS)).num);
const least = (one: Ratio, two: Ratio): Ratio => (compare(one, two) <= 0 ? one : two);

/**
 * The shortest line cycle at which up to `count` stations of one place each can be worked, in microseconds: every assignment of
 * tasks to stations in order of flow, and at each station every order and every choice of sides. Three things ask for it: the
 * mean time with handling; each model, which may be above the working time by the overload; and the machines that exist.
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
      const machines = machinesNeed(line, stations);
      if (machines === null) return;
      const all = stations.map(needOf).reduce(larger, machines);
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
  const { models, modelOverload: overload } = line;
  const mean = line.tasks.map(({ load }) => inParts(load));
  const rows = models.length === 0 ? [mean] : models.map((_, model) => modelRow(line, model));
  const ways = line.tasks.some(({ side }) => side !== null)
    ? everyModelOrder(line, tasks, rows).map(({ ends }) => ends)
    : [rows.map((loads) => tasks.reduce((sum, task) => sum + loads[task]!, 0))];
  return ways
    .map((inRows) => {
      const ends = inRows.map((end) => ratio(end, PARTS));
      const held = overload === null ? [] : ends.map((end) => divide(end, add(ONE, overload)));
      return [meanOf(line, ends), ...held].map((each) => add(each, ratio(line.handling))).reduce(larger);
    })
    .reduce(least);
}

/** Each model ends at a time of its own. */
const meanOf = ({ models }: Line, ends: readonly Ratio[]): Ratio =>
  models.length === 0
    ? ends[0]!
    : models.map(({ share }, model) => multiply(share, ends[model]!)).reduce(add);

function modelRow(line: Line, model: number): number[] {
  return line.tasks.map(({ times, every }) => {
    const own = times.length === 1 ? times[0]! : times[model]!;
    return own === null ? 0 : (own * PARTS) / every;
  });
}

/** The first cycle, of all at which a machine is just busy all the time, that the machines that exist keep up with; null: none. */
function machinesNeed(line: Line, stations: readonly (readonly number[])[]): Ratio | null {
  let need = ZERO;
  for (const [name, count] of line.equipment) {
    const busy = stations.flatMap((tasks) => {
      const users = tasks.filter((task) => line.tasks[task]!.equipment.includes(name));
      return users.length === 0 ? [] : [users.map((task) => busyOf(line, task)).reduce(add)];
    });
    if (busy.length > count) return null;
    const candidates = busy
      .flatMap((each) => Array.from({ length: count }, (_, at) => divide(each, ratio(at + 1))))
      .filter((each) => compare(each, ZERO) > 0)
      .sort(compare);
    const own = candidates.find(
      (cycle) => busy.reduce((sum, each) => sum + unitsFor(each, cycle), 0) <= count,
    );
    need = larger(need, own ?? ZERO);
  }
  return need;
}

function busyOf(line: Line, task: number): Ratio {
  const { machineTime, every, load, times } = line.tasks[task]!;
  if (machineTime === 0) return ZERO;
  const has = times
    .map((own, model) => (own === null ? ZERO : times.length === 1 ? ONE : line.models[model]!.share))
    .reduce(add);
  return add(load, multiply(has, ratio(machineTime, every)));
}

function unitsFor(busy: Ratio, cycle: Ratio): number {
  const { num, den } = divide(busy, cycle);
  return Math.max(1, Number((num + den - 1n) / den));
}
