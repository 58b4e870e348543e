import type { Line } from "../line/line.js";
import { stationIds } from "../plan/station-numbers.js";
import { kindAt } from "../solve/floor/floor-problem.js";
import { toFloorProblem } from "../solve/floor/to-floor-problem.js";
import type { Pace } from "../time/pace.js";

/** Where a task may stand, by what the line says of it and of the tasks before and after it. */
export interface TaskWindow {
  /** Stations of the floor, by id. */
  readonly stations: readonly string[];
  /** The first station behind the floor that may hold it, and every later one; null where none may. */
  readonly behind: string | null;
}

/** How the rules of a line bear on single tasks. */
export interface AnswerRules {
  /** Tasks that stand together, each list in order of work; no list of one. */
  readonly blocks: readonly (readonly number[])[];
  /** By task; null where every task may stand anywhere. */
  readonly windows: readonly TaskWindow[] | null;
}

export function answerRules(line: Line, pace: Pace, strictLimit: boolean): AnswerRules {
  const problem = toFloorProblem(line, { pace, strictLimit, slowest: null, free: false });
  const { members, allowed, first, last } = problem;
  const onFloor = [...line.floor.keys()];
  const mayHold = (block: number, position: number) =>
    allowed[block]![kindAt(problem, position)]! && position >= first[block]! && position <= last[block]!;
  const windows: TaskWindow[] = [];
  for (const [block, tasks] of members.entries()) {
    const stations = stationIds(
      line,
      onFloor.filter((position) => mayHold(block, position)),
    );
    const behind = Math.max(line.floor.length, first[block]!);
    const window = { stations, behind: mayHold(block, behind) ? stationIds(line, [behind])[0]! : null };
    for (const task of tasks) windows[task] = window;
  }
  const [next] = stationIds(line, [line.floor.length]);
  const isFree = ({ stations, behind }: TaskWindow) =>
    stations.length === line.floor.length && behind === next;
  return {
    blocks: members.filter((tasks) => tasks.length > 1),
    windows: windows.every(isFree) ? null : windows,
  };
}
