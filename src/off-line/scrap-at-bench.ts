import type { Line } from "../line/line.js";
import { visitsOfLine } from "../line/visits.js";
import { compare } from "../time/ratio.js";
import { withoutTasks } from "./without-tasks.js";

/**
 * Tasks that stay on the line and whose loads count units scrapped at a bench: on the line what a test scraps takes the whole unit with
 * it, at a bench only the parts. Ascending; empty where no test of the bench scraps.
 */
export function loadedByScrapAt(line: Line, tasks: readonly number[]): number[] {
  const scraps = tasks.some((task) => {
    const test = line.tasks[task]!.test;
    return test !== null && (test.failures === "scrapped" || test.retest === "scrap");
  });
  if (!scraps) return [];
  const kept = [...line.tasks.keys()].filter((task) => !tasks.includes(task));
  const [all, rest] = [visitsOfLine(line).visits, visitsOfLine(withoutTasks(line, tasks)).visits];
  return kept.filter((task, at) =>
    all[task]!.some((visits, model) => compare(visits, rest[at]![model]!) > 0),
  );
}
