import type { Line, Task } from "../../line/line.js";
import type { Ratio } from "../../time/ratio.js";
import type { StationView } from "./plan-view.js";
import { addUp } from "./whole-times.js";

/** What a good unit takes of a place on average, in microseconds. */
export interface UnitWork {
  /** Until the last hands are done and the last machine has run. */
  readonly allDone: Ratio;
  /** How long each equipment is kept, by name. */
  readonly held: ReadonlyMap<string, Ratio>;
}

/** Tasks at one place: who does what is said by the station. */
type Place = Pick<StationView, "tasks" | "sides" | "persons">;

/**
 * What a good unit of the mix takes of a place; null where the order of work would have holds of one equipment wait for each other.
 * Work done again is worked by itself, one after another.
 */
export function workOfMix(line: Line, at: Place): UnitWork | null {
  const models = line.models.length === 0 ? [ONE] : line.models.map(({ share }) => share);
  const order = orderOf(line, at);
  if (isCircular(order, at.tasks.length)) return null;
  const works = models.map((share, model) => ({ share, work: workIn(line, at, order, model) }));
  const mean = (of: (work: UnitWork) => Ratio) =>
    addUp(works.map(({ share, work }) => times(share, of(work))));
  const isInTurn = line.countsShares && isOneAfterAnother(line, at);
  return {
    allDone: mean(({ allDone }) => allDone),
    held: new Map(
      order.names.map((name) => [
        name,
        isInTurn ? keptInTurn(line, at, order.holds.get(name)!) : mean(({ held }) => held.get(name)!),
      ]),
    ),
  };
}

/** Whether the people of a place do all together, and no machine runs without them. */
const isOneAfterAnother = (line: Line, { tasks, sides, persons }: Place): boolean =>
  sides === null && persons === null && tasks.every((task) => line.tasks[task]!.machineTime === 0);

/** What is done from the first to the last task of each hold, a task that a share of the units has on these alone. */
function keptInTurn(line: Line, { tasks }: Place, holds: readonly (readonly number[])[]): Ratio {
  const within = holds.flatMap((hold) => {
    const [first, last] = [
      hold.reduce((one, two) => Math.min(one, two)),
      hold.reduce((one, two) => Math.max(one, two)),
    ];
    return tasks.slice(first, last + 1);
  });
  return addUp(within.map((task) => line.tasks[task]!.load));
}

/** The same of a good unit of one model. */
export function workOfModel(line: Line, at: Place, model: number): UnitWork | null {
  const order = orderOf(line, at);
  return isCircular(order, at.tasks.length) ? null : workIn(line, at, order, model);
}

/**
 * Units with work of every n-th unit take longer: for each set of such numbers, what having all of them adds beyond its smaller sets, on
 * one of their least common multiple.
 */
function workIn(line: Line, at: Place, order: Order, model: number): UnitWork {
  const tasks = at.tasks.map((task) => line.tasks[task]!);
  const numbers = [...new Set(tasks.map(({ every }) => every))].filter((every) => every !== 1);
  const sets = subsetsOf(numbers);
  const worked = sets.map((due) =>
    workOnce(order, tasks, (task) => (task.every === 1 || due.includes(task.every) ? model : null)),
  );
  const some = shareWithAny(line, tasks, model);
  const mean = (of: (once: OnceWorked) => bigint): Ratio =>
    times(
      some,
      addUp(
        sets.map((set) => {
          const more = sets.reduce((sum, part, index) => {
            if (!part.every((number) => set.includes(number))) return sum;
            const own = of(worked[index]!);
            return (set.length - part.length) % 2 === 0 ? sum + own : sum - own;
          }, 0n);
          return { num: more, den: set.reduce(commonMultiple, 1n) };
        }),
      ),
    );
  const again = (users: readonly Task[]) =>
    users.flatMap((task) => {
      const own = handOf(task, model) - takenOnce(task, model) + machineOf(task, model);
      return [timesAgain(task, model, own, some), ...takenAgain(task, model)];
    });
  return {
    allDone: addUp([mean(({ allDone }) => allDone), ...again(tasks)]),
    held: new Map(
      order.names.map((name) => {
        const users = tasks.filter(({ equipment }) => equipment.includes(name));
        return [name, addUp([mean(({ held }) => held.get(name)!), ...again(users)])];
      }),
    ),
  };
}

