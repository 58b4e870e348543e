import { tasksAfter } from "./order-of-work.js";
import type { StationProblem, Stations } from "./problem.js";

/** One step of station filling, in the terms of somebody who checks it by hand; times in the problem's units. */
export type FillingStep =
  | {
      readonly step: "place";
      /** Station number from 0; on a floor the position of the station. */
      readonly station: number;
      readonly task: number;
      readonly freeBefore: number;
      readonly freeAfter: number;
      /** Available tasks of higher rank that did not fit, in rank order. */
      readonly passedOver: readonly number[];
    }
  | {
      readonly step: "close";
      readonly station: number;
      readonly free: number;
      /** Available tasks, none of which fits, in rank order. */
      readonly left: readonly number[];
    };

/**
 * Fills stations one after another: the highest-ranked available task that still fits; a station closes when nothing
 * available fits. Every rule is filled this way.
 *
 * @param order task numbers, the first to be placed first
 * @param onStep told of every placement and every closing, in order
 */
export function fillStations(
  problem: StationProblem,
  order: readonly number[],
  onStep: ((step: FillingStep) => void) | null = null,
): Stations {
  const stations: number[][] = [];
  const queue = new AvailableTasks(problem, order);
  while (queue.tasks.length > 0) {
    const station = stations.length;
    const tasks: number[] = [];
    let free = problem.limit;
    for (;;) {
      const at = queue.tasks.findIndex((task) => problem.times[task]! <= free);
      if (at < 0) break;
      const task = queue.tasks[at]!;
      const freeAfter = free - problem.times[task]!;
      if (onStep !== null) {
        const passedOver = queue.tasks.slice(0, at);
        onStep({ step: "place", station, task, freeBefore: free, freeAfter, passedOver });
      }
      queue.take(at);
      tasks.push(task);
      free = freeAfter;
    }
    // The problem promises that every task fits a station; without it this loop would never end.
    if (tasks.length === 0) throw new RangeError("a task is longer than the station limit");
    onStep?.({ step: "close", station, free, left: [...queue.tasks] });
    stations.push(tasks);
  }
  return stations;
}

/** Tasks whose predecessors are all placed, kept in rank order. */
class AvailableTasks {
  readonly tasks: number[];
  readonly #rank = new Map<number, number>();
  readonly #waitingFor: number[];
  readonly #after: number[][];

  constructor(problem: StationProblem, order: readonly number[]) {
    for (const [at, task] of order.entries()) this.#rank.set(task, at);
    this.#waitingFor = problem.before.map((earlier) => earlier.length);
    this.#after = tasksAfter(problem);
    this.tasks = order.filter((task) => this.#waitingFor[task] === 0);
  }

  /** Removes the task at a position and lets in what waited only for it. */
  take(at: number): void {
    const [task] = this.tasks.splice(at, 1);
    for (const later of this.#after[task!]!) {
      this.#waitingFor[later]! -= 1;
      if (this.#waitingFor[later] === 0) this.#insert(later);
    }
  }

  #insert(task: number): void {
    const own = this.#rank.get(task)!;
    const at = this.tasks.findIndex((other) => this.#rank.get(other)! > own);
    this.tasks.splice(at < 0 ? this.tasks.length : at, 0, task);
  }
}
