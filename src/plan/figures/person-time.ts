import type { Line } from "../../line/line.js";
import { add, multiply, type Ratio, ratio, ZERO } from "../../time/ratio.js";
import { planOf } from "../plan.js";
import { modelTime } from "../station-schedule.js";

/** Person-time of tasks for one good unit = sum of load x people, in microseconds. */
export function personTime(line: Line, tasks: readonly number[]): Ratio {
  return tasks
    .map((task) => multiply(line.tasks[task]!.load, ratio(line.tasks[task]!.people)))
    .reduce(add, ZERO);
}

/** Person-time of one unit over all tasks of a line, wherever they are done, in microseconds. */
export const workOfLine = (line: Line): Ratio => personTime(line, [...line.tasks.keys()]);

/** Person-time of one good unit of a model: each task as if it stood alone, in microseconds. */
export function workOfModel(line: Line, model: number): Ratio {
  const alone = planOf([...line.tasks.keys()].map((task) => [task])).stations;
  return line.tasks
    .map(({ people }, task) => multiply(ratio(people), modelTime(line, alone[task]!, model)))
    .reduce(add, ZERO);
}
