import type { Line } from "../line/line.js";
import { allFollowers, type TaskSets } from "../line/reach.js";
import { visitsPerGoodUnit } from "../line/visits.js";
import { add, compare, multiply, type Ratio, ratio, ZERO } from "../time/ratio.js";

/** How long a task keeps its equipment for one good unit, in microseconds: hands, then what a machine runs by itself. */
export function timeHeld(line: Line, task: number): Ratio {
  const { load, machineTime } = line.tasks[task]!;
  return add(load, multiply(ratio(machineTime), visitsPerGoodUnit(line, line.tasks[task]!)));
}

/**
 * Tasks that hold an equipment of a name for as long as all of them at the least, wherever they stand: of those that may come to be one
 * hold, which may overlap in it, the longest chain.
 */
export function leastHolders(line: Line, name: string): number[] {
  const users = [...line.tasks.keys()].filter((task) => line.tasks[task]!.equipment.includes(name));
  const followers = followersOf(line);
  const isNear = (one: number, two: number) => followers.has(one, two) || followers.has(two, one);
  const left = new Set(users);
  const chosen: number[] = [];
  for (const user of users) {
    if (!left.delete(user)) continue;
    const together = [user];
    for (const each of together)
      for (const other of left)
        if (isNear(each, other)) {
          left.delete(other);
          together.push(other);
        }
    chosen.push(...longestChain(line, followers, together));
  }
  return chosen.sort((one, two) => one - two);
}

function longestChain(line: Line, followers: TaskSets, tasks: readonly number[]): number[] {
  const followersIn = (task: number) => tasks.filter((other) => followers.has(task, other));
  const fewestFollowersFirst = tasks.toSorted(
    (one, two) => followersIn(one).length - followersIn(two).length,
  );
  const chains = new Map<number, { readonly time: Ratio; readonly tasks: readonly number[] }>();
  const longer = <Chain extends { readonly time: Ratio }>(one: Chain, two: Chain) =>
    compare(two.time, one.time) > 0 ? two : one;
  for (const task of fewestFollowersFirst) {
    const behind = followersIn(task).map((other) => chains.get(other)!);
    const next = behind.reduce(longer, { time: ZERO, tasks: [] });
    chains.set(task, { time: add(timeHeld(line, task), next.time), tasks: [task, ...next.tasks] });
  }
  return [...[...chains.values()].reduce(longer).tasks];
}

/** Reachability costs as much as the square of the tasks: once a line. */
function followersOf({ before }: Line): TaskSets {
  const known = reached.get(before) ?? allFollowers(before);
  reached.set(before, known);
  return known;
}

const reached = new WeakMap<Line["before"], TaskSets>();
