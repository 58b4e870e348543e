import type { Line } from "../../src/line/line.js";
import { allFollowers } from "../../src/line/reach.js";
import type { Ratio } from "../../src/time/ratio.js";
import { timeAgain, UNITS, unitRows } from "../tools/unit-rows.js";
import type { Position, Programme } from "./floor-programme-parts.js";

/**
 * The sides of a wide product with starts of tasks in seconds from the arrival of the unit: tasks of one side follow each other (a
 * disjunction with a large number, A. S. Manne 1960), and a task waits for those before it at its station. Units that
 * differ have starts and ends of their own; a station holds the mean of the ends, and what is done again.
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
    addModelLimits(programme, position, rows);
    for (const row of rows) addEnds(programme, position, row);
  }
  for (const row of rows) addWaitingInside(programme, row);
  addTurns(programme, rows);
}

/** Units that are alike: their share of all, seconds of each task, and when all of it ends at the latest. */
interface Row {
  readonly model: number;
  /** Their share of the units of the model. */
  readonly ofModel: number;
  readonly loads: readonly number[];
  readonly start: (task: number) => string;
  readonly end: (at: number) => string;
  readonly late: number;
}

const inNumbers = ({ num, den }: Ratio): number => Number(num) / Number(den);

function rowsOf({ given: { line } }: Programme, longest: number): Row[] {
  return unitRows(line).map(({ model, count, times }, row) => {
    const loads = times.map((each) => each / 1e6);
    const all = loads.reduce((sum, each) => sum + each, 0);
    return {
      model,
      ofModel: count / UNITS,
      loads,
      start: (task) => `start_${row}_${task}`,
      end: (at) => `end_${row}_${at}`,
      late: line.models.length === 0 && line.tasks.every(({ every }) => every === 1) ? longest : all,
    };
  });
}

const modelsOf = ({ models }: Line) =>
  models.length === 0
    ? [{ model: 0, share: 1 }]
    : models.map(({ share }, model) => ({ model, share: inNumbers(share) }));

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
  { at, staffings, planTo, handledAgain }: Position,
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
  const models = modelsOf(given.line);
  const again = models.map(({ model, share }) =>
    all.map((task) => [(share * inNumbers(timeAgain(given.line, task, model))) / 1e6, x(task, at)] as const),
  );
  const mean = [
    ...rows.map(({ model, ofModel, end }) => [models[model]!.share * ofModel, end(at)] as const),
    ...again.flat(),
  ];
  const limits = staffings.map(({ limit, name }) => [-limit, name] as const);
  const more = Math.max(...staffings.map(({ limit, working }) => working - limit));
  text.row([...mean, ...limits, [planTo, handledAgain], [-more, alone]], "<=", 0);
  const workings = staffings.map(({ working, name }) => [-working, name] as const);
  text.row([...mean, ...workings, [1, handledAgain]], "<=", 0);
  for (const task of all) {
    const here = [1, x(task, at)] as const;
    text.row([here, [1, left(task)], [-1, onLeft]], "<=", 1);
    text.row([here, [1, right(task)], [-1, onRight]], "<=", 1);
  }
}

/** No model takes longer on average than its share of the working time, with what is done again. */
function addModelLimits(
  { given: { line }, text, x }: Programme,
  { at, staffings, handledAgain }: Position,
  rows: readonly Row[],
): void {
  if (line.modelOverload === null) return;
  const most = 1 + inNumbers(line.modelOverload);
  const workings = staffings.map(({ working, name }) => [-working * most, name] as const);
  for (const { model } of modelsOf(line)) {
    const own = rows
      .filter((row) => row.model === model)
      .map(({ ofModel, end }) => [ofModel, end(at)] as const);
    const again = [...line.tasks.keys()].map(
      (task) => [inNumbers(timeAgain(line, task, model)) / 1e6, x(task, at)] as const,
    );
    text.row([...own, ...again, ...workings, [most, handledAgain]], "<=", 0);
  }
}

/** Units end no sooner than any task. */
function addEnds({ text, x }: Programme, { at }: Position, { loads, start, end, late }: Row): void {
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
