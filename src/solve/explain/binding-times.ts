import type { Line } from "../../line/line.js";
import type { Pace } from "../../time/pace.js";
import { add, compare, multiply, ONE, type Ratio, ZERO } from "../../time/ratio.js";
import { modelLoad } from "../model-load.js";
import { fromParts } from "../parts.js";
import type { StationKind, Work } from "../work.js";

/** What a time may run into: the hands' limit of a station, the machines that exist, or what one model may ask of a station. */
export type TimeLimit = "hands" | "machines" | { readonly model: number };

/** The limits of time that a line has; the last ones are the first to be left out of an explanation. */
export function timeLimitsOf(line: Line): TimeLimit[] {
  const machines = line.tasks.some(({ machineTime }) => machineTime > 0);
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
    // A unit stands as long as hands work on it; where machines still count, the limit stays for those.
    const isDwellOpen = left.includes("machines") || !problem.schedule?.hasMachines;
    if (limit === "hands")
      changed = { ...changed, kinds: changed.kinds.map((kind) => roomy(problem, kind, isDwellOpen)) };
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
function roomy({ loads, sides }: Work, kind: StationKind, isDwellOpen: boolean): StationKind {
  const ofSides = sides === null ? [] : [...sides.rows, ...sides.again].flat();
  const all = [...loads, ...ofSides].reduce((sum, each) => sum + each, 1);
  return {
    ...kind,
    limits: kind.limits.map(() => all),
    alone: kind.alone.map(() => all),
    dwell: isDwellOpen ? kind.dwell.map(() => all) : kind.dwell,
  };
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
  const kinds = kindsForAll(problem, tasks);
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
      limit: multiply(pace.workingTime, add(ONE, overload)),
      overload,
      places: Math.max(...kindsForAll(problem, own).map(({ limits }) => limits.length)),
    },
  ];
}

export function timeSum(line: Line, tasks: readonly number[], timeOf: (task: number) => Ratio): TimeSum {
  const timed = tasks.map((task) => ({ task: line.tasks[task]!.id, time: timeOf(task) }));
  return { tasks: timed, total: timed.map(({ time }) => time).reduce(add, ZERO) };
}

/** The kinds of stations that may hold each of the tasks; where none may, those that may hold any of them. */
function kindsForAll(problem: Work, tasks: readonly number[]): readonly StationKind[] {
  const shared = tasks
    .map((task) => kindNumbersFor(problem, [task]))
    .reduce((one, two) => one.filter((at) => two.includes(at)));
  return shared.length === 0 ? kindsFor(problem, tasks) : shared.map((at) => problem.kinds[at]!);
}

/** The kinds of stations at which any of the tasks may stand; all where none of them may stand anywhere. */
export const kindsFor = (problem: Work, tasks: readonly number[]): readonly StationKind[] =>
  kindNumbersFor(problem, tasks).map((at) => problem.kinds[at]!);

/** The same by number: stations of the floor, and behind them the number of those that follow. */
export function kindNumbersFor(
  { members, kinds, allowed, first, last }: Work,
  tasks: readonly number[],
): readonly number[] {
  const blocks = [...members.keys()].filter((block) => members[block]!.some((task) => tasks.includes(task)));
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
