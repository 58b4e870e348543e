import type { Line } from "../line/line.js";
import { columnOf, handsOnce, handsPerGoodUnit, takingOverAgain } from "../line/task-load.js";
import { seldomNumbers, type UnitKind, unitKinds } from "../line/unit-kinds.js";
import { moreOftenWithAllWork } from "../line/visits.js";
import {
  add,
  compare,
  divide,
  larger,
  multiply,
  ONE,
  type Ratio,
  ratio,
  subtract,
  ZERO,
} from "../time/ratio.js";
import type { Station } from "./plan.js";
import { floorStationOf } from "./station-numbers.js";
import { orderStation, type StationOrder, takersOf } from "./station-order.js";

/** What a task takes of its station for one unit, in microseconds. */
type Takes = (task: number) => Ratio;

/** The same of hands and then of the machine that runs by itself. */
interface TakesOfUnit {
  readonly hand: Takes;
  readonly machine: Takes;
}

/** How long a unit keeps one equipment, from the first start of tasks on it to the last end, in microseconds from its arrival. */
export interface EquipmentHold {
  readonly name: string;
  /** Indexes of the tasks on it. */
  readonly members: readonly number[];
  readonly start: Ratio;
  readonly end: Ratio;
}

/** One unit at one place of a station, in microseconds from its arrival; lists are parallel to the tasks of the station. */
export interface UnitSchedule {
  readonly starts: readonly Ratio[];
  /** When the hands of each task are done. */
  readonly handEnds: readonly Ratio[];
  /** The same with what a machine then runs. */
  readonly ends: readonly Ratio[];
  readonly holds: readonly EquipmentHold[];
}

/**
 * When each task of a station starts, from the arrival of the unit, in microseconds; parallel to the station's tasks. Units of each kind
 * have starts of their own: these are the mean of them, with a task that a unit does not have as one of no time.
 */
export function taskStarts(line: Line, station: Station): Ratio[] {
  const ofUnits = scheduleUnits(line, station);
  const all = ofUnits.map(({ share }) => share).reduce(add, ZERO);
  if (compare(all, ZERO) === 0) return station.tasks.map(() => ZERO);
  return station.tasks.map((_, at) =>
    divide(
      meanOf(ofUnits, ({ starts }) => starts[at]!),
      all,
    ),
  );
}

/**
 * Station time of the mix, in microseconds: how long the busiest person of one place works for a good unit on average. People who work
 * together have the sum of the loads; those who share the work, and those at the sides of a wide product, the loads of their own tasks.
 */
export const meanTimeAt = (line: Line, station: Station): Ratio =>
  busiest(station, (task) => line.tasks[task]!.load);

/**
 * What a station takes for a unit of a model, in microseconds: (task time + walking) x visits of the tasks of the busiest person. Where it has
 * sides, one may wait for the other, and it is dwell / units that may stand at a place where that is longer.
 */
export function modelTime(line: Line, station: Station, model: number): Ratio {
  const busy = busiest(station, (task) => handsPerGoodUnit(line.tasks[task]!, model));
  if (station.sides === null) return busy;
  const stands = kindsAt(line, station)
    .map((kind) => multiply(kind.share, endOf(line, station, dueOf(line, model, kind))))
    .reduce(
      add,
      allAgain(line, station, model, (task) => extraVisits(line, task, model)),
    );
  return larger(busy, forEachUnit(line, station, stands));
}

/**
 * The same of a unit of a model on which the work of just these numbers of units is due, in microseconds, so that the mean over the kinds of
 * units is the time of the model. Where there is one such number, what a test on those units has done again is done on them; with several, and
 * at sides, it is spread over all units.
 */
export function timeOfUnit(line: Line, station: Station, model: number, isDue: UnitKind["isDue"]): Ratio {
  if (station.sides === null) {
    const more = moreOnUnit(line, station, model, isDue);
    return busiest(station, (task) => multiply(handsPerGoodUnit(line.tasks[task]!, model), more(task)));
  }
  return timeAtSides(line, station, model, dueOf(line, model, { isDue }), (task) =>
    extraVisits(line, task, model),
  );
}

