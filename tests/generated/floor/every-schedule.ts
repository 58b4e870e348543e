import type { Line } from "../../../src/line/line.js";
import { type Ratio, ZERO } from "../../../src/time/ratio.js";
import { machineAgain, timeAgain, UNITS, unitRows } from "../../tools/unit-rows.js";

/** One way to work a station: its people, and what it takes of them, of its equipment and of the time of a unit, in parts of a microsecond. */
export interface ScheduleWay {
  readonly crew: number;
  /** Of the busiest person; sides have a person each. */
  readonly busy: number;
  /** The same by model. */
  readonly models: readonly number[];
  readonly dwell: number;
  /** With sides, how long a unit of each model stands; else none. */
  readonly stands: readonly number[];
  readonly held: ReadonlyMap<string, number>;
  /** Of each task that needs skills: these and the numbers of its people, of whom one has them all. */
  readonly asks: readonly AskedOf[];
}

export interface AskedOf {
  readonly skills: readonly string[];
  readonly people: readonly number[];
}

/** A task on the list with the numbers of its people. */
interface Done {
  readonly task: number;
  readonly people: readonly number[];
}

/** Times of one unit by task. */
interface Times {
  readonly hands: readonly number[];
  readonly machines: readonly number[];
}

/**
 * Every list of some tasks and every choice of who does them: the definition of a station's schedule, written down plainly, for up to
 * seven tasks. Ways that are nowhere better than another are left out.
 *
 * @param maxCrew the most people who share the work of a unit; 1: all work together
 * @param parts of a microsecond
 */
export function everySchedule(
  line: Line,
  tasks: readonly number[],
  maxCrew: number,
  parts: number,
): ScheduleWay[] {
  const isSided = line.tasks.some(({ side }) => side !== null);
  const together = Math.max(...tasks.map((task) => line.tasks[task]!.people));
  const crews = isSided || maxCrew === 1 ? [together] : upTo(together, Math.max(maxCrew, together));
  const ways = new Map<string, ScheduleWay>();
  for (const crew of crews) {
    for (const list of everyList(line, tasks, (task) => whoMay(line, task, crew, isSided, maxCrew > 1))) {
      const way = workOff(line, list, { crew, isSided, isShared: maxCrew > 1, parts });
      if (way !== null) ways.set(keyOf(way), way);
    }
  }
  return fewest([...ways.values()]);
}

const upTo = (from: number, to: number): number[] =>
  Array.from({ length: to - from + 1 }, (_, at) => from + at);

/** Sets of people who may do a task: everybody, one or both sides, or as many of the crew as it takes. */
function whoMay(line: Line, task: number, crew: number, isSided: boolean, isShared: boolean): number[][] {
  const { people, side } = line.tasks[task]!;
  if (isSided) {
    if (people > 1) return [[0, 1]];
    return side === "left" ? [[0]] : side === "right" ? [[1]] : [[0], [1]];
  }
  const all = Array.from({ length: crew }, (_, person) => person);
  return isShared ? subsets(all).filter((each) => each.length === people) : [all];
}

const subsets = (all: readonly number[]): number[][] =>
  Array.from({ length: 2 ** all.length }, (_, set) => all.filter((_each, at) => ((set >>> at) & 1) === 1));

function* everyList(
  line: Line,
  tasks: readonly number[],
  who: (task: number) => number[][],
  list: readonly Done[] = [],
): Generator<readonly Done[]> {
  if (list.length === tasks.length) yield list;
  const isListed = (task: number) => list.some((each) => each.task === task);
  for (const task of tasks) {
    if (isListed(task) || line.before[task]!.some((each) => tasks.includes(each) && !isListed(each)))
      continue;
    for (const people of who(task)) yield* everyList(line, tasks, who, [...list, { task, people }]);
  }
}

interface Terms {
  readonly crew: number;
  readonly isSided: boolean;
  readonly isShared: boolean;
  readonly parts: number;
}

