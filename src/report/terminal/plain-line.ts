import type { Line, Task } from "../../line/line.js";
import { hasFloorRules } from "../../solve/station/station-rules.js";
import { compare, ONE } from "../../time/ratio.js";

/**
 * Whether a line has times, arrows and nothing else that shows in its tables. Shares of failures, of models and of units give
 * times decimals that take room, people and places take more; narrow terminals then show less.
 */
export function isPlainLine(line: Line): boolean {
  const isPlainTask = ({ visits }: Task) => visits.every((each) => compare(each, ONE) === 0);
  return line.models.length === 0 && line.tasks.every(isPlainTask) && !hasFloorRules(line);
}
