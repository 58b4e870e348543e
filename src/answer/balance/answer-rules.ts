import type { Line } from "../../line/line.js";
import { stationIds } from "../../plan/station-numbers.js";
import { layOutWork } from "../../solve/lay-out-work.js";
import type { Pace } from "../../time/pace.js";
import { whereAllowed } from "./where-allowed.js";

/** Where a task may stand by all that the line says of stations and of the order of work; time is not counted. */
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
  const problem = layOutWork(line, { pace, strictLimit, slowest: null, free: false });
  const { members } = problem;
  const onFloor = line.floor.length;
  const windows: TaskWindow[] = [];
  for (const [block, positions] of whereAllowed(problem).entries()) {
    const stations = stationIds(
      line,
      positions.filter((position) => position < onFloor),
    );
    const behind = positions.find((position) => position >= onFloor);
    const window = { stations, behind: behind === undefined ? null : stationIds(line, [behind])[0]! };
    for (const task of members[block]!) windows[task] = window;
  }
  const [next] = stationIds(line, [onFloor]);
  const isFree = ({ stations, behind }: TaskWindow) => stations.length === onFloor && behind === next;
  return {
    blocks: members.filter((tasks) => tasks.length > 1),
    windows: windows.every(isFree) ? null : windows,
  };
}
