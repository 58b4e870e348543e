import type { Line } from "../line/line.js";
import type { Station } from "./plan.js";

/**
 * The people at one place of a station: the most that any of its tasks needs together, and one for each side in use. A crew works
 * the tasks one after another; who is not needed waits.
 */
export function crewOf(line: Line, { tasks, sides }: Pick<Station, "tasks" | "sides">): number {
  const together = Math.max(1, ...tasks.map((task) => line.tasks[task]!.people));
  const used = new Set((sides ?? []).flatMap((side) => (side === "both" ? ["left", "right"] : [side])));
  return Math.max(together, used.size);
}
