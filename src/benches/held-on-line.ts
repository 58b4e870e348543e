import type { Line } from "../line/line.js";

/** A rule of the line that keeps tasks from leaving it; tasks and stations by their numbers. */
export type Hold =
  | { readonly kind: "fixed-station"; readonly task: number; readonly stations: readonly number[] }
  /** The first goes, the other would stay. */
  | { readonly kind: "together"; readonly task: number; readonly stays: number }
  | { readonly kind: "apart"; readonly task: number; readonly other: number };

/** Rules of the line that speak against building these tasks, and no others, at one bench. */
export function holdsOf(line: Line, tasks: readonly number[]): Hold[] {
  const inside = new Set(tasks);
  const fixed = tasks.flatMap((task): Hold[] => {
    const { stations } = line.tasks[task]!;
    return stations === null ? [] : [{ kind: "fixed-station", task, stations }];
  });
  const torn = line.together.flatMap((group): Hold[] => {
    const [task] = group.filter((each) => inside.has(each));
    const [stays] = group.filter((each) => !inside.has(each));
    return task === undefined || stays === undefined ? [] : [{ kind: "together", task, stays }];
  });
  const met = line.apart.flatMap((group): Hold[] => {
    const [task, other] = group.filter((each) => inside.has(each));
    return task === undefined || other === undefined ? [] : [{ kind: "apart", task, other }];
  });
  return [...fixed, ...torn, ...met];
}
