import type { Line, Task, Test } from "../line/line.js";
import { loadOf } from "../line/task-load.js";
import { visitsOfLine } from "../line/visits.js";
import { withoutTasks } from "../line/without-tasks.js";
import { compare, divide, multiply, ONE, type Ratio, ZERO } from "../time/ratio.js";

/**
 * The line with these tasks built at benches: parts scrapped there never meet a unit, so the tasks that stay are done as often as if
 * the tests among the others scrapped nothing. Those that leave are still done for every part that is built, and keep their tests.
 * The same line where none of their tests scraps.
 */
export function withoutScrapOf(line: Line, taken: readonly number[]): Line {
  const leastOf = withLeastScrap(line, taken);
  if (leastOf === line) return line;
  const gone = new Set(taken);
  return { ...line, tasks: line.tasks.map((task, at) => (gone.has(at) ? task : leastOf.tasks[at]!)) };
}

/** The line that remains when benches build these tasks. */
export const lineLeftBy = (line: Line, taken: readonly number[]): Line =>
  withoutTasks(withoutScrapOf(line, taken), taken);

/** The same of every task: what the tasks of the line take at the least, whichever of these are built at benches. */
export function withLeastScrap(line: Line, mayLeave: readonly number[]): Line {
  const leaving = new Set(mayLeave);
  const tests = line.tasks.map(({ test }, at) => (leaving.has(at) ? spared(test) : test));
  if (tests.every((test, at) => test === line.tasks[at]!.test)) return line;
  const sparing = { ...line, tasks: line.tasks.map((task, at) => ({ ...task, test: tests[at]! })) };
  const [before, after] = [visitsOfLine(line).visits, visitsOfLine(sparing).visits];
  return {
    ...line,
    tasks: line.tasks.map((task, at) => doneAsOften(line, task, before[at]!, after[at]!)),
  };
}

/** A test in its place that scraps nothing. */
function spared(test: Test | null): Test | null {
  if (test?.failures === "scrapped") return { ...test, scrap: ZERO };
  return test?.retest === "scrap" ? { ...test, retest: "once" } : test;
}

/** Parts that are taken over at the task are taken over less often as well. */
function doneAsOften(line: Line, task: Task, before: readonly Ratio[], after: readonly Ratio[]): Task {
  const isAlike = before.every((each, model) => compare(each, after[model]!) === 0);
  if (isAlike) return task;
  const shares = line.models.length === 0 ? [ONE] : line.models.map(({ share }) => share);
  const asOften = (all: readonly Ratio[]) =>
    all.map((each, model) =>
      compare(before[model]!, ZERO) === 0 ? each : divide(multiply(each, after[model]!), before[model]!),
    );
  const less = {
    ...task,
    visits: asOften(task.visits),
    ...(task.takenOver && {
      takenOver: task.takenOver.map((each) => ({ ...each, often: asOften(each.often) })),
    }),
  };
  return { ...less, load: loadOf(less, shares) };
}
