import { type Finding, finding } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import { type BusyMachine, busyMachines, machineNeed } from "../../plan/figures/machines.js";
import { existWords, machineWords } from "../../report/words/obstacle-words.js";
import { limitsFor } from "../../solve/explain/binding-times.js";
import { layOutWork } from "../../solve/lay-out-work.js";
import { fromParts, wholeParts } from "../../solve/parts.js";
import { timeHeld } from "../../solve/time-held.js";
import type { StationLimits } from "../../solve/work.js";
import type { Pace } from "../../time/pace.js";
import { compare, type Ratio, subtract, ZERO } from "../../time/ratio.js";
import { showSumIn, showTimesApart } from "../../time/show-in-unit.js";
import { percent } from "../../time/show-values.js";
import { type LongTask, longWords, tellLongTasks, whichStation } from "./find-long-tasks.js";
import { findUnitSlips } from "./find-unit-slips.js";
import { modelTimeOf } from "./room-for-tasks.js";

/** A task that a rule leaves without a station though its hands would fit the places of one; times in microseconds. */
export interface RuledOutTask {
  readonly task: number;
  /** It may stand at every station, as far as the line says where. */
  readonly isAnywhere: boolean;
  /** Counted machines that it keeps busy for longer than those that exist have time for. */
  readonly machines: readonly BusyMachine[];
  /** Counted equipment that its hands keep for longer than those that exist have time for, and how long that is. */
  readonly equipment: { readonly name: string; readonly most: Ratio } | null;
  /** How long a unit stands for it, its machine with it, where that is longer than stations let it. */
  readonly dwell: {
    readonly held: Ratio;
    readonly most: Ratio;
    readonly holds: number;
    readonly places: number;
  } | null;
  /** Models that take more of it than stations grant one model, and how much that is. */
  readonly models: readonly { readonly model: number; readonly most: Ratio }[];
}

/** Tasks that alone need more of counted equipment than exists, or more than one model may ask of a station. */
export function findRuledOutTasks(line: Line, pace: Pace, strictLimit: boolean): RuledOutTask[] {
  const problem = layOutWork(line, { pace, strictLimit, slowest: null, free: false });
  return [...line.tasks.keys()].flatMap((task) => {
    const kinds = limitsFor(problem, [task]);
    const machines = busyMachines(line, pace, { tasks: [task] }).filter(
      ({ name, needed }) => needed > (line.equipment.get(name ?? "") ?? needed),
    );
    const scarce = scarcest(line, task);
    const counted = problem.equipment.find(({ name }) => name === scarce);
    const most = (limits: (kind: StationLimits) => readonly number[]) =>
      Math.max(...kinds.map((kind) => limits(kind).at(-1) ?? 0));
    const isAbove = (time: Ratio, limit: number) => wholeParts(line, time, "down") > limit;
    const { load } = line.tasks[task]!;
    const anywhere = most(({ alone }) => alone);
    const withCount = Math.min(counted?.time(counted.count) ?? anywhere, anywhere);
    const isShort = machines.length === 0 && isAbove(load, withCount) && !isAbove(load, anywhere);
    const equipment = scarce !== null && isShort ? { name: scarce, most: fromParts(line, withCount) } : null;
    const mostOfModel = most(({ modelLimits }) => modelLimits);
    const models = problem.modelLoads.flatMap((_, model) =>
      isAbove(modelTimeOf(line, task, model), mostOfModel)
        ? [{ model, most: fromParts(line, mostOfModel) }]
        : [],
    );
    const roomiest = kinds.reduce((one, two) => (two.dwell.at(-1)! > one.dwell.at(-1)! ? two : one));
    const [held, longest] = [timeHeld(line, task), roomiest.dwell.at(-1)!];
    const { holds, limits } = roomiest;
    const dwell =
      line.tasks[task]!.machineTime > 0 && isAbove(held, longest)
        ? { held, most: fromParts(line, longest), holds, places: limits.length }
        : null;
    const isRuledOut = machines.length + models.length > 0 || equipment !== null || dwell !== null;
    const isAnywhere = kinds.length === problem.kinds.length;
    return isRuledOut ? [{ task, isAnywhere, machines, equipment, dwell, models }] : [];
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

/** An error for each task that no station can hold, by its time or by what else rules it out, with every sum. */
export function tellTasksWithoutStation(
  line: Line,
  pace: Pace,
  long: readonly LongTask[],
  ruledOut: readonly RuledOutTask[],
  strictLimit: boolean,
): Finding[] {
  const longOf = (task: number) => long.find((each) => each.task === task);
  const told = ruledOut
    .map((each) => ({ ...each, models: modelsBeside(line, each, longOf(each.task) !== undefined) }))
    .filter(
      ({ machines, equipment, dwell, models }) =>
        machines.length + models.length > 0 || equipment !== null || dwell !== null,
    );
  const longOnly = long.filter(({ task }) => !told.some((each) => each.task === task));
  const both = told.map((each) => {
    const { id, place } = line.tasks[each.task]!;
    const own = longOf(each.task);
    const start = own === undefined ? `${id}: ` : `${longWords(line, own, strictLimit)}; `;
    const words = ruledOutWords(line, pace, each).join("; ");
    return finding({
      rule: "over-working-time",
      severity: "error",
      message: `${start}${words}: ${whichStation(each)} can hold it`,
      file: line.file,
      place,
      task: id,
    });
  });
  return [...findUnitSlips(line, pace), ...tellLongTasks(line, longOnly, strictLimit), ...both];
}

/** Models that take no more than the average say nothing new of a task that is too long. */
function modelsBeside(line: Line, { task, models }: RuledOutTask, isLong: boolean): RuledOutTask["models"] {
  const { load } = line.tasks[task]!;
  return models.filter(({ model }) => !isLong || compare(modelTimeOf(line, task, model), load) > 0);
}

/** What rules a task out beside its time. */
function ruledOutWords(
  line: Line,
  pace: Pace,
  { task, machines, equipment, dwell, models }: RuledOutTask,
): string[] {
  const above = (time: Ratio, most: Ratio) => showTimesApart(line.unit, time, most).join(", above ");
  const overload = percent(line.modelOverload ?? ZERO, 4);
  const exist = (name: string | null) => existWords(line.equipment.get(name ?? "") ?? 0);
  const { load } = line.tasks[task]!;
  return [
    ...machines.map(
      (machine) => `${machineWords(line.unit, machineNeed(line, pace, machine))}; ${exist(machine.name)}`,
    ),
    ...(equipment === null
      ? []
      : [
          `it takes ${above(load, equipment.most)}, what ${equipment.name} has for a unit; ${exist(equipment.name)}`,
        ]),
    ...(dwell === null ? [] : [dwellWords(line, load, dwell)]),
    ...models.map(({ model, most }) => {
      const takes = above(modelTimeOf(line, task, model), most);
      return `${line.models[model]!.id} takes ${takes}, what a station has for one model (model-overload ${overload})`;
    }),
  ];
}

/** "a unit stands 300 s for it (100 s and 200 s of machine), and it may stand 200 s at a station (holds: 1)". */
function dwellWords(line: Line, load: Ratio, dwell: NonNullable<RuledOutTask["dwell"]>): string {
  const { held, most, places, holds } = dwell;
  const {
    terms: [hands, machine],
    total,
    beside: [allowed],
  } = showSumIn(line.unit, [load, subtract(held, load)], most);
  const where = places === 1 ? "" : ` with ${places} places`;
  return `a unit stands ${total} for it (${hands} and ${machine} of machine), and it may stand ${allowed} at a station${where} (holds: ${holds})`;
}
