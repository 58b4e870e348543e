import { ONE } from "../time/ratio.js";
import type { Line } from "./line.js";
import type { Before } from "./precedence.js";
import { loadOf } from "./task-load.js";
import { visitsOfLine } from "./visits.js";

/**
 * The line with another order of work; what waits between two tasks stays. What a failed test has done again follows from the order, and
 * with it the loads. The order is free of loops and has every test behind what it returns to.
 */
export function withOrder(line: Line, before: Before): Line {
  const arrows = before.map((earlier, task) => {
    const waited = line.waits.flatMap(({ from, to }) => (to === task ? [from] : []));
    return [...new Set([...earlier, ...waited])].sort((one, two) => one - two);
  });
  const ordered = { ...line, before: arrows };
  if (line.tasks.every(({ test }) => test === null)) return ordered;
  const { visits } = visitsOfLine(ordered);
  const shares = line.models.length === 0 ? [ONE] : line.models.map(({ share }) => share);
  const tasks = line.tasks.map((task, number) => {
    const again = { ...task, visits: visits[number]! };
    return { ...again, load: loadOf(again, shares) };
  });
  return { ...ordered, tasks };
}
