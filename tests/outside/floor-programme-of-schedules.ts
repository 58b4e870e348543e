import type { Line } from "../../src/line/line.js";
import { allFollowers, type TaskSets } from "../../src/line/reach.js";
import type { Ratio } from "../../src/time/ratio.js";
import { machineAgain, timeAgain, UNITS, unitRows } from "../tools/unit-rows.js";
import type { Position, Programme } from "./floor-programme-parts.js";
import type { Terms } from "./floor-programme-text.js";

/**
 * Stations as schedules, with starts of tasks in seconds from the arrival of the unit: tasks of one person, or of one side, follow each
 * other (a disjunction with a large number, A. S. Manne 1960), a task waits for those before it at its station, machines with them, and
 * holds of one equipment never overlap. Units that differ have starts and ends of their own; a station holds the mean of the ends, and
 * what is done again.
 */
export function addSchedules(programme: Programme): void {
  const { line } = programme.given;
  const persons = personsOf(line);
  addWho(programme, persons);
  for (const position of programme.positions) {
    addCrew(programme, position, persons);
    addDwell(programme, position);
    if (isSided(line)) addModelDwell(programme, position);
    if (isSided(line) || crewAt(line, position.at) > 1) addHandsOfPersons(programme, position, persons);
  }
  for (const row of rowsOf(programme)) {
    for (const position of programme.positions) addEnds(programme, position, row);
    addWaitingInside(programme, row);
    addTurns(programme, row);
    addHolds(programme, row);
  }
  addOrders(programme, persons);
  addHoldOrders(programme);
}

const isSided = ({ tasks }: Line): boolean => tasks.some(({ side }) => side !== null);
export const crewAt = ({ floor, maxCrew }: Line, at: number): number => floor[at]?.maxCrew ?? maxCrew;
const holdsAt = ({ floor, holds }: Line, at: number): number => floor[at]?.holds ?? holds;

/** People of one place by number, or its left and right. */
function personsOf(line: Line): number[] {
  if (isSided(line)) return [0, 1];
  const most = Math.max(line.maxCrew, ...line.floor.map((station) => station.maxCrew ?? 1));
  return [...Array(Math.max(most, ...line.tasks.map(({ people }) => people))).keys()];
}

/** Units that are alike: seconds of each task on them. */
interface Row {
  readonly key: string;
  readonly model: number;
  /** Their share of the units of the model. */
  readonly ofModel: number;
  readonly hands: readonly number[];
  readonly machines: readonly number[];
  /** No start and no end is later. */
  readonly late: number;
}

const inNumbers = ({ num, den }: Ratio): number => Number(num) / Number(den);

function rowsOf({ given: { line } }: Programme): Row[] {
  return unitRows(line).map(({ model, count, times, machines }, number) => {
    const [hands, runs] = [times, machines].map((all) => all.map((each) => each / 1e6)) as [
      number[],
      number[],
    ];
    const late = [...hands, ...runs].reduce((sum, each) => sum + each, 0);
    return { key: `d${number}`, model, ofModel: count / UNITS, hands, machines: runs, late };
  });
}

const start = ({ key }: Row, task: number): string => `start_${key}_${task}`;
const end = ({ key }: Row, at: number): string => `end_${key}_${at}`;
const who = (task: number, person: number): string => `who_${task}_${person}`;
const lengthOf = ({ hands, machines }: Row, task: number): number => hands[task]! + machines[task]!;

const modelsOf = ({ models }: Line) =>
  models.length === 0
    ? [{ model: 0, share: 1 }]
    : models.map(({ share }, model) => ({ model, share: inNumbers(share) }));

/** As many people as a task takes; on a wide product those of its side, or both. */
function addWho({ given: { line }, text }: Programme, persons: readonly number[]): void {
  for (const [task, { side, people }] of line.tasks.entries()) {
    const all = persons.map((person) => [1, text.binary(who(task, person))] as const);
    text.row(all, "=", people);
    if (people > 1 || side === null || side === "either") continue;
    text.row([[1, who(task, side === "left" ? 0 : 1)]], "=", 1);
  }
}

