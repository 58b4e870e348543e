import { type Finding, finding, type Place } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import { listOf } from "../verify/fault.js";
import type { PlacedStation } from "./place-tasks.js";

/**
 * Tasks of the line that a plan lists nowhere or more than once, for a plan that goes no further for another fault; all other plans
 * are told so by the verifier.
 */
export function findTaskFaults(
  file: string,
  line: Line,
  placed: readonly PlacedStation[],
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
      const message = `task ${task} is at no station`;
      return [finding({ ...common, rule: "missing-task", message, place: listed })];
    }
    if (found.length === 1) return [];
    const message = `task ${task} is at ${listOf(found.map(({ station }) => station))}`;
    const { place } = found.at(-1)!;
    return [finding({ ...common, rule: "task-twice", message, place, station: found[0]!.station })];
  });
}
