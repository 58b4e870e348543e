import type { Line } from "../line/line.js";
import type { Station } from "./plan.js";

/** A task of a station, by its index, with those that must be over before it starts. */
export interface Turn {
  readonly at: number;
  /** Tasks before it of the people or sides that it takes: their hands must be done. */
  readonly hands: readonly number[];
  /** Tasks that must have ended, with what a machine runs: those it needs, and those of holds of its equipment begun before. */
  readonly whole: readonly number[];
}

/** Tasks of a station, by their indexes, that keep one equipment from the first of them to the last. */
export interface Hold {
  readonly name: string;
  /** Ascending. */
  readonly members: readonly number[];
}

/** How the tasks of a station follow each other, whatever they take. */
export interface StationOrder {
  /** In an order in which each task comes behind all that it waits for. */
  readonly turns: readonly Turn[];
  /** By name in the order of the tasks, those of one name in the order in which they begin. */
  readonly holds: readonly Hold[];
}

/**
 * The order of work at one place of a station. Each person, and each side, does its tasks in the order of the plan. Of the tasks that use
 * one equipment, those with a path of arrows at the station between them are one hold: a unit keeps the equipment from the first to the last
 * of them, and another hold of it begins only then. Tasks that would so wait for each other do not wait; the verifier refuses them.
 */
export function orderStation(line: Line, station: Station): StationOrder {
  const { tasks } = station;
  const holds = holdsAt(line, tasks);
  const lastOf = new Map<number | string, number>();
  const indexOf = new Map([...tasks.entries()].reverse().map(([at, task]) => [task, at]));
  const needs = tasks.map((task, at): Turn => {
    const takers = takersOf(station, at);
    const hands = [...new Set(takers.flatMap((taker) => lastOf.get(taker) ?? []))];
    for (const taker of takers) lastOf.set(taker, at);
    const earlier = line.before[task]!.flatMap((each) => {
      const before = indexOf.get(each);
      return before === undefined || before >= at ? [] : [before];
    });
    return { at, hands, whole: earlier };
  });
  if (holds.length === 0) return { turns: needs, holds };
  return { turns: inTurn(needs, heldUp(holds, tasks.length)), holds };
}

/** Who is taken by a task: everybody where people work together, else its sides or persons. */
export function takersOf({ sides, persons }: Station, at: number): readonly (number | string)[] {
  if (persons !== null) return persons[at]!;
  if (sides === null) return ["all"];
  const side = sides[at]!;
  return side === "both" ? ["left", "right"] : [side];
}

/** For each task the tasks of the holds that must be over before it, each the one before its own of the same name. */
function heldUp(holds: readonly Hold[], count: number): (readonly number[])[] {
  const waits = Array.from({ length: count }, (): number[] => []);
  for (const [number, { name, members }] of holds.entries()) {
    const before = holds[number - 1];
    if (before?.name === name) for (const at of members) waits[at]!.push(...before.members);
  }
  return waits;
}

/** The first task whose needs are all over, again and again; where there is none, the first one goes without waiting for equipment. */
function inTurn(needs: readonly Turn[], waits: readonly (readonly number[])[]): Turn[] {
  const isOver = needs.map(() => false);
  const over = (each: number) => isOver[each]!;
  const left = [...needs];
  const turns: Turn[] = [];
  while (left.length > 0) {
    const free = left.findIndex(({ at, hands, whole }) => [...hands, ...whole, ...waits[at]!].every(over));
    const [next] = left.splice(Math.max(0, free), 1);
    const { at, hands, whole } = next!;
    turns.push({ at, hands, whole: [...whole, ...waits[at]!.filter(over)] });
    isOver[at] = true;
  }
  return turns;
}

function holdsAt(line: Line, tasks: readonly number[]): Hold[] {
  const names = [...new Set(tasks.flatMap((task) => line.tasks[task]!.equipment))];
  if (names.length === 0) return [];
  const ancestors = ancestorsAt(line, tasks);
  return names.flatMap((name) => {
    const users = [...tasks.keys()].filter((at) => line.tasks[tasks[at]!]!.equipment.includes(name));
    let groups: number[][] = [];
    for (const at of users) {
      const follows = (members: readonly number[]) =>
        members.some((each) => ancestors[at]!.has(each) || ancestors[each]!.has(at));
      const joined = groups.filter(follows);
      groups = [...groups.filter((group) => !joined.includes(group)), [...joined.flat(), at]];
    }
    const ascending = groups.map((members) => members.sort((one, two) => one - two));
    return ascending.sort(([one], [two]) => one! - two!).map((members) => ({ name, members }));
  });
}

/** For each task of the station the indexes of those that a path of arrows at the station leads from. */
function ancestorsAt(line: Line, tasks: readonly number[]): ReadonlySet<number>[] {
  const indexOf = new Map([...tasks.entries()].reverse().map(([at, task]) => [task, at]));
  const found = new Map<number, ReadonlySet<number>>();
  const ancestorsOf = (at: number): ReadonlySet<number> => {
    const known = found.get(at);
    if (known !== undefined) return known;
    const own = line.before[tasks[at]!]!.flatMap((each) => indexOf.get(each) ?? []);
    const all = new Set(own.flatMap((each) => [each, ...ancestorsOf(each)]));
    found.set(at, all);
    return all;
  };
  return tasks.map((_, at) => ancestorsOf(at));
}
