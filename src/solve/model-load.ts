import type { Line } from "../line/line.js";
import { handsPerGoodUnit } from "../line/task-load.js";
import type { Ratio } from "../time/ratio.js";

/** What a task takes of its station for one good unit of a model, in microseconds; 0 where the model does not have the task. */
export const modelLoad = (line: Line, task: number, model: number): Ratio =>
  handsPerGoodUnit(line.tasks[task]!, model);
