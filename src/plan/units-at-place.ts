import type { Line } from "../line/line.js";
import type { Station } from "./plan.js";
import { floorStationOf } from "./station-numbers.js";

/** How many units may stand at a place of a station, or a bench. Where people share the work of one, or have sides, it is simulated as one. */
export function unitsAtPlace(
  line: Line,
  { id, tasks }: Pick<Station, "id" | "tasks">,
  ofBench: number | null = null,
): number {
  const floor = ofBench === null ? floorStationOf(line, id) : null;
  const isShared =
    (floor?.maxCrew ?? line.maxCrew) > 1 || tasks.some((task) => line.tasks[task]!.side !== null);
  return isShared ? 1 : (ofBench ?? floor?.holds ?? line.holds);
}
