import type { Line, Task } from "../line/line.js";
import { handlingAt } from "../line/passes.js";
import { columnOf, handsOnce, handsPerGoodUnit } from "../line/task-load.js";
import { stationTime, workingTime } from "../plan/figures/working-time.js";
import { modelsInTurn, modelsMet } from "../plan/models/models-in-turn.js";
import type { Plan, Station } from "../plan/plan.js";
import { postsOf } from "../plan/post.js";
import { orderStation } from "../plan/station-order.js";
import type { Micros } from "../time/duration.js";
import { paceFromCycle } from "../time/pace.js";
import {
  add,
  compare,
  divide,
  floor,
  larger,
  multiply,
  type Ratio,
  ratio,
  sum,
  ZERO,
} from "../time/ratio.js";
import type { Hours } from "./day-hours.js";
import { factorsOf, type Stream } from "./draw-times.js";
import { drawsFailures } from "./tested-units.js";

/**
 * How long a unit, counted from 0, stands at a place of a station until everything there is done.
 *
 * @param due by task of the line: 1 where it is done on this visit; null where all of it is
 * @param from when its work begins, in time that the station works; breakdowns put off what follows them
 */
export type WorkOfUnit = (unit: number, stream: Stream, due: Uint8Array | null, from: Micros) => Micros;

/** What the tasks of a station take of one unit, drawn into a list of hands and one of machines, parallel to its tasks. */
export interface TimesOfUnit {
  /** Gives whether the unit is handled. */
  draw(unit: number, stream: Stream, due: Uint8Array | null, hands: Micros[], machines: Micros[]): boolean;
  readonly handling: Micros;
}

/**
 * Where failures are not drawn, every task is worked as often as a good unit needs on average, so that nothing is left out for tests and scrap.
 * Work of every so many units is done on these. Hand work varies, machines do not.
 *
 * @param sequence models of the units, again and again
 * @param once each task is worked once on a visit, as failures are drawn one by one
 * @param timesAsLong all work takes so many times as long; handling does not
 */
export function timesOfUnits(
  line: Line,
  station: Station,
  sequence: readonly number[],
  once: boolean,
  timesAsLong: number,
): TimesOfUnit {
  const { turns } = orderStation(line, station);
  const tasks = station.tasks.map((task) => line.tasks[task]!);
  const models = [...new Array(Math.max(1, line.models.length)).keys()];
  const hands = tasks.map((task) =>
    models.map((model) =>
      once ? handsOnce(task, model) : whole(multiply(handsPerGoodUnit(task, model), ratio(task.every))),
    ),
  );
  const machines = tasks.map((task) =>
    models.map((model) => {
      const column = columnOf(task, model);
      if (task.times[column] === null) return 0;
      const often = once ? ratio(1, task.every) : task.visits[column]!;
      return whole(multiply(ratio(task.machineTime * task.every), often));
    }),
  );
  const factors = tasks.map(({ variation }) => factorsOf(variation));
  const order = turns.map(({ at }) => at);
  const everies = tasks.map(({ every }) => every);
  const isSure = factors.every((each) => each === null);
  return {
    handling: once ? line.handling : whole(handlingAt(line, line, station.tasks)),
    draw(unit, stream, due, handsOfUnit, machinesOfUnit) {
      const model = models.length === 1 ? 0 : sequence[unit % sequence.length]!;
      let isHandled = due === null || tasks.length === 0;
      for (let turn = 0; turn < order.length; turn++) {
        const at = order[turn]!;
        const every = everies[at]!;
        const isAsked = due === null || due[station.tasks[at]!] === 1;
        if (isAsked) isHandled = true;
        const isDue = isAsked && (every === 1 || unit % every === every - 1);
        // Drawn for each unit, so that what one unit lacks moves no other one's times.
        const factor = isSure ? 1 : (factors[at]?.(stream) ?? 1);
        handsOfUnit[at] = isDue ? Math.round(hands[at]![model]! * factor * timesAsLong) : 0;
        const machine = isDue ? machines[at]![model]! : 0;
        machinesOfUnit[at] = timesAsLong === 1 ? machine : Math.round(machine * timesAsLong);
      }
      return isHandled;
    },
  };
}