/** How much more often than on average tasks are done for a unit on which just these are due. */
function moreOnUnit(line: Line, { tasks }: Station, model: number, isDue: UnitKind["isDue"]): Takes {
  const [number, ...others] = seldomNumbers(tasks.map((task) => line.tasks[task]!.every));
  // All tasks of the line are looked at only where the station has such work.
  const isOnly = () => line.tasks.every(({ every }) => every === 1 || every === number);
  if (number === undefined || others.length > 0 || !isOnly())
    return (task) => (isDue(line.tasks[task]!.every) ? ratio(line.tasks[task]!.every) : ZERO);
  const withIt = moreWithAllWork(line, model);
  if (isDue(number)) return withIt;
  // n x mean = once with the work + (n - 1) x without it.
  return (task) => divide(subtract(ratio(number), withIt(task)), ratio(number - 1));
}

function moreWithAllWork(line: Line, model: number): Takes {
  const more = moreOftenWithAllWork(line);
  return (task) => more[task]![columnOf(line.tasks[task]!, model)]!;
}

/** The same of a unit that gets all the work done on every so many units only. */
export function peakTimeAt(line: Line, station: Station, model: number): Ratio {
  const moreOf = moreWithAllWork(line, model);
  const takes = onceFor(line, model);
  if (station.sides === null) {
    return busiest(station, (task) => multiply(handsPerGoodUnit(line.tasks[task]!, model), moreOf(task)));
  }
  const often = (task: number) => multiply(visitsOf(line, task, model), moreOf(task));
  return timeAtSides(line, station, model, takes, (task) => larger(ZERO, subtract(often(task), ONE)));
}

/** What is done once and what is done again on a unit: of the busiest side, or where that is longer dwell / units at a place. */
function timeAtSides(line: Line, station: Station, model: number, once: TakesOfUnit, extra: Takes): Ratio {
  const { hand } = againFor(line, model, extra);
  const busy = busiest(station, (task) => add(once.hand(task), hand(task)));
  const stands = add(endOf(line, station, once), allAgain(line, station, model, extra));
  return larger(busy, forEachUnit(line, station, stands));
}

/** Hands and machines of all tasks on visits beyond those that are due, one after another. */
function allAgain(line: Line, station: Station, model: number, extra: Takes): Ratio {
  const { hand, machine } = againFor(line, model, extra);
  return sumAt(station, (task) => add(hand(task), machine(task)));
}

const endOf = (line: Line, station: Station, takes: TakesOfUnit): Ratio =>
  work(orderStation(line, station), station, takes).ends.reduce(larger, ZERO);

const forEachUnit = (line: Line, { id }: Station, stands: Ratio): Ratio =>
  divide(stands, ratio(floorStationOf(line, id)?.holds ?? line.holds));

/**
 * Dwell, in microseconds: how long a good unit stands at a place on average, from its first start to the end of the last thing done
 * there, what machines run by themselves included; what is done again comes on top, one after another. Where nothing runs by itself and
 * nobody works beside anybody else, that is the sum of the loads.
 */
export function dwellAt(line: Line, station: Station): Ratio {
  if (isPlain(line, station)) return sumAt(station, (task) => line.tasks[task]!.load);
  return add(
    meanOf(scheduleUnits(line, station), ({ ends }) => ends.reduce(larger, ZERO)),
    meanAgain(line, station, station.tasks),
  );
}

/**
 * How long a good unit keeps each equipment of a station on average, by name in the order of the tasks, in microseconds: the sum of its
 * holds, and what is done again on it.
 */
export function equipmentTimes(line: Line, station: Station): Map<string, Ratio> {
  const names = new Set(station.tasks.flatMap((task) => line.tasks[task]!.equipment));
  if (names.size === 0) return new Map();
  if (line.countsShares && isPlain(line, station)) return heldOneAfterAnother(line, station, names);
  const ofUnits = scheduleUnits(line, station);
  return new Map(
    [...names].map((name) => {
      const users = station.tasks.filter((task) => line.tasks[task]!.equipment.includes(name));
      const held = meanOf(ofUnits, ({ holds }) =>
        holds
          .flatMap((each) => (each.name === name ? [subtract(each.end, each.start)] : []))
          .reduce(add, ZERO),
      );
      return [name, add(held, meanAgain(line, station, users))];
    }),
  );
}

