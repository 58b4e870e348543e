import type { Line, Task } from "../../line/line.js";
import { handsPerGoodUnit } from "../../line/task-load.js";
import { add, multiply, type Ratio, ratio, subtract, ZERO } from "../../time/ratio.js";
import { planOf } from "../plan.js";
import { modelTime } from "../station-schedule.js";

/** Person-time of tasks for one good unit = sum of load x people, by model where their people differ, in microseconds. */
export function personTime(line: Line, tasks: readonly number[]): Ratio {
  return tasks.map((task) => personTimeOf(line, line.tasks[task]!)).reduce(add, ZERO);
}

function personTimeOf({ models }: Line, task: Task): Ratio {
  const { load, people, peopleByModel } = task;
  const all = multiply(load, ratio(people));
  if (peopleByModel === undefined) return all;
  // Of models with fewer people, so much less.
  const fewer = models.map(({ share }, model) =>
    multiply(multiply(share, handsPerGoodUnit(task, model)), ratio(people - peopleByModel[model]!)),
  );
  return subtract(all, fewer.reduce(add, ZERO));
}

/** Person-time of one unit over all tasks of a line, wherever they are done, in microseconds. */
export const workOfLine = (line: Line): Ratio => personTime(line, [...line.tasks.keys()]);

/** Person-time of one good unit of a model: each task as if it stood alone, in microseconds. */
export function workOfModel(line: Line, model: number): Ratio {
  const alone = planOf([...line.tasks.keys()].map((task) => [task])).stations;
  return line.tasks
    .map(({ people, peopleByModel }, task) =>
      multiply(ratio(peopleByModel?.[model] ?? people), modelTime(line, alone[task]!, model)),
    )
    .reduce(add, ZERO);
}