/**
 * The work of a station unit by unit, as its tasks follow each other there.
 *
 * @param hours machines go on in their pauses; null where there are none
 */
export function workOfStation(
  line: Line,
  station: Station,
  sequence: readonly number[],
  once: boolean,
  timesAsLong = 1,
  hours: Hours | null = null,
): WorkOfUnit {
  const { turns } = orderStation(line, station);
  const pauses = station.tasks.some((task) => line.tasks[task]!.machineTime > 0) ? hours : null;
  // With pauses each stretch of work is made longer, not what they leave of it.
  const [stretch, asLong] = pauses === null ? [1, timesAsLong] : [timesAsLong, 1];
  const times = timesOfUnits(line, station, sequence, once, stretch);
  const { handling } = times;
  const [hands, machines, handEnds, ends] = Array.from({ length: 4 }, () => station.tasks.map(() => 0)) as [
    number[],
    number[],
    number[],
    number[],
  ];
  return (unit, stream, due, from) => {
    const isHandled = times.draw(unit, stream, due, hands, machines);
    let last = 0;
    for (const { at, hands: before, whole: ended } of turns) {
      let start = 0;
      for (const each of before) start = Math.max(start, handEnds[each]!);
      for (const each of ended) start = Math.max(start, ends[each]!);
      handEnds[at] = start + hands[at]!;
      ends[at] = endOfMachine(pauses, from, handEnds[at]!, machines[at]!);
      last = Math.max(last, ends[at]!);
    }
    const worked = asLong === 1 ? last : Math.round(last * asLong);
    return isHandled ? worked + handling : worked;
  };
}

/** When a machine has run that starts so long after a moment; counted from that moment. */
export function endOfMachine(hours: Hours | null, from: Micros, start: Micros, takes: Micros): Micros {
  if (hours === null || takes === 0) return start + takes;
  return hours.unattendedUntil(from + start, takes) - from;
}

/** To the nearest microsecond. */
const whole = (time: Ratio): Micros => Number(floor(add(time, ratio(1, 2))));

/** Whether anything of a plan is drawn at random. */
export const isRandom = (line: Line, plan: Plan): boolean =>
  line.flow.breakdowns.length > 0 ||
  drawsFailures(line, plan) ||
  [...plan.stations, ...(plan.benches ?? [])].some(({ tasks }) =>
    tasks.some((task) => line.tasks[task]!.variation !== null),
  );

/** The largest share of its working time that the work of a station takes; 0 where handling leaves none. */
export const highestLoad = (line: Line, plan: Plan, lineCycle: Micros): Ratio => {
  const pace = { ...paceFromCycle(lineCycle), handling: line.handling };
  return postsOf(line, pace, plan)
    .map((post) => {
      const working = workingTime(post, pace.lineCycle);
      return working.num > 0n ? divide(stationTime(post), working) : ZERO;
    })
    .reduce((one, two) => (compare(one, two) >= 0 ? one : two), ZERO);
};

/**
 * The mean work of a station that takes longest for one place, in microseconds: of the models as they follow each other, whatever their shares
 * are, and of work of every so many units on the models that it meets.
 */
export function longestWork(line: Line, plan: Pick<Plan, "stations">): Ratio {
  const models = modelsInTurn(line, plan)?.models ?? [0];
  const workOf = (task: Task): Ratio => {
    const met = modelsMet(models, task.every);
    const works = new Map([...new Set(met)].map((model) => [model, handsPerGoodUnit(task, model)]));
    return divide(sum(met.map((model) => works.get(model)!)), ratio(met.length));
  };
  return plan.stations
    .map(({ tasks, places }) =>
      multiply(
        tasks.map((task) => workOf(line.tasks[task]!)).reduce(add, handlingAt(line, line, tasks)),
        ratio(1, places),
      ),
    )
    .reduce(larger, ZERO);
}
