import type { Line, Task } from "../line/line.js";
import { loadOf } from "../line/task-load.js";
import { withoutTasks } from "../line/without-tasks.js";
import { ONE } from "../time/ratio.js";
import { type BenchJob, takeOversOf } from "./bench-job.js";
import { unitsKept } from "./bench-machines.js";
import type { BenchFigures } from "./measure-bench.js";
import { withoutScrapOf } from "./without-scrap.js";

/** What stays on a line. */
export interface LineLeft {
  readonly rest: Line;
  /** By task number of the rest its number in the whole line. */
  readonly kept: readonly number[];
}

/**
 * What stays on the line when benches build their part: no unit is lost to what is scrapped there, the tasks where parts join take the
 * time to take them over, and counted equipment is what the benches leave.
 */
export function restOfLine(line: Line, benches: readonly BenchFigures[]): LineLeft {
  const taken = new Set(benches.flatMap(({ tasks }) => tasks));
  const kept = [...line.tasks.keys()].filter((task) => !taken.has(task));
  const left = withoutScrapOf(line, [...taken]);
  const whole = { ...left, equipment: equipmentLeft(line, benches), tasks: withTakeOver(left, benches) };
  return { rest: withoutTasks(whole, [...taken]), kept };
}

/** Counted equipment without what the benches keep; below 0 where that is more than exists. */
export function equipmentLeft(line: Line, benches: readonly BenchFigures[]): Map<string, number> {
  const left = [...line.equipment].map(([name, count]) => {
    const kept = benches.map((bench) => unitsKept(line, bench, name));
    return [name, kept.reduce((rest, units) => rest - units, count)] as const;
  });
  return new Map(left);
}

/** The tasks of the line with the time to take parts over, where they join; on the units that carry them. */
export function withTakeOver(line: Line, jobs: readonly BenchJob[]): Task[] {
  const shares = line.models.length === 0 ? [ONE] : line.models.map(({ share }) => share);
  return line.tasks.map((task, at) => {
    const joining = jobs.filter(({ joinsAt, terms }) => terms.takeOver > 0 && joinsAt.includes(at));
    if (joining.length === 0) return task;
    const takenOver = joining.map((job) => ({ time: job.terms.takeOver, often: takeOversOf(line, job, at) }));
    const taking = { ...task, takenOver: [...(task.takenOver ?? []), ...takenOver] };
    return { ...taking, load: loadOf(taking, shares) };
  });
}
