import type { Line } from "../line/line.js";
import { takingOver } from "../line/task-load.js";
import { visitsPerGoodUnit } from "../line/visits.js";
import { add, compare, divide, multiply, ONE, type Ratio, subtract, ZERO } from "../time/ratio.js";
import { factorShown, showTimesIn } from "../time/show-in-unit.js";
import { unevenVisits } from "./figures/units-tested.js";

/** More sums fit no message. */
const NAMED = 3;

/**
 * " (55 s x 1.1111 times per good unit)" behind what tasks take, where failures have some of them done more or less than once for a good
 * unit; with their names where other tasks take time as well. Empty where all of them are done once.
 */
export function workedAgainWords(line: Line, tasks: readonly number[]): string {
  const timed = tasks.filter((task) => compare(line.tasks[task]!.load, ZERO) > 0);
  const uneven = new Set(unevenVisits(line).map(({ task }) => task));
  const again = timed.filter((task) => uneven.has(task));
  if (again.length === 0) return "";
  const show = showTimesIn(line.unit);
  const sums = again.slice(0, NAMED).map((task) => {
    const { id, load } = line.tasks[task]!;
    const often = visitsPerGoodUnit(line, line.tasks[task]!);
    const taken = takenOverAt(line, task);
    const total = subtract(load, taken);
    const once = divide(total, often);
    const factor = factorShown(often, { of: once, total }, show, 4);
    const parts = compare(taken, ZERO) > 0 ? ` + ${show(taken)} to take parts over` : "";
    const sum = `${show(once)} x ${factor} times per good unit${parts}`;
    return timed.length === 1 ? sum : `${id}: ${sum}`;
  });
  const more = again.length > NAMED ? [`${again.length - NAMED} more`] : [];
  return ` (${[...sums, ...more].join("; ")})`;
}

function takenOverAt(line: Line, task: number): Ratio {
  const shares = line.models.length === 0 ? [ONE] : line.models.map(({ share }) => share);
  return shares
    .map((share, model) => multiply(share, takingOver(line.tasks[task]!, model)))
    .reduce(add, ZERO);
}