/** Who is needed is of the crew; sides count one each. More people than the limit share only where a task takes so many. */
function addCrew(
  { given: { line }, text, x }: Programme,
  { at, staffings }: Position,
  persons: readonly number[],
): void {
  const most = crewAt(line, at);
  if (!isSided(line) && most === 1) return;
  if (isSided(line)) {
    const used = persons.map((person) => text.binary(`used_${person}_${at}`));
    text.row(
      [
        ...staffings.map(({ crew, name }) => [crew, name] as const),
        ...used.map((name) => [-1, name] as const),
      ],
      ">=",
      0,
    );
    for (const task of line.tasks.keys())
      for (const person of persons)
        text.row(
          [
            [1, x(task, at)],
            [1, who(task, person)],
            [-1, used[person]!],
          ],
          "<=",
          1,
        );
    return;
  }
  for (const task of line.tasks.keys()) {
    for (const person of persons) {
      const enough = staffings.filter(({ crew }) => crew > person);
      text.row(
        [[1, x(task, at)], [1, who(task, person)], ...enough.map(({ name }) => [-1, name] as const)],
        "<=",
        1,
      );
    }
  }
  for (const { crew, name } of staffings) {
    if (crew <= most) continue;
    const takers = [...line.tasks.keys()].filter((task) => line.tasks[task]!.people >= crew);
    text.row([[1, name], ...takers.map((task) => [-1, x(task, at)] as const)], "<=", 0);
  }
}

/** On average a unit stands no longer than the place holds some. */
function addDwell(programme: Programme, { at, staffings, handledAgain }: Position): void {
  const { given, text, x } = programme;
  const { line } = given;
  const again = modelsOf(line).flatMap(({ model, share }) =>
    [...line.tasks.keys()].map((task) => {
      const both = inNumbers(timeAgain(line, task, model)) + inNumbers(machineAgain(line, task, model));
      return [(share * both) / 1e6, x(task, at)] as const;
    }),
  );
  const holds = holdsAt(line, at);
  const most = staffings.map(({ working, name }) => [-holds * working, name] as const);
  text.row([...meanEnds(programme, at), ...again, ...most, [holds, handledAgain]], "<=", 0);
}

function meanEnds(programme: Programme, at: number): Terms {
  const models = modelsOf(programme.given.line);
  return rowsOf(programme).map((row) => [models[row.model]!.share * row.ofModel, end(row, at)] as const);
}

/** One task alone that takes any time may take the whole working time: 1 where that is so. */
function addAlone({ given, text, loads, x }: Programme, at: number): string {
  const timed = [...loads.keys()].filter((task) => loads[task]! > 0);
  const [alone, many] = [text.binary(`alone_${at}`), Math.max(0, timed.length - 1)];
  if (given.strictLimit) text.row([[1, alone]], "=", 0);
  text.row([...timed.map((task) => [1, x(task, at)] as const), [many, alone]], "<=", 1 + many);
  return alone;
}

/** Of each model a unit stands no longer than the place holds some within the limit of models, as one side may wait for the other. */
function addModelDwell(programme: Programme, position: Position): void {
  const { given, text, x } = programme;
  const { line } = given;
  if (line.modelOverload === null) return;
  const { at, handledAgain, staffings } = position;
  const most = holdsAt(line, at) * (1 + inNumbers(line.modelOverload));
  const workings = staffings.map(({ working, name }) => [-working * most, name] as const);
  for (const { model } of modelsOf(line)) {
    const own = rowsOf(programme)
      .filter((row) => row.model === model)
      .map((row) => [row.ofModel, end(row, at)] as const);
    const again = [...line.tasks.keys()].map((task) => {
      const both = inNumbers(timeAgain(line, task, model)) + inNumbers(machineAgain(line, task, model));
      return [both / 1e6, x(task, at)] as const;
    });
    text.row([...own, ...again, ...workings, [most, handledAgain]], "<=", 0);
  }
}

