import { type Finding, finding } from "../findings/finding.js";
import type { Line } from "../line/line.js";
import { type BusyMachine, busyMachines } from "../plan/machine-busy.js";
import type { Plan } from "../plan/plan.js";
import { stationLimit, stationTime } from "../plan/station-figures.js";
import { kindsFor } from "../solve/floor/binding-times.js";
import type { FloorProblem } from "../solve/floor/floor-problem.js";
import { toFloorProblem } from "../solve/floor/to-floor-problem.js";
import { fromParts, loadsInParts } from "../solve/parts.js";
import type { Pace } from "../time/pace.js";
import { compare, divide, type Ratio, ZERO } from "../time/ratio.js";
import { showTimesIn } from "../time/show-in-unit.js";
import { percent } from "../time/show-values.js";
import { machineWords } from "./find-shop-notes.js";
import { modelTimeOf } from "./room-for-tasks.js";

/** A task that is longer than any station it may stand at takes; times in microseconds. */
export interface FloorLongTask {
  readonly task: number;
  /** The most that such a station takes at all its places: its working time, or its limit where that is strict. */
  readonly most: Ratio;
  /** The places of that station. */
  readonly places: number;
}

/** Tasks that no station of a line with shop-floor rules can hold, each by the stations that it may stand at. */
export function findFloorLongTasks(line: Line, pace: Pace, strictLimit: boolean): FloorLongTask[] {
  const problem = toFloorProblem(line, { pace, strictLimit, slowest: null, free: false });
  const loads = loadsInParts(line);
  return loads.flatMap((load, task) => {
    const roomiest = kindsFor(problem, [task]).reduce((one, two) =>
      two.alone.at(-1)! > one.alone.at(-1)! ? two : one,
    );
    const most = roomiest.alone.at(-1)!;
    return load > most ? [{ task, most: fromParts(line, most), places: roomiest.alone.length }] : [];
  });
}

/** A task for which stations have no time though its hands would fit: a counted machine is busy too long, or one model takes more. */
export interface RuledOutTask {
  readonly task: number;
  readonly machines: readonly BusyMachine[];
  /** Models that take more of it than any station that it may stand at grants one model. */
  readonly models: readonly number[];
}

/** Tasks that alone need more of a counted machine than exists, or more than one model may ask of a station. */
export function findRuledOutTasks(line: Line, pace: Pace, strictLimit: boolean): RuledOutTask[] {
  const problem = toFloorProblem(line, { pace, strictLimit, slowest: null, free: false });
  const isShort = ({ name, needed }: BusyMachine) => needed > (line.equipment.get(name ?? "") ?? needed);
  return [...line.tasks.keys()].flatMap((task) => {
    const machines = busyMachines(line, pace, { tasks: [task] }).filter(isShort);
    const models = problem.modelLoads.flatMap((_, model) =>
      compare(modelTimeOf(line, task, model), mostOfModel(line, problem, task)) > 0 ? [model] : [],
    );
    return machines.length + models.length === 0 ? [] : [{ task, machines, models }];
  });
}

/** What one model may ask of the roomiest station that a task may stand at. */
const mostOfModel = (line: Line, problem: FloorProblem, task: number): Ratio =>
  fromParts(line, Math.max(...kindsFor(problem, [task]).map(({ modelLimits }) => modelLimits.at(-1) ?? 0)));

/** Tasks that a plan holds alone above the limit of their station. */
export function findFloorTightTasks(line: Line, pace: Pace, plan: Plan): number[] {
  return plan.stations
    .filter((station) => compare(stationTime(line, station), stationLimit(line, pace, station)) > 0)
    .map(({ tasks }) =>
      tasks.reduce((one, two) => (compare(line.tasks[two]!.load, line.tasks[one]!.load) > 0 ? two : one)),
    )
    .sort((one, two) => one - two);
}

/** An error for each task that no station can hold. */
export function tellFloorLongTasks(
  line: Line,
  long: readonly FloorLongTask[],
  strictLimit: boolean,
): Finding[] {
  const show = showTimesIn(line.unit);
  return long.map(({ task, most, places }) => {
    const { id, load, place } = line.tasks[task]!;
    const at = places === 1 ? "" : ` at ${places} places`;
    const what = strictLimit ? "station limit" : "working time";
    const then = strictLimit ? "refused by --strict-limit" : "no station that it may stand at can hold it";
    return finding({
      rule: strictLimit ? "over-limit" : "over-working-time",
      severity: "error",
      message: `${id} takes ${show(load)}, ${percent(divide(load, most))} of the ${what} (${show(most)}${at}): ${then}`,
      file: line.file,
      place,
      task: id,
    });
  });
}

/** An error for each task that a counted machine or one model leaves without a station. */
export function tellRuledOutTasks(line: Line, pace: Pace, strictLimit: boolean): Finding[] {
  const problem = toFloorProblem(line, { pace, strictLimit, slowest: null, free: false });
  const show = showTimesIn(line.unit);
  return findRuledOutTasks(line, pace, strictLimit).map(({ task, machines, models }) => {
    const { id, place } = line.tasks[task]!;
    const overload = percent(line.modelOverload ?? ZERO);
    const most = models.length === 0 ? "" : show(mostOfModel(line, problem, task));
    const words = [
      ...machines.map((machine) => `${machineWords(line, pace, machine)}; ${existWords(line, machine.name)}`),
      ...models.map(
        (model) =>
          `${line.models[model]!.id} takes ${show(modelTimeOf(line, task, model))}, above ${most}, what a station has for one model (model-overload ${overload})`,
      ),
    ];
    return finding({
      rule: "over-working-time",
      severity: "error",
      message: `${id}: ${words.join("; ")}: no station that it may stand at can hold it`,
      file: line.file,
      place,
      task: id,
    });
  });
}

function existWords(line: Line, name: string | null): string {
  const count = line.equipment.get(name ?? "") ?? 0;
  return `${count} ${count === 1 ? "exists" : "exist"}`;
}
