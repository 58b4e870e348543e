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
  if (line.countsShares) return line;
  const counted = new Map(
    line.benches.flatMap((bench) => onlyBySharesOf(line, bench).map((task) => [task, bench.share] as const)),
  );
  if (counted.size === 0) return line;
  const shares = line.models.length === 0 ? [ONE] : line.models.map(({ share }) => share);
  const tasks = line.tasks.map((task, at) => {
    const share = counted.get(at);
    return share === undefined ? task : doneOn(task, share, shares);
  });
  return { ...line, tasks, countsShares: true };
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
  return findShares(
    line,
    (counts, share) =>
      `so here ${counts} on ${share} of them on the line as well; \`balance\` and \`check\` count every unit, as no times by model and no \`every\` say otherwise`,
  );
}

/** The same where it does not count on the line, beside what a bench would build; none where it does. */
export function findUncountedShares(line: Line): Finding[] {
  if (line.countsShares) return [];
  return findShares(
    line,
    (counts, share) =>
      `and on the line ${counts} on every unit here, as no times by model and no \`every\` say otherwise; in \`off-line\` and \`compare\` on ${share} of them there as well`,
  );
}

function findShares(line: Line, wordsOf: (counts: string, share: string) => string): Finding[] {
  return line.benches.flatMap((bench) => {
    const tasks = onlyBySharesOf(line, bench);
    if (tasks.length === 0) return [];
    const names = tasks.map((task) => line.tasks[task]!.id).join(", ");
    const share = percent(bench.share);
    const words = wordsOf(`${names} ${tasks.length === 1 ? "counts" : "count"}`, share);
    const message = `bench ${bench.id}: ${share} of the units carry what is built there, ${words}`;
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