/** What must be over before each task starts, by index in the list of the station. */
interface Order {
  /** Tasks whose hands are needed. */
  readonly byHand: readonly (readonly number[])[];
  /** Tasks that must have ended with their machines. */
  readonly byEnd: readonly (readonly number[])[];
  readonly names: readonly string[];
  /** By name the indexes of the tasks of each hold. */
  readonly holds: ReadonlyMap<string, readonly (readonly number[])[]>;
}

function orderOf(line: Line, { tasks, sides, persons }: Place): Order {
  const isShared = (one: number, two: number): boolean => {
    if (persons !== null) return persons[one]!.some((each) => persons[two]!.includes(each));
    return sides === null || sides[one] === "both" || sides[two] === "both" || sides[one] === sides[two];
  };
  const earlier = (at: number) => [...tasks.keys()].slice(0, at);
  const isTogether = persons === null && sides === null;
  const byHand = tasks.map((_, at) =>
    isTogether ? earlier(at).slice(-1) : earlier(at).filter((before) => isShared(before, at)),
  );
  const byEnd = tasks.map((task, at) =>
    earlier(at).filter((before) => line.before[task]!.includes(tasks[before]!)),
  );
  const names = [...new Set(tasks.flatMap((task) => line.tasks[task]!.equipment))];
  const reached = names.length === 0 ? [] : reachOf(line, tasks);
  const holds = new Map(names.map((name) => [name, holdsOf(line, tasks, reached, name)]));
  for (const list of holds.values()) {
    for (const [number, hold] of list.entries())
      for (const at of hold) byEnd[at]!.push(...list.slice(0, number).flat());
  }
  return { byHand, byEnd, names, holds };
}

/** For each task which others of the station come after it along arrows there. */
function reachOf(line: Line, tasks: readonly number[]): boolean[][] {
  const reached = tasks.map((task) => tasks.map((later) => line.before[later]!.includes(task)));
  for (const [middle] of tasks.entries()) {
    for (const row of reached) {
      if (!row[middle]) continue;
      for (const [last] of tasks.entries()) row[last] ||= reached[middle]![last]!;
    }
  }
  return reached;
}

/** Tasks on an equipment that come after each other are one hold; holds in the order of their first tasks. */
function holdsOf(
  line: Line,
  tasks: readonly number[],
  reached: readonly boolean[][],
  name: string,
): number[][] {
  const left = new Set([...tasks.keys()].filter((at) => line.tasks[tasks[at]!]!.equipment.includes(name)));
  const holds: number[][] = [];
  for (const first of left) {
    const hold = new Set([first]);
    for (const at of hold)
      for (const other of left) if (reached[at]![other] || reached[other]![at]) hold.add(other);
    for (const at of hold) left.delete(at);
    holds.push([...hold]);
  }
  return holds;
}

/** Whether tasks wait for each other, whatever they take. */
const isCircular = (order: Order, count: number): boolean =>
  startsOf(
    order,
    Array.from({ length: count }, () => 1n),
    Array.from({ length: count }, () => 0n),
  ) === null;

/** The earliest starts, found by putting tasks off again and again until nothing is in their way; null where that never ends. */
function startsOf(
  { byHand, byEnd }: Order,
  hands: readonly bigint[],
  machines: readonly bigint[],
): bigint[] | null {
  const starts = hands.map(() => 0n);
  for (let pass = 0; pass <= hands.length; pass++) {
    let isStill = true;
    for (const at of starts.keys()) {
      let start = starts[at]!;
      for (const before of byHand[at]!) start = later(start, starts[before]! + hands[before]!);
      for (const before of byEnd[at]!)
        start = later(start, starts[before]! + hands[before]! + machines[before]!);
      if (start !== starts[at]) isStill = false;
      starts[at] = start;
    }
    if (isStill) return starts;
  }
  return null;
}

interface OnceWorked {
  readonly allDone: bigint;
  readonly held: ReadonlyMap<string, bigint>;
}

