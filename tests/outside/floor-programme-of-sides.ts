import { allFollowers } from "../../src/line/reach.js";
import type { Ratio } from "../../src/time/ratio.js";
import type { Position, Programme } from "./floor-programme-parts.js";

/**
 * The sides of a wide product with starts of tasks in seconds from the arrival of the unit: tasks of one side follow each other (a
 * disjunction with a large number, A. S. Manne 1960), and a task waits for those before it at its station. Each model has starts and
 * ends of its own; a station holds the share-weighted sum of the ends.
 */
export function addSides(programme: Programme): void {
  // Nothing ends later than the longest working time.
  const longest = Math.max(
    ...programme.positions.flatMap(({ staffings }) => staffings.map(({ working }) => working)),
  );
  const rows = rowsOf(programme, longest);
  addSidesOfTasks(programme);
  for (const position of programme.positions) {
    addStationTime(programme, position, rows);
    for (const row of rows) addEnds(programme, position, row);
  }
  for (const row of rows) addWaitingInside(programme, row);
  addTurns(programme, rows);
}

/** One model, or all there is: its share of the units, seconds of each task, and when all of it ends at the latest. */
interface Row {
  readonly share: number;
  readonly loads: readonly number[];
  readonly start: (task: number) => string;
  readonly end: (at: number) => string;
  readonly late: number;
  /** The most of the working time; null where models are held on average only. */
  readonly most: number | null;
}

const inNumbers = ({ num, den }: Ratio): number => Number(num) / Number(den);

function rowsOf({ given: { line }, loads }: Programme, longest: number): Row[] {
  if (line.models.length === 0) {
    return [
      {
        share: 1,
        loads,
        start: (task) => `start_${task}`,
        end: (at) => `end_${at}`,
        late: longest,
        most: null,
      },
    ];
  }
  const most = line.modelOverload && 1 + inNumbers(line.modelOverload);
  return line.models.map(({ share }, model) => {
    const own = line.tasks.map(({ times }) => (times[model] ?? 0) / 1e6);
    const all = own.reduce((sum, each) => sum + each, 0);
    return {
      share: inNumbers(share),
      loads: own,
      start: (task) => `start_${model}_${task}`,
      end: (at) => `end_${model}_${at}`,
      late: most === null ? all : longest * most,
      most,
    };
  });
}

const [left, right] = [(task: number) => `left_${task}`, (task: number) => `right_${task}`];

/** One side, or both for two people. */
function addSidesOfTasks({ given: { line }, text }: Programme): void {
  for (const [task, { side, people }] of line.tasks.entries()) {
    const both = [text.binary(left(task)), text.binary(right(task))] as const;
    text.row(
      both.map((name) => [1, name]),
      "=",
      people > 1 ? 2 : 1,
    );
    if (people === 1 && side === "left") text.row([[1, both[0]]], "=", 1);
    if (people === 1 && side === "right") text.row([[1, both[1]]], "=", 1);
  }
}

/** Its ends hold the limit on average, or the working time where a task alone takes any; a crew is one for each side in use. */
function addStationTime(
  { given, loads, text, x }: Programme,
  { at, staffings }: Position,
  rows: readonly Row[],
): void {
  const all = [...loads.keys()];
  const [onLeft, onRight] = [text.binary(`onleft_${at}`), text.binary(`onright_${at}`)];
  text.row(
    [...staffings.map(({ crew, name }) => [crew, name] as const), [-1, onLeft], [-1, onRight]],
    ">=",
    0,
  );
  const timed = all.filter((task) => loads[task]! > 0);
  const [alone, many] = [text.binary(`alone_${at}`), Math.max(0, timed.length - 1)];
  if (given.strictLimit) text.row([[1, alone]], "=", 0);
  text.row([...timed.map((task) => [1, x(task, at)] as const), [many, alone]], "<=", 1 + many);
  const mean = rows.map(({ share, end }) => [share, end(at)] as const);
  const limits = staffings.map(({ limit, name }) => [-limit, name] as const);
  const more = Math.max(...staffings.map(({ limit, working }) => working - limit));
  text.row([...mean, ...limits, [-more, alone]], "<=", 0);
  text.row([...mean, ...staffings.map(({ working, name }) => [-working, name] as const)], "<=", 0);
  for (const task of all) {
    const here = [1, x(task, at)] as const;
    text.row([here, [1, left(task)], [-1, onLeft]], "<=", 1);
    text.row([here, [1, right(task)], [-1, onRight]], "<=", 1);
  }
}

/** A model ends no sooner than any task, and no later than its share of the working time. */
function addEnds(
  { text, x }: Programme,
  { at, staffings }: Position,
  { loads, start, end, late, most }: Row,
): void {
  for (const [task, load] of loads.entries()) {
    text.row(
      [
        [1, start(task)],
        [late, x(task, at)],
        [-1, end(at)],
      ],
      "<=",
      late - load,
    );
  }
  if (most === null) return;
  const workings = staffings.map(({ working, name }) => [-working * most, name] as const);
  text.row([[1, end(at)], ...workings], "<=", 0);
}

function addWaitingInside(
  { given: { line }, text, positions, x }: Programme,
  { loads, start, late }: Row,
): void {
  for (const [task, earlier] of line.before.entries()) {
    for (const other of earlier) {
      for (const { at } of positions) {
        const starts = [
          [1, start(task)],
          [-1, start(other)],
        ] as const;
        const least = loads[other]! - 2 * late;
        text.row([...starts, [-late, x(task, at)], [-late, x(other, at)]], ">=", least);
      }
    }
  }
}

/**
 * Of two tasks at one side of one station, one is first, for every model; arrows say which, as what lies between them is at the
 * station too.
 */
function addTurns({ given: { line }, text, positions, x }: Programme, rows: readonly Row[]): void {
  const isFirst = (one: number, two: number) => {
    const name = text.binary(`first_${one}_${two}`);
    for (const { loads, start, late } of rows)
      text.row(
        [
          [1, start(two)],
          [-1, start(one)],
          [-late, name],
        ],
        ">=",
        loads[one]! - late,
      );
    return name;
  };
  const followers = allFollowers(line.before);
  for (const one of line.tasks.keys()) {
    for (let two = one + 1; two < line.tasks.length; two++) {
      if (followers.has(one, two)) continue;
      const turns = [isFirst(one, two), isFirst(two, one)].map((name) => [1, name] as const);
      for (const { at } of positions) {
        for (const side of [left, right]) {
          const met = [x(one, at), x(two, at), side(one), side(two)].map((name) => [-1, name] as const);
          text.row([...turns, ...met], ">=", -3);
        }
      }
    }
  }
}
