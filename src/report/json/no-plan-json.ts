import type { NamedShortage } from "../../answer/balance/obstacle.js";
import type { Line } from "../../line/line.js";
import type { UnfinishedBalance } from "../../solve/balance.js";
import { secondsJson } from "./number-json.js";

const idsOf = (line: Line, tasks: readonly number[]): string[] => tasks.map((task) => line.tasks[task]!.id);

const stationsOf = (line: Line, stations: readonly number[]): string[] =>
  stations.map((station) => line.floor[station]!.id);

/** Work that does not fit what it is held to. */
export function shortageJson({ single, work, capacity, ...facts }: NamedShortage) {
  return {
    ...facts,
    singleSeconds: secondsJson(single),
    workSeconds: secondsJson(work),
    capacitySeconds: secondsJson(capacity),
  };
}

/** How far a search came that found no plan. */
export function unfinishedJson(line: Line, { plan, left, stuck }: UnfinishedBalance) {
  return {
    placed: line.tasks.length - left.length,
    left: idsOf(line, left),
    stations: plan.stations.map(({ id, tasks }) => ({ id, tasks: idsOf(line, tasks) })),
    stuck: stuck.map(({ task, stations, needs, room }) => ({
      task: line.tasks[task]!.id,
      stations: stations && stationsOf(line, stations),
      needsSeconds: secondsJson(needs),
      roomSeconds: secondsJson(room),
    })),
  };
}
