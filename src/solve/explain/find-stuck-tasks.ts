import type { Line } from "../../line/line.js";
import type { Ratio } from "../../time/ratio.js";
import type { UnfinishedPlan } from "../improve/first-plans.js";
import { fromParts } from "../parts.js";
import { kindAt, type Work } from "../work.js";
import { openRanges } from "./open-ranges.js";

/** A task for which a partial plan has no station. */
export interface StuckTask {
  readonly task: number;
  /** Numbers of the stations of the floor that may hold it; null where it may also stand behind the floor. */
  readonly stations: readonly number[] | null;
  /** What the tasks that share its station take with it, in microseconds. */
  readonly needs: Ratio;
  /** The most time that one of those stations has left, in microseconds; null where it may stand behind the floor. */
  readonly room: Ratio | null;
}

/** Where the tasks that a partial plan leaves out could stand, and how much time is left there. */
export function findStuckTasks(line: Line, work: Work, { plan, left }: UnfinishedPlan): StuckTask[] {
  const ranges = openRanges(work);
  const loadAt = new Map(
    plan.map(({ position, blocks }) => [
      position,
      blocks.reduce((sum, block) => sum + work.loads[block]!, 0),
    ]),
  );
  const roomAt = (station: number) => {
    const { limits, atOnce } = work.kinds[kindAt(work, station)]!;
    return Math.max(0, atOnce * limits.at(-1)! - (loadAt.get(station) ?? 0));
  };
  return left
    .flatMap((block) => {
      const stations = ranges?.stationsOf(block) ?? null;
      const room = stations === null ? null : fromParts(line, Math.max(...stations.map(roomAt)));
      const needs = fromParts(line, work.loads[block]!);
      return work.members[block]!.map((task) => ({ task, stations, needs, room }));
    })
    .sort((one, two) => one.task - two.task);
}
