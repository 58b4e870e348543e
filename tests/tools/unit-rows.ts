import type { Line, Task } from "../../src/line/line.js";
import { multiply, type Ratio, ratio, subtract, ZERO } from "../../src/time/ratio.js";

/** So many units are looked at one by one; lines for this have work of every 2nd, 3rd and 6th unit at most. */
export const UNITS = 6;

/** Units of a model that are alike. */
export interface UnitRow {
  readonly model: number;
  /** How many of `UNITS` are like this. */
  readonly count: number;
  /** Task times in microseconds, 0 for a task that is not due on them. */
  readonly times: readonly number[];
  /** What machines run by themselves, in the same way. */
  readonly machines: readonly number[];
}

/** The units 1, 2, ... of each model of a line without walking, work of every n-th unit on those that n divides, alike ones counted together. */
export function unitRows(line: Line): UnitRow[] {
  const models = [...Array(Math.max(1, line.models.length)).keys()];
  return models.flatMap((model) => {
    const rows = new Map<string, UnitRow>();
    for (let unit = 1; unit <= UNITS; unit++) {
      const due = (time: (task: Task, model: number) => number) =>
        line.tasks.map((task) => (unit % task.every === 0 ? time(task, model) : 0));
      const [times, machines] = [due(ownTime), due(ownMachine)];
      const key = [...times, ...machines].join();
      rows.set(key, { model, count: (rows.get(key)?.count ?? 0) + 1, times, machines });
    }
    return [...rows.values()];
  });
}

/** Microseconds of a task done again for a unit of a model. */
export const timeAgain = (line: Line, task: number, model: number): Ratio =>
  multiply(ratio(ownTime(line.tasks[task]!, model)), oftenAgain(line.tasks[task]!, model));

/** The same of what its machine runs by itself. */
export const machineAgain = (line: Line, task: number, model: number): Ratio =>
  multiply(ratio(ownMachine(line.tasks[task]!, model)), oftenAgain(line.tasks[task]!, model));

function oftenAgain({ every, visits }: Task, model: number): Ratio {
  const extra = subtract(visits.length === 1 ? visits[0]! : visits[model]!, ratio(1, every));
  return extra.num > 0n ? extra : ZERO;
}

const ownTime = ({ times }: Task, model: number): number =>
  (times.length === 1 ? times[0] : times[model]) ?? 0;

const ownMachine = ({ times, machineTime }: Task, model: number): number =>
  (times.length === 1 ? times[0] : times[model]) === null ? 0 : machineTime;