/**
 * The same where one thing is done after another and some tasks are on a share of the units only: all that is done from the first to the last
 * task of each hold, each on the units that have it. So no station holds an equipment for longer than its people work.
 */
function heldOneAfterAnother(line: Line, station: Station, names: ReadonlySet<string>): Map<string, Ratio> {
  const { tasks } = station;
  const { holds } = orderStation(line, station);
  const held = ({ members }: { readonly members: readonly number[] }) =>
    tasks
      .slice(Math.min(...members), Math.max(...members) + 1)
      .map((task) => line.tasks[task]!.load)
      .reduce(add, ZERO);
  const heldOf = (name: string) =>
    holds.filter((each) => each.name === name).reduce((sum, each) => add(sum, held(each)), ZERO);
  return new Map([...names].map((name) => [name, heldOf(name)]));
}

/**
 * How long a unit of a model on which the work of just these numbers of units is due stands at a place, in microseconds; what is done
 * again is spread over all units, so that the mean over the models and kinds of units is the dwell.
 */
export function dwellOfUnit(line: Line, station: Station, model: number, isDue: UnitKind["isDue"]): Ratio {
  return add(dwellOnce(line, station, model, isDue), againOf(line, station, station.tasks, model));
}

/** The same where nothing is done again. */
export const dwellOnce = (line: Line, station: Station, model: number, isDue: UnitKind["isDue"]): Ratio =>
  endOf(line, station, dueOf(line, model, { isDue }));

/** The same of how long it keeps an equipment. */
export function heldByUnit(
  line: Line,
  station: Station,
  name: string,
  { model, isDue }: { readonly model: number } & Pick<UnitKind, "isDue">,
): Ratio {
  const { holds } = work(orderStation(line, station), station, dueOf(line, model, { isDue }));
  const users = station.tasks.filter((task) => line.tasks[task]!.equipment.includes(name));
  return holds
    .flatMap((each) => (each.name === name ? [subtract(each.end, each.start)] : []))
    .reduce(add, againOf(line, station, users, model));
}

/** Units of one model that have the same work of every n-th unit, with their share of all units. */
export interface UnitOfMix {
  readonly model: number;
  readonly kind: UnitKind;
  readonly share: Ratio;
  readonly schedule: UnitSchedule;
}

/** The schedule of a station for every model and every kind of its units; the shares make 1 but where only some units have any work there. */
export function scheduleUnits(line: Line, station: Station): UnitOfMix[] {
  const order = orderStation(line, station);
  const kinds = kindsAt(line, station);
  return sharesOf(line).flatMap((share, model) => {
    const worked = multiply(share, shareWorked(line, station, model));
    return kinds.map((kind) => ({
      model,
      kind,
      share: multiply(worked, kind.share),
      schedule: work(order, station, dueOf(line, model, kind)),
    }));
  });
}

/**
 * The share of the units of a model that have any work at the station, where benches are counted on the units that carry their parts; 1
 * on every other line. Tasks that fewer units have are taken to be on as many.
 */
function shareWorked(line: Line, { tasks }: Station, model: number): Ratio {
  if (!line.countsShares) return ONE;
  const often = tasks.map((task) => multiply(visitsOf(line, task, model), ratio(line.tasks[task]!.every)));
  return smaller(ONE, often.reduce(larger, ZERO));
}

function meanOf(units: readonly UnitOfMix[], timeOf: (schedule: UnitSchedule) => Ratio): Ratio {
  return units.map(({ share, schedule }) => multiply(share, timeOf(schedule))).reduce(add, ZERO);
}

/** Hand work and machine time of these tasks at the station on the visits beyond those that are due, of the mix. */
function meanAgain(line: Line, station: Station, tasks: readonly number[]): Ratio {
  return sharesOf(line)
    .map((share, model) => multiply(share, againOf(line, station, tasks, model)))
    .reduce(add, ZERO);
}

function againOf(line: Line, station: Station, tasks: readonly number[], model: number): Ratio {
  const worked = shareWorked(line, station, model);
  const extra = (task: number) => extraVisits(line, task, model, worked);
  const { hand, machine } = againFor(line, model, extra);
  return tasks.map((task) => add(hand(task), machine(task))).reduce(add, ZERO);
}

