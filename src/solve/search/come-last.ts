import type { FullLoads } from "./full-loads.js";
import type { Instance } from "./instance.js";

/**
 * Whether the current load can be left for the end of the line: none of its tasks has followers, while some task still
 * to be placed has. Whatever plan has this station next has it last just as well, so another load may go first
 * (Scholl & Klein 1997; Sewell & Jacobson 2012). `leadingTasksLeft`: unplaced tasks with followers before this load.
 */
export function canComeLast(
  loads: FullLoads,
  { followerCounts }: Instance,
  leadingTasksLeft: number,
): boolean {
  if (leadingTasksLeft === 0) return false;
  for (let at = 0; at < loads.count; at++) if (followerCounts[loads.load[at]!]! > 0) return false;
  return true;
}
