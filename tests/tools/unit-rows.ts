import type { Line } from "../../src/line/line.js";
import { multiply, type Ratio, ratio, subtract } from "../../src/time/ratio.js";

/** So many units are looked at one by one; lines for this have work of every 2nd, 3rd and 6th unit at most. */
export const UNITS = 6;

/** Units of a model that are alike. */
export interface UnitRow {
  readonly model: number;
  /** How many of `UNITS` are like this. */
  readonly count: number;
  /** Task times in microseconds, 0 for a task that is not due on them. */
  readonly times: readonly number[];
}

/** The units 1, 2, ... of each model of a line without walking, work of every n-th unit on those that n divides, alike ones counted together. */
export function unitRows(line: Line): UnitRow[] {
  const models = [...Array(Math.max(1, line.models.length)).keys()];
  return models.flatMap((model) => {
    const rows = new Map<string, UnitRow>();
    for (let unit = 1; unit <= UNITS; unit++) {
      const times = line.tasks.map((task) => (unit % task.every === 0 ? ownTime(task, model) : 0));
      const count = (rows.get(times.join())?.count ?? 0) + 1;
      rows.set(times.join(), { model, count, times });
    }
    return [...rows.values()];
  });
}

/** Microseconds of a task done again for a unit of a model. */
export function timeAgain({ tasks }: Line, task: number, model: number): Ratio {
  const { every, visits } = tasks[task]!;
  const extra = subtract(visits.length === 1 ? visits[0]! : visits[model]!, ratio(1, every));
  return multiply(ratio(ownTime(tasks[task]!, model)), extra);
}

const ownTime = ({ times }: Line["tasks"][number], model: number): number =>
  (times.length === 1 ? times[0] : times[model]) ?? 0;
