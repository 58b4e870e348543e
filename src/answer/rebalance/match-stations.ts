import { addTo } from "../../findings/add-to.js";
import { idKey } from "../../line/ids.js";
import type { Line, Task } from "../../line/line.js";
import type { Plan } from "../../plan/plan.js";
import { alignWithin } from "../../solve/moves-of-plan.js";

/** What it costs to move a task: what the task says, else the dearest of its skills, else 1. */
export function moveCost({ moveCosts }: Line, { moveCost: own, skills }: Task): number {
  return own ?? Math.max(1, ...skills.map((skill) => moveCosts.get(skill) ?? 1));
}

/** A task whose station changes; `from` is null where the plan before does not have the task. */
export interface Move {
  readonly task: number;
  readonly from: string | null;
  readonly to: string;
}

/** The station of each task, by its index in the plan. */
export const stationsByTask = ({ stations }: Plan): ReadonlyMap<number, number> =>
  new Map(stations.flatMap(({ tasks }, at) => tasks.map((task) => [task, at] as const)));

/**
 * Which station of one plan each station of another is: -1 where it is a new one. Stations of the floor are told by their ids;
 * others by what they hold, so that moves cost as little as possible and the order of flow is kept (an alignment, Needleman & Wunsch
 * 1970); of equals, stations with the same id are the same.
 *
 * @param costs what it costs to move each task
 * @param mostMoves of more moves than that only where they cannot be so few
 */
export function matchStations(
  line: Line,
  from: Plan,
  to: Plan,
  costs: readonly number[] = line.tasks.map((task) => moveCost(line, task)),
  mostMoves: number = Number.POSITIVE_INFINITY,
): number[] {
  if (line.floor.length > 0) {
    const numbers = new Map(from.stations.map(({ id }, at) => [idKey(id), at]));
    return to.stations.map(({ id }) => numbers.get(idKey(id)) ?? -1);
  }
  const [rows, columns] = [to.stations.length, from.stations.length];
  const columnOf = stationsByTask(from);
  const columnWithId = new Map(from.stations.map(({ id }, column) => [idKey(id), column]));
  const shared = to.stations.map(({ tasks }) => {
    const own = new Map<number, number[]>();
    for (const task of tasks) {
      const column = columnOf.get(task);
      if (column !== undefined) addTo(own, column, task);
    }
    return own;
  });
  const worths = to.stations.map(({ id }, row) => {
    const own = new Map<number, number>();
    for (const [column, tasks] of shared[row]!)
      own.set(column, tasks.reduce((sum, task) => sum + costs[task]!, 0) * 2 * (rows + 1));
    const same = columnWithId.get(idKey(id));
    return same === undefined ? own : own.set(same, (own.get(same) ?? 0) + 1);
  });
  const worth = (row: number, column: number) => worths[row]!.get(column) ?? 0;
  const countOf = (row: number, column: number) => shared[row]!.get(column)?.length ?? 0;
  const best = Array.from({ length: rows + 1 }, () => new Float64Array(columns + 1));
  for (let row = rows - 1; row >= 0; row--) {
    const [own, next] = [best[row]!, best[row + 1]!];
    const worthOf = new Float64Array(columns);
    for (const [column, each] of worths[row]!) worthOf[column] = each;
    for (let column = columns - 1; column >= 0; column--)
      own[column] = Math.max(worthOf[column]! + next[column + 1]!, next[column]!, own[column + 1]!);
  }
  const matched = to.stations.map(() => -1);
  for (let [row, column] = [0, 0]; row < rows && column < columns; ) {
    if (worth(row, column) > 0 && best[row]![column] === worth(row, column) + best[row + 1]![column + 1]!) {
      matched[row++] = column++;
    } else if (best[row]![column] === best[row + 1]![column]) row++;
    else column++;
  }
  const all = to.stations.flatMap(({ tasks }) => tasks).filter((task) => columnOf.has(task)).length;
  const kept = matched.reduce((sum, column, row) => sum + countOf(row, column), 0);
  if (all - kept <= mostMoves) return matched;
  const both = (row: number, column: number) => [worth(row, column), countOf(row, column)] as const;
  return alignWithin(rows, columns, both, all - mostMoves) ?? matched;
}

/** Tasks of both plans whose station changes, in the order of work of the second plan. */
export function movesBetween(
  line: Line,
  from: Plan,
  to: Plan,
  costs?: readonly number[],
  mostMoves?: number,
): Move[] {
  const matched = matchStations(line, from, to, costs, mostMoves);
  const stationOf = stationsByTask(from);
  return to.stations.flatMap((station, at) =>
    station.tasks.flatMap((task): Move[] => {
      const before = stationOf.get(task);
      if (before === undefined || before === matched[at]) return [];
      return [{ task, from: from.stations[before]!.id, to: station.id }];
    }),
  );
}
