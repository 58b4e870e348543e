import type { Line } from "../../../src/line/line.js";
import type { StationProblem } from "../../../src/solve/problem.js";
import { shortLine } from "../../tools/line-of.js";

/** A set of tasks, and the tasks outside that take over from any of them. */
export interface EverySet {
  readonly tasks: readonly number[];
  readonly joinsAt: readonly number[];
}

/** The generated line in seconds; the tasks whose numbers are given are marked as working on the base unit. */
export function lineOfProblem({ times, before }: StationProblem, marked: readonly number[]): Line {
  return shortLine(
    times.map((time, task) => {
      const earlier = before[task]!.map((each) => `t${each}`);
      return [`t${task}${marked.includes(task) ? "!" : ""}`, String(time), ...earlier].join(" ");
    }),
  );
}

/** Every set of tasks that can be built away, found by looking at each of the 2^n sets of tasks: the definition, written down plainly. */
export function everySetAway({ before }: StationProblem, marked: readonly number[]): EverySet[] {
  const all = [...before.keys()];
  const worksOnBase = (task: number): boolean => marked.includes(task) || before[task]!.some(worksOnBase);
  const leads = (from: number, to: number): boolean =>
    before[to]!.some((each) => each === from || leads(from, each));
  // An arrow beside which another way leads from the one task to the other hands nothing over.
  const hands = (from: number, to: number) =>
    before[to]!.includes(from) && !before[to]!.some((each) => leads(from, each));
  const found: EverySet[] = [];
  for (let bits = 1; bits < 2 ** all.length; bits++) {
    const has = (task: number) => (bits & (1 << task)) !== 0;
    const tasks = all.filter(has);
    if (tasks.some((task) => worksOnBase(task) || !before[task]!.every(has))) continue;
    const joinsAt = all.filter((task) => !has(task) && tasks.some((each) => hands(each, task)));
    // What nothing waits for is handed to nobody: every task must lead to one that takes the parts over.
    const reachesJoin = (task: number) => joinsAt.some((join) => leads(task, join));
    if (joinsAt.length > 0 && tasks.every(reachesJoin)) found.push({ tasks, joinsAt });
  }
  return found;
}

/** The problem without some of its tasks, the others numbered anew. */
export function problemWithout(problem: StationProblem, taken: readonly number[]): StationProblem {
  const kept = [...problem.times.keys()].filter((task) => !taken.includes(task));
  return {
    limit: problem.limit,
    times: kept.map((task) => problem.times[task]!),
    before: kept.map((task) =>
      problem.before[task]!.filter((each) => !taken.includes(each)).map((each) => kept.indexOf(each)),
    ),
  };
}