/** Each person of a shared crew is loaded within the limit, and with each model within its own. */
function addHandsOfPersons(programme: Programme, position: Position, persons: readonly number[]): void {
  const { given, text, loads, x } = programme;
  const { line } = given;
  const { at, staffings, handledAgain } = position;
  const alone = addAlone(programme, at);
  const does = (task: number, person: number) => {
    const name = `does_${task}_${person}_${at}`;
    text.row(
      [
        [1, x(task, at)],
        [1, who(task, person)],
        [-1, name],
      ],
      "<=",
      1,
    );
    return name;
  };
  for (const person of persons) {
    const names = [...line.tasks.keys()].map((task) => does(task, person));
    addLimit(
      programme,
      position,
      names.map((name, task) => [loads[task]!, name]),
      alone,
    );
    if (line.modelOverload === null) continue;
    const most = 1 + inNumbers(line.modelOverload);
    const workings = staffings.map(({ working, name }) => [-working * most, name] as const);
    for (const model of line.models.keys()) {
      const own = line.tasks.map(({ times, visits }, task) => {
        const column = times.length === 1 ? 0 : model;
        return [((times[column] ?? 0) * inNumbers(visits[column]!)) / 1e6, names[task]!] as const;
      });
      text.row([...own, ...workings, [most, handledAgain]], "<=", 0);
    }
  }
}

function addLimit(
  { text }: Programme,
  { staffings, planTo, handledAgain }: Position,
  work: Terms,
  alone: string,
): void {
  const limits = staffings.map(({ limit, name }) => [-limit, name] as const);
  const more = Math.max(...staffings.map(({ limit, working }) => working - limit));
  text.row([...work, ...limits, [planTo, handledAgain], [-more, alone]], "<=", 0);
  const workings = staffings.map(({ working, name }) => [-working, name] as const);
  text.row([...work, ...workings, [1, handledAgain]], "<=", 0);
}

/** Units leave no sooner than any task has ended. */
function addEnds({ text, x }: Programme, { at }: Position, row: Row): void {
  for (const task of row.hands.keys())
    text.row(
      [
        [1, start(row, task)],
        [row.late, x(task, at)],
        [-1, end(row, at)],
      ],
      "<=",
      row.late - lengthOf(row, task),
    );
}

function addWaitingInside({ given: { line }, text, positions, x }: Programme, row: Row): void {
  for (const [task, earlier] of line.before.entries()) {
    for (const other of earlier) {
      for (const { at } of positions) {
        const here = [
          [-row.late, x(task, at)],
          [-row.late, x(other, at)],
        ] as const;
        const least = lengthOf(row, other) - 2 * row.late;
        text.row([[1, start(row, task)], [-1, start(row, other)], ...here], ">=", least);
      }
    }
  }
}

const first = (one: number, two: number): string => `first_${one}_${two}`;

/** Where one of two tasks is first, the hands of the other wait for its hands, for units of every kind. */
function addTurns({ given: { line }, text }: Programme, row: Row): void {
  for (const one of line.tasks.keys())
    for (const two of line.tasks.keys())
      if (one !== two)
        text.row(
          [
            [1, start(row, two)],
            [-1, start(row, one)],
            [-row.late, first(one, two)],
          ],
          ">=",
          row.hands[one]! - row.late,
        );
}

/** Of two tasks of one person at one station, one is first; arrows say which, as what lies between them is at the station too. */
function addOrders({ given: { line }, text, positions, x }: Programme, persons: readonly number[]): void {
  const followers = allFollowers(line.before);
  for (const one of line.tasks.keys()) {
    for (let two = one + 1; two < line.tasks.length; two++) {
      const turns = [text.binary(first(one, two)), text.binary(first(two, one))].map(
        (name) => [1, name] as const,
      );
      if (areInRow(followers, one, two)) continue;
      for (const { at } of positions) {
        const here = [
          [-1, x(one, at)],
          [-1, x(two, at)],
        ] as const;
        if (!isSided(line) && crewAt(line, at) === 1) text.row([...turns, ...here], ">=", -1);
        else
          for (const person of persons)
            text.row([...turns, ...here, [-1, who(one, person)], [-1, who(two, person)]], ">=", -3);
      }
    }
  }
}

