import { idKey } from "./ids.js";
import type { Task } from "./line.js";
import { type Before, directFollowers, isLoopFree, topologicalOrder } from "./precedence.js";

/** Where along the floor a task may stand by what it says itself. */
export type StandingTask = Pick<Task, "stations" | "notBefore" | "notAfter" | "zone">;

/**
 * The arrows with those that the floor adds beside tests: where every station that may hold one task comes before every station that
 * may hold the other, it is done first in every plan. The arrows as they are where both together leave no order, as then no plan does.
 *
 * @param isTest by task
 * @param zones of the stations along the floor
 */
export function withFloorOrder(
  before: Before,
  isTest: readonly boolean[],
  tasks: readonly StandingTask[],
  zones: readonly (string | null)[],
): Before {
  const tests = [...isTest.keys()].filter((task) => isTest[task]);
  if (tests.length === 0) return before;
  const ends = endsOfZones(zones);
  const own = tasks.map((task) => windowOf(task, ends));
  if (own.every(({ first, last }) => first === 0 && last === ENDLESS)) return before;
  const { first, last } = alongArrows(before, own);
  const added = before.map((earlier) => new Set(earlier));
  for (const test of tests) {
    for (const other of tasks.keys()) {
      if (last[test]! < first[other]!) added[other]!.add(test);
      if (last[other]! < first[test]!) added[test]!.add(other);
    }
  }
  const all = added.map((earlier) => [...earlier].sort((one, two) => one - two));
  return isLoopFree(all) ? all : before;
}

const ENDLESS = Number.POSITIVE_INFINITY;

interface Window {
  readonly first: number;
  readonly last: number;
}

/** The first and the last station of each zone. */
function endsOfZones(zones: readonly (string | null)[]): ReadonlyMap<string, readonly number[]> {
  const ends = new Map<string, readonly number[]>();
  for (const [at, zone] of zones.entries())
    if (zone !== null) ends.set(idKey(zone), [ends.get(idKey(zone))?.[0] ?? at, at]);
  return ends;
}

/** Stations behind the floor have no number of their own, and no zone. */
function windowOf(
  { stations, notBefore, notAfter, zone }: StandingTask,
  endsOf: ReadonlyMap<string, readonly number[]>,
): Window {
  const inZone = zone === null ? [] : (endsOf.get(idKey(zone)) ?? []);
  const ends = [stations ?? [], inZone].filter((each) => each.length > 0);
  return {
    first: Math.max(notBefore ?? 0, ...ends.map((each) => Math.min(...each))),
    last: Math.min(notAfter ?? ENDLESS, ...ends.map((each) => Math.max(...each))),
  };
}

/** No task stands before one that it waits for, nor behind one that waits for it. */
function alongArrows(before: Before, own: readonly Window[]): { first: number[]; last: number[] } {
  const [first, last] = [own.map((each) => each.first), own.map((each) => each.last)];
  const [order, after] = [topologicalOrder(before), directFollowers(before)];
  for (const task of order)
    for (const each of before[task]!) first[task] = Math.max(first[task]!, first[each]!);
  for (const task of order.toReversed())
    for (const each of after[task]!) last[task] = Math.min(last[task]!, last[each]!);
  return { first, last };
}
