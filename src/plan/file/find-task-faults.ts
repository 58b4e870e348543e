import { type Finding, finding, type Place } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import { listOf } from "../verify/fault.js";
import type { PlacedStation } from "./place-tasks.js";

/**
 * Tasks of the line that a plan lists nowhere or more than once, for a plan that goes no further for another fault; all other plans
 * are told so by the verifier.
 *
 * @param isWhole every list of tasks could be read, so that what is in none of them is missing
 * @param listed where the stations are listed
 */
export function findTaskFaults(
  file: string,
  line: Line,
  placed: readonly PlacedStation[],
  isWhole: boolean,
  listed: Place | null,
): Finding[] {
  const written = line.tasks.map((): { station: string; place: Place }[] => []);
  for (const { station, places } of placed) {
    for (const [at, task] of station.tasks.entries())
      written[task]!.push({ station: station.id, place: places[at]! });
  }
  return written.flatMap((found, at) => {
    const task = line.tasks[at]!.id;
    const common = { severity: "error", file, task } as const;
    if (found.length === 0) {
      if (!isWhole) return [];
      const message = `task ${task} is at no station`;
      return [finding({ ...common, rule: "missing-task", message, place: listed })];
    }
    if (found.length === 1) return [];
    const message = `task ${task} is ${placesWords(found.map(({ station }) => station))}`;
    const { place } = found.at(-1)!;
    return [finding({ ...common, rule: "task-twice", message, place, station: found[0]!.station })];
  });
}

/** "at A and B", "twice at A", "twice at A and at B": where a task is that is listed more than once. */
export function placesWords(stations: readonly string[]): string {
  const counts = new Map<string, number>();
  for (const id of stations) counts.set(id, (counts.get(id) ?? 0) + 1);
  if (counts.size === stations.length) return `at ${listOf(stations)}`;
  return listOf([...counts].map(([id, count]) => `${timesWords(count)}at ${id}`));
}

function timesWords(count: number): string {
  if (count === 1) return "";
  return count === 2 ? "twice " : `${count} times `;
}
