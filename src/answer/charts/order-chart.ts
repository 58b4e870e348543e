import type { Line } from "../../line/line.js";
import { allPredecessors } from "../../line/reach.js";
import type { Plan, Station } from "../../plan/plan.js";

/** A station, or a bench beside the line, with its tasks in order of work. */
export interface OrderColumn {
  readonly id: string;
  readonly kind: "station" | "bench";
  readonly tasks: readonly number[];
}

/** Tasks by where they are done, and the arrows between them. */
export interface OrderChart {
  readonly line: Line;
  readonly plan: Plan;
  /** Along the line; a bench stands before the first station that takes what it builds. */
  readonly columns: readonly OrderColumn[];
  /** Each is needed: an arrow that others imply is left out. */
  readonly arrows: readonly { readonly from: number; readonly to: number }[];
  /** Where a task was before, by its number; only tasks that moved. */
  readonly movedFrom: ReadonlyMap<number, string>;
}

/** The order of work of a plan, station by station. @param before another plan of the line, to tell what moved since; null for none */
export function orderChart(line: Line, plan: Plan, before: Plan | null): OrderChart {
  const columns = plan.stations.map((station) => columnOf(station, "station"));
  for (const bench of plan.benches ?? []) {
    const tasks = new Set(bench.tasks);
    const joins = columns.findIndex(({ tasks: theirs }) =>
      theirs.some((task) => line.before[task]!.some((each) => tasks.has(each))),
    );
    columns.splice(joins < 0 ? columns.length : joins, 0, columnOf(bench, "bench"));
  }
  return { line, plan, columns, arrows: neededArrows(line), movedFrom: movedSince(before, columns) };
}

const columnOf = ({ id, tasks }: Station, kind: OrderColumn["kind"]): OrderColumn => ({ id, kind, tasks });

/** Of the arrows into a task, those from a task that none of the others comes after. */
function neededArrows({ before }: Line): OrderChart["arrows"] {
  const predecessors = allPredecessors(before);
  return before.flatMap((earlier, to) =>
    earlier
      .filter((from) => !earlier.some((other) => predecessors.has(other, from)))
      .map((from) => ({ from, to })),
  );
}

function movedSince(plan: Plan | null, columns: readonly OrderColumn[]): Map<number, string> {
  const posts = plan === null ? [] : [...plan.stations, ...(plan.benches ?? [])];
  const was = new Map(posts.flatMap(({ id, tasks }) => tasks.map((task) => [task, id] as const)));
  return new Map(
    columns.flatMap(({ id, tasks }) =>
      tasks.flatMap((task) => {
        const old = was.get(task);
        return old === undefined || old === id ? [] : [[task, old] as const];
      }),
    ),
  );
}
