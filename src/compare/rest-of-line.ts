import type { Line } from "../line/line.js";
import { withoutTasks } from "../off-line/without-tasks.js";
import { add, multiply, type Ratio, ratio, ZERO } from "../time/ratio.js";
import type { OptionBench } from "./bench-of-option.js";

/** What stays on a line. */
export interface RestOfLine {
  readonly rest: Line;
  /** By task number of the rest its number in the whole line. */
  readonly kept: readonly number[];
}

/** What stays on the line when benches build their part; the tasks where parts join take the time to take them over. */
export function restOfLine(line: Line, benches: readonly OptionBench[]): RestOfLine {
  const taken = new Set(benches.flatMap(({ post }) => post.tasks));
  const kept = [...line.tasks.keys()].filter((task) => !taken.has(task));
  const rest = withoutTasks(line, [...taken]);
  const tasks = rest.tasks.map((task, at) => {
    const more = takenOverAt(benches, kept[at]!);
    return { ...task, load: add(task.load, more) };
  });
  return { rest: { ...rest, tasks }, kept };
}

function takenOverAt(benches: readonly OptionBench[], task: number): Ratio {
  return benches
    .filter(({ joinsAt }) => joinsAt.includes(task))
    .map(({ takeOver, post }) => multiply(ratio(takeOver), post.share))
    .reduce(add, ZERO);
}