/** One unit with each task done once, on those that have it: `modelOf` gives the model whose time counts, null for none. */
function workOnce(order: Order, tasks: readonly Task[], modelOf: (task: Task) => number | null): OnceWorked {
  const timeOf = (time: (task: Task, model: number) => bigint) =>
    tasks.map((task) => {
      const model = modelOf(task);
      return model === null ? 0n : time(task, model);
    });
  const [hands, machines] = [timeOf(handOf), timeOf(machineOf)];
  const starts = startsOf(order, hands, machines)!;
  const ends = starts.map((start, at) => start + hands[at]! + machines[at]!);
  const spanOf = (hold: readonly number[]) => {
    const start = hold.map((at) => starts[at]!).reduce(sooner);
    return hold.reduce((latest, at) => later(latest, ends[at]!), start) - start;
  };
  return {
    allDone: ends.reduce(later, 0n),
    held: new Map(
      [...order.holds].map(([name, holds]) => [name, holds.reduce((sum, hold) => sum + spanOf(hold), 0n)]),
    ),
  };
}

const sooner = (one: bigint, two: bigint): bigint => (one > two ? two : one);
const later = (one: bigint, two: bigint): bigint => (one > two ? one : two);

/** Task time + walking of a model, and parts taken over, 0 where it does not have the task. */
function handOf(task: Task, model: number): bigint {
  const own = task.times[columnOf(task, model)]!;
  return own === null ? 0n : BigInt(own + task.walking) + takenOnce(task, model);
}

/** Parts of benches taken over once, where units of the model carry any. */
function takenOnce({ times: own, takenOver = [] }: Task, model: number): bigint {
  const column = own.length === 1 ? 0 : model;
  let sum = 0n;
  for (const { time, often } of takenOver) if (often[column]!.num > 0n) sum += BigInt(time);
  return sum;
}

const machineOf = (task: Task, model: number): bigint =>
  task.times[columnOf(task, model)] === null ? 0n : BigInt(task.machineTime);

const columnOf = ({ times: own }: Task, model: number): number => (own.length === 1 ? 0 : model);

/** A time x (visits - the share that is first worked / every); never below 0: work of a share of the units is counted on all of those. */
function timesAgain(task: Task, model: number, time: bigint, { num, den }: Ratio): Ratio {
  const visits = task.visits[columnOf(task, model)]!;
  const every = BigInt(task.every);
  const more = visits.num * every * den - num * visits.den;
  return { num: more > 0n ? time * more : 0n, den: visits.den * every * den };
}

/** Parts taken over on more units than those that are first worked on of the model, as where units are scrapped later. */
function takenAgain(task: Task, model: number): Ratio[] {
  const column = columnOf(task, model);
  if (task.times[column] === null) return [];
  return (task.takenOver ?? []).flatMap(({ time, often }) => {
    const [{ num, den }, every] = [often[column]!, BigInt(task.every)];
    return num * every > den ? [{ num: BigInt(time) * (num * every - den), den: den * every }] : [];
  });
}

/** The share of the units that have any of the tasks, where loads count the tasks of benches on the units that carry their parts; else 1. */
function shareWithAny({ countsShares }: Line, tasks: readonly Task[], model: number): Ratio {
  if (!countsShares) return ONE;
  let most: Ratio = { num: 0n, den: 1n };
  for (const task of tasks) {
    const { num, den } = task.visits[columnOf(task, model)]!;
    const often = { num: num * BigInt(task.every), den };
    if (often.num * most.den > most.num * often.den) most = often;
  }
  return most.num > most.den ? ONE : most;
}

const ONE: Ratio = { num: 1n, den: 1n };

const times = (one: Ratio, two: Ratio): Ratio => ({ num: one.num * two.num, den: one.den * two.den });

function subsetsOf([first, ...others]: readonly number[]): number[][] {
  if (first === undefined) return [[]];
  const without = subsetsOf(others);
  return [...without, ...without.map((set) => [first, ...set])];
}

function commonMultiple(common: bigint, next: number): bigint {
  let [one, two] = [common, BigInt(next)];
  while (two > 0n) [one, two] = [two, one % two];
  return (common / one) * BigInt(next);
}