/** Null where holds of one equipment wait for each other. */
function workOff(
  line: Line,
  list: readonly Done[],
  { crew, isSided, isShared, parts }: Terms,
): ScheduleWay | null {
  const models = [...Array(Math.max(1, line.models.length)).keys()];
  const value = ({ num, den }: Ratio) => (Number(num) * parts) / Number(den);
  const share = (model: number) => value(line.models[model]?.share ?? { num: 1n, den: 1n }) / parts;
  const allAgain = ({ task }: Done, model: number) =>
    value(timeAgain(line, task, model)) + value(machineAgain(line, task, model));
  const sum = (values: readonly number[]) => values.reduce((all, each) => all + each, 0);
  const holds = [...new Set(list.flatMap(({ task }) => line.tasks[task]!.equipment))].map(
    (name) => [name, holdsOf(line, list, name)] as const,
  );
  const one = { hands: line.tasks.map(() => 1), machines: line.tasks.map(() => 0) };
  if (startsOf(line, list, holds, one) === null) return null;
  const ends = models.map(() => 0);
  const held = new Map(holds.map(([name]) => [name, 0]));
  for (const { model, count, times, machines } of unitRows(line)) {
    const unit = { hands: times.map((each) => each * parts), machines: machines.map((each) => each * parts) };
    const starts = startsOf(line, list, holds, unit)!;
    const endOf = ({ task }: Done, at: number) => starts[at]! + unit.hands[task]! + unit.machines[task]!;
    ends[model]! += (Math.max(...list.map(endOf)) * count) / UNITS;
    for (const [name, own] of holds) {
      const spans = own.map(
        (hold) =>
          Math.max(...hold.map((at) => endOf(list[at]!, at))) - Math.min(...hold.map((at) => starts[at]!)),
      );
      held.set(name, held.get(name)! + (share(model) * sum(spans) * count) / UNITS);
    }
  }
  for (const [name] of holds) {
    const users = list.filter(({ task }) => line.tasks[task]!.equipment.includes(name));
    const again = models.map((model) => share(model) * sum(users.map((done) => allAgain(done, model))));
    held.set(name, held.get(name)! + sum(again));
  }
  const mean = (values: readonly number[]) => sum(values.map((each, model) => each * share(model)));
  const stands = ends.map((end, model) => end + sum(list.map((done) => allAgain(done, model))));
  const people = [...Array(isSided ? 2 : crew).keys()];
  const used = people.filter((person) => list.some((done) => done.people.includes(person)));
  const loadOf = (person: number, load: (task: number) => number) =>
    sum(list.filter((done) => done.people.includes(person)).map(({ task }) => load(task)));
  const busiest = (load: (task: number) => number) =>
    Math.max(...people.map((person) => loadOf(person, load)));
  const ofModel = (model: number) => (task: number) => {
    const { times, visits } = line.tasks[task]!;
    const column = times.length === 1 ? 0 : model;
    return (times[column] ?? 0) * value(visits[column] ?? ZERO);
  };
  return {
    crew: isSided
      ? Math.max(crew, used.length)
      : isShared
        ? crew
        : Math.max(...list.map(({ task }) => line.tasks[task]!.people)),
    busy: busiest((task) => value(line.tasks[task]!.load)),
    models: models.map((model) => busiest(ofModel(model))),
    dwell: mean(stands),
    stands: isSided ? stands : [],
    held,
    asks: asksOf(line, list),
  };
}

const asksOf = (line: Line, list: readonly Done[]): AskedOf[] =>
  line.people.length === 0
    ? []
    : list
        .map(({ task, people }) => ({ skills: line.tasks[task]!.skills, people }))
        .filter(({ skills }) => skills.length > 0);

/** Places on the list of the tasks of each hold of an equipment, in the order in which holds begin on it. */
function holdsOf(line: Line, list: readonly Done[], name: string): number[][] {
  const users = [...list.keys()].filter((at) => line.tasks[list[at]!.task]!.equipment.includes(name));
  const leads = (from: number, to: number): boolean =>
    line.before[list[to]!.task]!.some((earlier) => {
      const at = list.findIndex(({ task }) => task === earlier);
      return at >= 0 && (at === from || leads(from, at));
    });
  const holds: number[][] = [];
  for (const at of users) {
    const joined = holds.filter((hold) => hold.some((each) => leads(each, at)));
    for (const each of joined) holds.splice(holds.indexOf(each), 1);
    holds.push([...joined.flat(), at].sort((one, two) => one - two));
  }
  return holds.sort((one, two) => one[0]! - two[0]!);
}

/** The earliest starts, by rounds until none changes; null where they never do. */
function startsOf(
  line: Line,
  list: readonly Done[],
  holds: readonly (readonly [name: string, holds: readonly (readonly number[])[]])[],
  { hands, machines }: Times,
): number[] | null {
  const starts = list.map(() => 0);
  const handsEnd = (at: number) => starts[at]! + hands[list[at]!.task]!;
  const end = (at: number) => handsEnd(at) + machines[list[at]!.task]!;
  const waitsFor = list.map(({ task, people }, at) => {
    const busy = list.flatMap((other, earlier) =>
      earlier < at && other.people.some((person) => people.includes(person)) ? [earlier] : [],
    );
    const before = list.flatMap((other, earlier) =>
      line.before[task]!.includes(other.task) ? [earlier] : [],
    );
    const blocked = holds.flatMap(([, all]) => {
      const own = all.findIndex((hold) => hold.includes(at));
      return own <= 0 ? [] : all.slice(0, own).flat();
    });
    return { busy, ended: [...before, ...blocked] };
  });
  for (let round = 0; round <= list.length + 1; round++) {
    let changes = false;
    for (const [at, { busy, ended }] of waitsFor.entries()) {
      const start = Math.max(0, ...busy.map(handsEnd), ...ended.map(end));
      if (start === starts[at]) continue;
      starts[at] = start;
      changes = true;
    }
    if (!changes) return starts;
  }
  return null;
}

const numbersOf = ({ crew, busy, models, dwell, stands, held }: ScheduleWay) => [
  crew,
  busy,
  ...models,
  dwell,
  ...stands,
  ...held.values(),
];
const whoOf = ({ asks }: ScheduleWay) =>
  asks
    .map(({ skills, people }) => `${skills}: ${people}`)
    .sort()
    .join("; ");
const keyOf = (way: ScheduleWay) => `${numbersOf(way)} ${whoOf(way)}`;

function fewest(ways: readonly ScheduleWay[]): ScheduleWay[] {
  return ways.filter((way) => {
    const [own, who] = [numbersOf(way), whoOf(way)];
    return !ways.some(
      (other) =>
        other !== way && whoOf(other) === who && numbersOf(other).every((each, at) => each <= own[at]!),
    );
  });
}
