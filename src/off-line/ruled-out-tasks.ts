import { type Finding, finding } from "../findings/finding.js";
import type { Line } from "../line/line.js";
import { type BusyMachine, busyMachines } from "../plan/machine-busy.js";
import { kindsFor } from "../solve/floor/binding-times.js";
import type { StationKind } from "../solve/floor/floor-problem.js";
import { toFloorProblem } from "../solve/floor/to-floor-problem.js";
import { fromParts } from "../solve/parts.js";
import type { Pace } from "../time/pace.js";
import { compare, type Ratio, ZERO } from "../time/ratio.js";
import { showTimesIn } from "../time/show-in-unit.js";
import { percent } from "../time/show-values.js";
import { machineWords } from "./find-shop-notes.js";
import { modelTimeOf } from "./room-for-tasks.js";

/** A task that a rule leaves without a station though its hands would fit the places of one; times in microseconds. */
export interface RuledOutTask {
  readonly task: number;
  /** Counted machines that it keeps busy for longer than those that exist have time for. */
  readonly machines: readonly BusyMachine[];
  /** Counted equipment of which there is too little for the places that it needs, and what the places with it have time for. */
  readonly equipment: { readonly name: string; readonly most: Ratio } | null;
  /** Models that take more of it than stations grant one model, and how much that is. */
  readonly models: readonly { readonly model: number; readonly most: Ratio }[];
}

/** Tasks that alone need more of counted equipment than exists, or more than one model may ask of a station. */
export function findRuledOutTasks(line: Line, pace: Pace, strictLimit: boolean): RuledOutTask[] {
  const problem = toFloorProblem(line, { pace, strictLimit, slowest: null, free: false });
  return [...line.tasks.keys()].flatMap((task) => {
    const kinds = kindsFor(problem, [task]);
    const machines = busyMachines(line, pace, { tasks: [task] }).filter(
      ({ name, needed }) => needed > (line.equipment.get(name ?? "") ?? needed),
    );
    const scarce = scarcest(line, task);
    const count = scarce === null ? Number.POSITIVE_INFINITY : line.equipment.get(scarce)!;
    const most = (limits: (kind: StationKind) => readonly number[], places: number) =>
      fromParts(
        line,
        Math.max(...kinds.map((kind) => limits(kind)[Math.min(limits(kind).length, places) - 1] ?? 0)),
      );
    const { load } = line.tasks[task]!;
    const withCount = most(({ alone }) => alone, count);
    const isShort =
      compare(load, withCount) > 0 &&
      compare(
        load,
        most(({ alone }) => alone, Number.POSITIVE_INFINITY),
      ) <= 0;
    const equipment = scarce !== null && isShort ? { name: scarce, most: withCount } : null;
    const mostOfModel = most(({ modelLimits }) => modelLimits, count);
    const models = problem.modelLoads.flatMap((_, model) =>
      compare(modelTimeOf(line, task, model), mostOfModel) > 0 ? [{ model, most: mostOfModel }] : [],
    );
    const isRuledOut = machines.length + models.length > 0 || equipment !== null;
    return isRuledOut ? [{ task, machines, equipment, models }] : [];
  });
}

/** The equipment of a task of which the fewest exist; null where none is counted. */
function scarcest(line: Line, task: number): string | null {
  const count = (name: string) => line.equipment.get(name) ?? Number.POSITIVE_INFINITY;
  const counted = line.tasks[task]!.equipment.filter((name) => line.equipment.has(name));
  return counted.reduce<string | null>(
    (least, name) => (least === null || count(name) < count(least) ? name : least),
    null,
  );
}

/** An error for each of these tasks, with every sum that rules it out. */
export function tellRuledOutTasks(line: Line, pace: Pace, ruledOut: readonly RuledOutTask[]): Finding[] {
  const show = showTimesIn(line.unit);
  const overload = percent(line.modelOverload ?? ZERO);
  return ruledOut.map(({ task, machines, equipment, models }) => {
    const { id, load, place } = line.tasks[task]!;
    const words = [
      ...machines.map((machine) => `${machineWords(line, pace, machine)}; ${existWords(line, machine.name)}`),
      ...(equipment === null
        ? []
        : [
            `${show(load)} is above ${show(equipment.most)}, what the places with ${equipment.name} have; ${existWords(line, equipment.name)}`,
          ]),
      ...models.map(
        ({ model, most }) =>
          `${line.models[model]!.id} takes ${show(modelTimeOf(line, task, model))}, above ${show(most)}, what a station has for one model (model-overload ${overload})`,
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
