import type { Line, Task, Test } from "../../line/line.js";
import { visitsOfLine } from "../../line/visits.js";
import type { Ratio } from "../../time/ratio.js";
import { addUp } from "./whole-times.js";

/**
 * The line with the loads of its stations as the benches of a plan leave them: what a test at a bench scraps are loose parts, and no
 * unit of the line is started, nor anything done again on one, for those. Loads that count no such scrap are left alone.
 */
export function lineOfStations(line: Line, atBenches: ReadonlySet<number>): Line {
  const tests = line.tasks.map(({ test }, at) => (atBenches.has(at) ? keepParts(test) : test));
  if (tests.every((test, at) => test === line.tasks[at]!.test)) return line;
  const kept = { ...line, tasks: line.tasks.map((task, at) => ({ ...task, test: tests[at]! })) };
  const [all, units] = [visitsOfLine(line).visits, visitsOfLine(kept).visits];
  const tasks = line.tasks.map((task, at) =>
    atBenches.has(at) || !isAlike(task.visits, all[at]!) || isAlike(all[at]!, units[at]!)
      ? task
      : visited(line, task, units[at]!),
  );
  return { ...line, tasks };
}

/** The same test with nothing scrapped. */
function keepParts(test: Test | null): Test | null {
  if (test === null) return null;
  if (test.failures === "scrapped") return { failures: "scrapped", scrap: { num: 0n, den: 1n } };
  return test.retest === "scrap" ? { ...test, retest: "once" } : test;
}

const isAlike = (one: readonly Ratio[], two: readonly Ratio[]): boolean =>
  one.every(({ num, den }, at) => num * two[at]!.den === two[at]!.num * den);

/** The task with these visits: its load changes by the time that they save. */
function visited(line: Line, task: Task, visits: readonly Ratio[]): Task {
  const saved = task.times.map((own, model): Ratio => {
    const [was, is] = [task.visits[model]!, visits[model]!];
    const share = line.models[model]?.share ?? { num: 1n, den: 1n };
    const once = BigInt(own === null ? 0 : own + task.walking);
    const num = once * share.num * (is.num * was.den - was.num * is.den);
    return { num, den: share.den * is.den * was.den };
  });
  return { ...task, visits, load: addUp([task.load, ...saved]) };
}