const areInRow = (followers: TaskSets, one: number, two: number): boolean =>
  followers.has(one, two) || followers.has(two, one);

const held = (one: number, two: number): string => `held_${one}_${two}`;

/** Tasks on one equipment that are no hold together. */
function apartOnEquipment({ given: { line } }: Programme): (readonly [number, number])[] {
  const followers = allFollowers(line.before);
  const share = (one: number, two: number) =>
    line.tasks[one]!.equipment.some((name) => line.tasks[two]!.equipment.includes(name));
  return [...line.tasks.keys()].flatMap((one) =>
    [...line.tasks.keys()]
      .filter((two) => one !== two && share(one, two) && !areInRow(followers, one, two))
      .map((two) => [one, two] as const),
  );
}

/** Where one of two holds is first, the other waits for all of it. */
function addHolds(programme: Programme, row: Row): void {
  for (const [one, two] of apartOnEquipment(programme))
    programme.text.row(
      [
        [1, start(row, two)],
        [-1, start(row, one)],
        [-row.late, held(one, two)],
      ],
      ">=",
      lengthOf(row, one) - row.late,
    );
}

/** Of two holds of one equipment at one station one is first, and nothing comes between tasks of one hold. */
function addHoldOrders(programme: Programme): void {
  const { given, text, positions, x } = programme;
  const pairs = apartOnEquipment(programme);
  const followers = allFollowers(given.line.before);
  for (const [one, two] of pairs) {
    text.binary(held(one, two));
    for (const { at } of positions)
      text.row(
        [
          [1, held(one, two)],
          [1, held(two, one)],
          [-1, x(one, at)],
          [-1, x(two, at)],
        ],
        ">=",
        -1,
      );
  }
  for (const [one, other] of pairs) {
    for (const [between, two] of pairs) {
      if (between !== other || !followers.has(one, two)) continue;
      for (const { at } of positions)
        text.row(
          [
            [1, held(one, other)],
            [1, held(other, two)],
            [1, x(one, at)],
            [1, x(two, at)],
          ],
          "<=",
          3,
        );
    }
  }
}

/** Seconds for which a task keeps its equipment for a good unit. */
export function timeHeld({ given: { line }, loads }: Programme, task: number): number {
  const { machineTime, visits, times } = line.tasks[task]!;
  const runs = modelsOf(line).map(({ model, share }) => {
    const column = times.length === 1 ? 0 : model;
    return times[column] === null ? 0 : share * inNumbers(visits[column]!);
  });
  return loads[task]! + (machineTime / 1e6) * runs.reduce((sum, each) => sum + each, 0);
}

/**
 * Whether the programme says all of the line: it knows no equipment that is held from one task to a later one beside others of the same
 * name that may come to be one hold, and no time of such a hold where several units may share it.
 */
export function isTold(line: Line): boolean {
  const followers = allFollowers(line.before);
  const names = new Set(line.tasks.flatMap(({ equipment }) => equipment));
  const isRoomy = [line, ...line.floor].some(
    ({ holds, maxPlaces }) => (holds ?? 1) > 1 || (maxPlaces ?? 1) > 1,
  );
  return [...names].every((name) => {
    const users = [...line.tasks.keys()].filter((task) => line.tasks[task]!.equipment.includes(name));
    const rows = users.map((one) => users.filter((two) => one !== two && areInRow(followers, one, two)));
    if (isRoomy && rows.some((own) => own.length > 0)) return false;
    return rows.every((own) =>
      own.every((one) => own.every((two) => one === two || areInRow(followers, one, two))),
    );
  });
}
