import { fillStations } from "../fill-stations.js";
import type { StationProblem, Stations } from "../problem.js";
import { rankTasks } from "../rank-tasks.js";
import { RULES } from "../rules/register.js";
import { layOut, turnRound } from "./instance.js";
import { listTasks } from "./state-store.js";

/** Fills stations by every rule from both ends of the line, at any limit from the longest task on. */
export class RuleFills {
  private readonly ends: readonly End[];

  constructor(times: readonly number[], before: readonly (readonly number[])[]) {
    const problem = { times, limit: 1, before };
    const back = turnRound(problem);
    this.ends = [
      { before, orders: ordersOf(problem), fromBack: false },
      { before: back.before, orders: ordersOf(back), fromBack: true },
    ];
    this.times = times;
  }

  private readonly times: readonly number[];

  /** The first plan with at most `count` stations, or null where no rule finds one. */
  fill(limit: number, count: number): Stations | null {
    for (const { before, orders, fromBack } of this.ends) {
      for (const order of orders) {
        const stations = fillStations({ times: this.times, limit, before }, order);
        if (stations.length <= count) return fromBack ? stations.toReversed() : stations;
      }
    }
    return null;
  }
}

interface End {
  readonly before: readonly (readonly number[])[];
  /** One order of tasks a rule. */
  readonly orders: readonly (readonly number[])[];
  readonly fromBack: boolean;
}

function ordersOf(problem: StationProblem): number[][] {
  const { size, words, followers, original } = layOut(problem);
  const lists: number[][] = [];
  for (let task = 0; task < size; task++) {
    const later = listTasks(followers, task * words, size).map((each) => original[each]!);
    lists[original[task]!] = later.sort((one, two) => one - two);
  }
  const ranked = { times: problem.times, before: problem.before, followers: lists };
  return RULES.map((rule) => [...rankTasks(rule, ranked).order]);
}
