import type { Line } from "../../line/line.js";
import { handlingAt } from "../../line/passes.js";
import type { Pace } from "../../time/pace.js";
import { add, compare, multiply, ONE, type Ratio, subtract, ZERO } from "../../time/ratio.js";
import { modelLoad } from "../model-load.js";
import { fromParts } from "../parts.js";
import { limitsWith, type StationKind, type StationLimits, type Work } from "../work.js";

/** What a time may run into: the hands' limit of a station, the machines that exist, or what one model may ask of a station. */
export type TimeLimit = "hands" | "machines" | { readonly model: number };

/** The limits of time that a line has; the last ones are the first to be left out of an explanation. */
export function timeLimitsOf(line: Line): TimeLimit[] {
  const machines = line.tasks.some(
    ({ equipment, machineTime }) => machineTime > 0 && equipment.some((name) => line.equipment.has(name)),
  );
  const models = line.modelOverload === null ? [] : line.models.map((_, model) => ({ model }));
  return ["hands", ...(machines ? ["machines" as const] : []), ...models];
}

/** The line with one limit of time fewer, as far as the line itself says it: of machines that never run. */
export function lineWithout(line: Line, limit: TimeLimit): Line {
  if (limit !== "machines") return line;
  return { ...line, tasks: line.tasks.map((task) => ({ ...task, machineTime: 0 })) };
}

/** The problem without limits of time that it states itself: those of hands, and those of models. */
export function withoutLimits(problem: Work, left: readonly TimeLimit[]): Work {
  let changed = problem;
  for (const limit of left) {
    if (limit === "machines") continue;
    if (limit === "hands") changed = { ...changed, kinds: changed.kinds.map((kind) => roomy(problem, kind)) };
    else {
      const modelLoads = changed.modelLoads.map((loads, model) =>
        model === limit.model ? loads.map(() => 0) : loads,
      );
      changed = { ...changed, modelLoads };
    }
  }
  return changed;
}

/** Sides count by the times of single models, which are rounded up: their sum may be above that of the loads. */
function roomy({ loads, sides }: Work, kind: StationKind): StationKind {
  const ofSides = sides === null ? [] : [...sides.rows, ...sides.again].flat();
  const all = [...loads, ...ofSides].reduce((sum, each) => sum + each, 1);
  const allOf = <Limits extends StationLimits>(each: Limits): Limits => {
    return { ...each, limits: each.limits.map(() => all), alone: each.alone.map(() => all) };
  };
  return { ...allOf(kind), morePasses: kind.morePasses.map(allOf) };
}

/** Tasks and what they take together; times in microseconds. */
export interface TimeSum {
  readonly tasks: readonly { readonly task: string; readonly time: Ratio }[];
  readonly total: Ratio;
}

/** What times run into, as a reason why there is no plan; times in microseconds. */
export type TimeReason =
  /** Hand times beside the most that a station they may stand at takes. */
  | (TimeSum & {
      readonly kind: "hands";
      readonly limit: Ratio;
      /** The limit is the working time, which one task alone may take. */
      readonly isWorkingTime: boolean;
      /** More than one where the limit is for one place of so many. */
      readonly places: number;
    })
  /** The times of one model beside the most that it may ask of a station. */
  | (TimeSum & {
      readonly kind: "model";
      readonly model: string;
      readonly limit: Ratio;
      readonly overload: Ratio;
      readonly places: number;
    });

/** None without tasks. */
export function handReasons(line: Line, problem: Work, tasks: readonly number[]): TimeReason[] {
  if (tasks.length === 0) return [];
  const kinds = kindNumbersForAll(problem, tasks).map((at) =>
    limitsWith(problem, at, blocksOf(problem, tasks)),
  );
  const most = (values: readonly number[]) => Math.max(...values);
  const isAlone = tasks.length === 1;
  const shared = most(kinds.map(({ limits }) => limits[0]!));
  const alone = most(kinds.map(({ alone: own }) => own[0]!));
  return [
    {
      kind: "hands",
      ...timeSum(line, tasks, (task) => line.tasks[task]!.load),
      limit: fromParts(line, isAlone ? alone : shared),
      isWorkingTime: isAlone && alone > shared,
      places: most(kinds.map(({ limits }) => limits.length)),
    },
  ];
}

/** None where the model takes nothing of the tasks. */
export function modelReasons(
  line: Line,
  pace: Pace,
  problem: Work,
  tasks: readonly number[],
  model: number,
): TimeReason[] {
  const own = tasks.filter((task) => compare(modelLoad(line, task, model), ZERO) > 0);
  if (own.length === 0) return [];
  const overload = line.modelOverload!;
  return [
    {
      kind: "model",
      model: line.models[model]!.id,
      ...timeSum(line, own, (task) => modelLoad(line, task, model)),
      limit: multiply(subtract(pace.lineCycle, handlingAt(line, pace, own)), add(ONE, overload)),
      overload,
      places: Math.max(...kindNumbersForAll(problem, own).map((at) => problem.kinds[at]!.limits.length)),
    },
  ];
}

export function timeSum(line: Line, tasks: readonly number[], timeOf: (task: number) => Ratio): TimeSum {
  const timed = tasks.map((task) => ({ task: line.tasks[task]!.id, time: timeOf(task) }));
  return { tasks: timed, total: timed.map(({ time }) => time).reduce(add, ZERO) };
}

/** The kinds of stations that may hold each of the tasks; where none may, those that may hold any of them. */
function kindNumbersForAll(problem: Work, tasks: readonly number[]): readonly number[] {
  const shared = tasks
    .map((task) => kindNumbersFor(problem, [task]))
    .reduce((one, two) => one.filter((at) => two.includes(at)));
  return shared.length === 0 ? kindNumbersFor(problem, tasks) : shared;
}

/** What stations take of the tasks at which any of them may stand; all stations where none of them may stand anywhere. */
export const limitsFor = (problem: Work, tasks: readonly number[]): readonly StationLimits[] =>
  kindNumbersFor(problem, tasks).map((at) => limitsWith(problem, at, blocksOf(problem, tasks)));

const blocksOf = ({ members }: Work, tasks: readonly number[]): number[] =>
  [...members.keys()].filter((block) => members[block]!.some((task) => tasks.includes(task)));

/** These stations by number: stations of the floor, and behind them the number of those that follow. */
export function kindNumbersFor(problem: Work, tasks: readonly number[]): readonly number[] {
  const { kinds, allowed, first, last } = problem;
  const blocks = blocksOf(problem, tasks);
  const all = [...kinds.keys()];
  const found = all.filter((at) =>
    blocks.some((block) => {
      const isBehind = at === kinds.length - 1;
      const isInWindow = isBehind ? last[block]! >= at : first[block]! <= at && at <= last[block]!;
      return isInWindow && allowed[block]![at]!;
    }),
  );
  return found.length === 0 ? all : found;
}
