import { idKey } from "../line/ids.js";
import type { FloorStation, Line } from "../line/line.js";
import type { Plan } from "./plan.js";

/*
 * Stations are numbered from 0 along the floor. Those of `Line.floor` have their index there, whether a plan uses them or not;
 * stations behind them count on. Without a floor that is the order of the plan.
 */

/** The station of the floor with that id, or null: the station is an additional one behind the floor. */
export function floorStationOf({ floor }: Line, id: string): FloorStation | null {
  const at = floorNumbers(floor).get(idKey(id));
  return at === undefined ? null : floor[at]!;
}

function floorNumbers(floor: Line["floor"]): ReadonlyMap<string, number> {
  const known = FLOOR_NUMBERS.get(floor);
  if (known !== undefined) return known;
  const numbers = new Map<string, number>();
  for (const [at, { id }] of floor.entries()) if (!numbers.has(idKey(id))) numbers.set(idKey(id), at);
  FLOOR_NUMBERS.set(floor, numbers);
  return numbers;
}

/** Each station of a plan is looked up for many figures. */
const FLOOR_NUMBERS = new WeakMap<Line["floor"], ReadonlyMap<string, number>>();

/** Whether the floor does not have a station of a plan; where the file lists none, S1, S2 and so on all stand on it. */
export function isBehindFloor(line: Line, id: string): boolean {
  if (line.floor.length === 0 || floorStationOf(line, id) !== null) return false;
  return line.isFloorListed || defaultNumber(id) === 0;
}

/**
 * The number of each station of a plan. Behind the floor a station named `S<n>` keeps the number that its name gives it, so
 * that a place left empty in between counts; any other name counts on by one.
 */
export function stationNumbers(line: Line, plan: Plan): number[] {
  const onFloor = floorNumbers(line.floor);
  const offset = line.floor.length - lastDefault(line);
  let next = line.floor.length;
  return plan.stations.map(({ id }) => {
    const known = onFloor.get(idKey(id));
    if (known !== undefined) return known;
    const number = Math.max(next, defaultNumber(id) - 1 + offset);
    next = number + 1;
    return number;
  });
}

/** How many stations of the floor, without work in the plan, a unit passes right before each station but the first. */
export function emptyBefore(line: Line, plan: Plan): number[] {
  const numbers = stationNumbers(line, plan);
  return numbers.map((number, at) => (at === 0 ? 0 : Math.max(0, number - numbers[at - 1]! - 1)));
}

/** The number along the floor of the station at index `at` of the plan. */
export function stationNumber(line: Line, plan: Plan, at: number): number {
  return stationNumbers(line, plan)[at]!;
}

/** The ids of stations with these numbers: those of the floor, then `S<n>` behind the floor, never an id of the floor. */
export function stationIds(line: Line, numbers: readonly number[]): string[] {
  const offset = line.floor.length - lastDefault(line);
  return numbers.map((number) => line.floor[number]?.id ?? `S${number + 1 - offset}`);
}

/** The `n` up to which default names are taken: by the places of the floor, or by a station there that is itself named `S<n>`. */
function lastDefault(line: Line): number {
  return Math.max(line.floor.length, ...line.floor.map(({ id }) => defaultNumber(id)));
}

/** The `n` of a default name `S<n>`, else 0. */
function defaultNumber(id: string): number {
  return Number(/^S([1-9]\d{0,8})$/u.exec(idKey(id))?.[1] ?? 0);
}
