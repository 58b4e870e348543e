import type { Line, Task } from "../../line/line.js";
import type { Work } from "../../solve/work.js";

/**
 * What has to be rebalanced, in the numbers of the search. The stations of today's plan are labels from 0 in order of flow; a
 * station of the new plan keeps a label, or is new. Labels ascend along the line, so a station put in at the front moves nothing
 * by itself.
 */
export interface MoveProblem {
  readonly floor: Work;
  /** How many stations today's plan has. */
  readonly labels: number;
  /** For each task of the line the label of its station today, or -1 where today's plan does not have the task. */
  readonly today: readonly number[];
  /** What it costs to move each task: whole numbers, 1 unless said otherwise; more than all others together for a task that must stay. */
  readonly costs: readonly number[];
  /** The label that stands at each position, -1 where none does; null where stations have no fixed places. */
  readonly labelAt: readonly number[] | null;
}

/** A station of the new plan with the label that it keeps, -1 where it is new. */
export interface LabelledStation {
  readonly label: number;
  readonly position: number;
  readonly blocks: readonly number[];
  readonly places: number;
  readonly crew: number;
}

/** What the tasks of a block cost at a station with a label, as far as their own stations today still lie ahead. */
export function costAt(
  { floor, today, costs }: MoveProblem,
  block: number,
  label: number,
  nextLabel: number,
): number {
  let cost = 0;
  for (const task of floor.members[block]!) {
    const own = today[task]!;
    if (own !== label && own >= nextLabel) cost += costs[task]!;
  }
  return cost;
}

/** What the tasks of a block cost because their station of today was passed with them unplaced. */
export function costOfPassing({ floor, today, costs }: MoveProblem, block: number, label: number): number {
  let cost = 0;
  for (const task of floor.members[block]!) if (today[task] === label) cost += costs[task]!;
  return cost;
}

/** What it costs to move a task: what the task says, else the dearest of its skills, else 1. */
export function moveCost({ moveCosts }: Line, { moveCost: own, skills }: Task): number {
  return own ?? Math.max(1, ...skills.map((skill) => moveCosts.get(skill) ?? 1));
}
