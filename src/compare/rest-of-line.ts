import type { Line, Task } from "../line/line.js";
import { visitsPerGoodUnit } from "../line/visits.js";
import { equipmentLeft } from "../off-line/balance-rest.js";
import { withoutScrapOf } from "../off-line/without-scrap.js";
import { withoutTasks } from "../off-line/without-tasks.js";
import { add, multiply, ratio } from "../time/ratio.js";
import type { OptionBench } from "./bench-of-option.js";

/** What stays on a line. */
export interface RestOfLine {
  readonly rest: Line;
  /** By task number of the rest its number in the whole line. */
  readonly kept: readonly number[];
}

/**
 * What stays on the line when benches build their part: no unit is lost to what is scrapped there, the tasks where parts join take the time to take them over, and counted
 * equipment is what the benches leave.
 */
export function restOfLine(line: Line, benches: readonly OptionBench[]): RestOfLine {
  const taken = new Set(benches.flatMap(({ figures }) => figures.tasks));
  const kept = [...line.tasks.keys()].filter((task) => !taken.has(task));
  const left = withoutScrapOf(line, [...taken]);
  const tasks = left.tasks.map((task, at) =>
    benches
      .filter(({ figures }) => figures.joinsAt.includes(at))
      .reduce((sum, bench) => withTakeOver(line, sum, bench), task),
  );
  const equipment = equipmentLeft(
    line,
    benches.map(({ figures }) => figures),
  );
  return { rest: withoutTasks({ ...line, equipment, tasks }, [...taken]), kept };
}

/** The take-over is done as often as the task, on the units that carry the parts. */
function withTakeOver(line: Line, task: Task, { figures: { terms, share } }: OptionBench): Task {
  if (terms.takeOver === 0) return task;
  const often = multiply(visitsPerGoodUnit(line, task), share);
  return {
    ...task,
    times: task.times.map((time) => (time === null ? null : time + terms.takeOver)),
    load: add(task.load, multiply(ratio(terms.takeOver), often)),
  };
}
