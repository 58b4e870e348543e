import { type Finding, finding } from "../findings/finding.js";
import type { Bench, Line, Task } from "../line/line.js";
import { loadOf } from "../line/task-load.js";
import { compare, multiply, ONE, type Ratio } from "../time/ratio.js";
import { percent } from "../time/show-values.js";
import { isByModel } from "./bench-job.js";

/**
 * The line with its tasks done as often as the benches of the file say that units carry what is built there: a task that 40 % of
 * the units have is worked on these, at a bench or on the line. Loads are then means over all units wherever the work is done, as
 * they are already where times by model or `every` tell who has a task.
 */
export function countShares(line: Line): Line {
  const counted = new Map(
    line.benches.flatMap((bench) => onlyBySharesOf(line, bench).map((task) => [task, bench.share] as const)),
  );
  if (counted.size === 0) return line;
  const shares = line.models.length === 0 ? [ONE] : line.models.map(({ share }) => share);
  const tasks = line.tasks.map((task, at) => {
    const share = counted.get(at);
    return share === undefined ? task : doneOn(task, share, shares);
  });
  return { ...line, tasks };
}

function doneOn(task: Task, share: Ratio, shares: readonly Ratio[]): Task {
  const visits = task.visits.map((each) => multiply(each, share));
  return { ...task, visits, load: loadOf({ ...task, visits }, shares) };
}

/** Tasks of a bench of which its `share` alone says that not every unit has them. */
function onlyBySharesOf(line: Line, { tasks, share }: Bench): number[] {
  if (compare(share, ONE) === 0 || isByModel(line, tasks)) return [];
  return tasks.filter((task) => line.tasks[task]!.every === 1);
}

/** A warning for each bench whose share counts on the line as well, as nothing else in the file says that it does. */
export function findCountedShares(line: Line): Finding[] {
  return line.benches.flatMap((bench) => {
    const tasks = onlyBySharesOf(line, bench);
    if (tasks.length === 0) return [];
    const names = tasks.map((task) => line.tasks[task]!.id).join(", ");
    const counts = tasks.length === 1 ? "counts" : "count";
    const share = percent(bench.share);
    const message = `bench ${bench.id}: ${share} of the units carry what is built there, so here ${names} ${counts} on ${share} of them on the line as well; \`balance\` and \`check\` count every unit, as no times by model and no \`every\` say otherwise`;
    return [
      finding({
        rule: "share-on-the-line",
        severity: "warning",
        message,
        file: line.file,
        place: bench.place,
      }),
    ];
  });
}