/** Visits beyond share worked / every; never below 0: work that only a share of the units has is taken to be on all of them. */
const extraVisits = (line: Line, task: number, model: number, worked = ONE): Ratio =>
  larger(ZERO, subtract(visitsOf(line, task, model), divide(worked, ratio(line.tasks[task]!.every))));

/** Nothing runs by itself and nobody works beside anybody else: a unit stands as long as hands work on it. */
export const isPlain = (line: Line, { tasks, sides, persons }: Station): boolean =>
  sides === null && persons === null && tasks.every((task) => line.tasks[task]!.machineTime === 0);

const sharesOf = ({ models }: Line): readonly Ratio[] =>
  models.length === 0 ? [ONE] : models.map(({ share }) => share);

const kindsAt = (line: Line, { tasks }: Station): UnitKind[] =>
  unitKinds(tasks.map((task) => line.tasks[task]!.every));

/** What each task takes of a unit of a model, done once; 0 for a task that the model does not have. */
function onceFor(line: Line, model: number): TakesOfUnit {
  return {
    hand: (task) => ratio(handsOnce(line.tasks[task]!, model)),
    machine: (task) => ratio(hasTask(line, task, model) ? line.tasks[task]!.machineTime : 0),
  };
}

/** What each task takes of it again, done so much more often; parts are taken over again only where they come anew. */
function againFor(line: Line, model: number, extra: Takes): TakesOfUnit {
  const once = onceFor(line, model);
  return {
    hand: (task) => {
      const own = handsOnce({ ...line.tasks[task]!, takenOver: [] }, model);
      return add(multiply(ratio(own), extra(task)), takingOverAgain(line.tasks[task]!, model));
    },
    machine: (task) => multiply(once.machine(task), extra(task)),
  };
}

const hasTask = (line: Line, task: number, model: number): boolean =>
  line.tasks[task]!.times[columnOf(line.tasks[task]!, model)] !== null;

function dueOf(line: Line, model: number, { isDue }: Pick<UnitKind, "isDue">): TakesOfUnit {
  const { hand, machine } = onceFor(line, model);
  const due =
    (takes: Takes): Takes =>
    (task) =>
      isDue(line.tasks[task]!.every) ? takes(task) : ZERO;
  return { hand: due(hand), machine: due(machine) };
}

function visitsOf(line: Line, task: number, model: number): Ratio {
  return line.tasks[task]!.visits[columnOf(line.tasks[task]!, model)]!;
}

const sumAt = ({ tasks }: Station, takes: Takes): Ratio => tasks.map(takes).reduce(add, ZERO);

/** What the busiest person of a place takes; people who work together are all as busy as the work is long. */
function busiest(station: Station, takes: Takes): Ratio {
  const takers = station.tasks.map((_, at) => takersOf(station, at));
  return [...new Set(takers.flat())]
    .map((person) =>
      station.tasks.map((task, at) => (takers[at]!.includes(person) ? takes(task) : ZERO)).reduce(add, ZERO),
    )
    .reduce(larger, ZERO);
}

/** Every task at the earliest time that the order of the station allows. */
function work(
  { turns, holds }: StationOrder,
  { tasks }: Station,
  { hand, machine }: TakesOfUnit,
): UnitSchedule {
  const [starts, handEnds, ends]: [Ratio[], Ratio[], Ratio[]] = [[], [], []];
  for (const { at, hands, whole } of turns) {
    const start = [...hands.map((each) => handEnds[each]!), ...whole.map((each) => ends[each]!)].reduce(
      larger,
      ZERO,
    );
    starts[at] = start;
    handEnds[at] = add(start, hand(tasks[at]!));
    ends[at] = add(handEnds[at], machine(tasks[at]!));
  }
  return {
    starts,
    handEnds,
    ends,
    holds: holds.map(({ name, members }) => ({
      name,
      members,
      start: members.map((each) => starts[each]!).reduce(smaller),
      end: members.map((each) => ends[each]!).reduce(larger),
    })),
  };
}

const smaller = (one: Ratio, two: Ratio): Ratio => (compare(two, one) < 0 ? two : one);
