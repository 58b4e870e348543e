import type { Line, Task } from "../../../../src/line/line.js";
import { add, multiply, ONE, type Ratio, ratio, ZERO } from "../../../../src/time/ratio.js";
import { lineOf } from "../../../tools/line-of.js";

/** The times of a task by model in seconds, null where a model does not have it, and the tasks before it. */
export interface MixedTask extends Partial<Pick<Task, "people" | "every">> {
  /** By failures alone, the same for every model that has the task. */
  readonly visits?: Ratio;
  readonly seconds: readonly (number | null)[];
  readonly after?: readonly string[];
  readonly walking?: number;
}

/** Shares from quantities: 3 and 2 are 60 % and 40 %. */
export function sharesFrom(quantities: readonly number[]): Ratio[] {
  const units = quantities.reduce((sum, each) => sum + each, 0);
  return quantities.map((each) => ratio(each, units));
}

/** A line that builds several models; ids of models in the order of the quantities that give their shares. */
export function mixedLine(
  models: Readonly<Record<string, number>>,
  tasks: Readonly<Record<string, MixedTask>>,
  sequence: readonly string[] | null = null,
): Line {
  const ids = Object.keys(models);
  const shares = sharesFrom(Object.values(models));
  const rows = Object.entries(tasks).map(
    ([id, { after = [] }]) => `  ${id}: {time: 1, after: [${after.join(", ")}]}`,
  );
  const plain = lineOf(["line: mixed line", "unit: s", "tasks:", ...rows, ""].join("\n"));
  return {
    ...plain,
    models: ids.map((id, at) => ({ id, share: shares[at]! })),
    sequence: sequence?.map((id) => ids.indexOf(id)) ?? null,
    tasks: plain.tasks.map((task) => mixedTask(task, tasks[task.id]!, shares)),
  };
}

function mixedTask(
  plain: Task,
  { seconds, after: _, walking = 0, visits = ONE, ...more }: MixedTask,
  shares: readonly Ratio[],
): Task {
  const micros = (value: number) => Math.round(value * 1_000_000);
  const times = seconds.map((each) => (each === null ? null : micros(each)));
  const task = { ...plain, ...more, times, walking: micros(walking) };
  const due = multiply(visits, ratio(1, task.every));
  const load = times
    .map((each, model) => (each === null ? ZERO : multiply(shares[model]!, ratio(each + task.walking))))
    .reduce(add, ZERO);
  return { ...task, visits: times.map((each) => (each === null ? ZERO : due)), load: multiply(load, due) };
}

/** Letters of models by number: 0 is A. */
export const letters = (sequence: readonly number[]): string =>
  sequence.map((model) => "ABCDEFGH"[model]).join("");

/** Whole or broken seconds of an exact time in microseconds, with 3 decimals at most. */
export const inSeconds = ({ num, den }: Ratio): number => Number((num * 1000n) / (den * 1_000_000n)) / 1000;
