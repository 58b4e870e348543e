import type { KeepPace, Line } from "../../line/line.js";
import {
  asksToKeepPace,
  deviationOf,
  deviationTogether,
  keepPaceAt,
  meanKept,
  modelsKept,
} from "../../line/parts/keep-pace.js";
import { handlingAt } from "../../line/passes.js";
import type { Pace } from "../../time/pace.js";
import { add, compare, multiply, ONE, type Ratio, subtract, ZERO } from "../../time/ratio.js";
import { modelLoad } from "../model-load.js";
import { fromParts } from "../parts.js";
import { leastDwell } from "../station/arrange-station.js";
import { timeHeld } from "../time-held.js";
import { hasSchedules, sharesWork } from "../unit-rows.js";
import { limitsWith, type StationLimits, type Work } from "../work.js";

/**
 * What a time may run into: the hands' limit of a station, the chance with which it is to be kept, how long a unit may stand there, the machines that exist, or what one model may
 * ask of a station.
 */
export type TimeLimit = "hands" | "keep-pace" | "dwell" | "machines" | { readonly model: number };

/** The limits of time that a line has; the last ones are the first to be left out of an explanation. */
export function timeLimitsOf(line: Line): TimeLimit[] {
  const runs = line.tasks.some(({ machineTime }) => machineTime > 0);
  const isCounted = line.tasks.some(({ equipment }) => equipment.some((name) => line.equipment.has(name)));
  const machines = [
    ...(runs || sharesWork(line) ? ["dwell" as const] : []),
    ...(isCounted && hasSchedules(line) ? ["machines" as const] : []),
  ];
  const models = line.modelOverload === null ? [] : line.models.map((_, model) => ({ model }));
  return ["hands", ...machines, ...models, ...(asksToKeepPace(line) ? ["keep-pace" as const] : [])];
}

/** The problem without some limits of time. */
export function withoutLimits(problem: Work, left: readonly TimeLimit[]): Work {
  let changed = problem;
  for (const limit of left) {
    if (limit === "hands") changed = withKinds(changed, withAllHands(problem));
    else if (limit === "keep-pace") changed = { ...changed, spread: null };
    else if (limit === "dwell")
      changed = withKinds(changed, (kind) => ({ ...kind, dwell: kind.dwell.map(endless) }));
    else if (limit === "machines")
      changed = { ...changed, equipment: changed.equipment.map((each) => ({ ...each, time: endless })) };
    else {
      const modelLoads = changed.modelLoads.map((loads, model) =>
        model === limit.model ? loads.map(() => 0) : loads,
      );
      changed = { ...changed, modelLoads };
    }
  }
  return changed;
}

/** However often units pass. */
function withKinds(problem: Work, change: (limits: StationLimits) => StationLimits): Work {
  const kinds = problem.kinds.map(({ morePasses, ...once }) => ({
    ...change(once),
    morePasses: morePasses.map(change),
  }));
  return { ...problem, kinds };
}

/** Schedules count by the times of single models, which are rounded up: their sum may be above that of the loads. */
function withAllHands({ loads, schedule }: Work): (limits: StationLimits) => StationLimits {
  const ofUnits = [...(schedule?.rows ?? []), ...(schedule?.again ?? [])];
  const times = [...loads, ...ofUnits.flatMap(({ hands, machines }) => [...hands, ...machines])];
  const all = times.reduce((sum, each) => sum + each, 1);
  const isShared = schedule?.sides != null;
  return (each) => ({
    ...each,
    limits: each.limits.map(() => all),
    alone: each.alone.map(() => all),
    // A unit stands as long as hands work on it: where no machine runs and nobody waits for others, that is no limit of its own.
    dwell: schedule?.hasMachines || isShared || each.maxCrew > 1 ? each.dwell : each.dwell.map(endless),
  });
}

const endless = (): number => Number.MAX_SAFE_INTEGER;

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
      /** More than one where so many people may share the work, and the limit is for each of them. */
      readonly persons: number;
    })
  /** Times that vary beside the working time, which a station that they may stand at is to keep with some chance. */
  | (TimeSum & {
      readonly kind: "keep-pace";
      /** The model that needs most, where models have times of their own. */
      readonly model: string | null;
      /** Their standard deviations, and that of all together. */
      readonly deviations: readonly Ratio[];
      readonly deviation: Ratio;
      /** Mean + z x deviation of all together. */
      readonly needed: Ratio;
      readonly limit: Ratio;
      readonly asked: KeepPace;
      readonly places: number;
    })
  /** How long a unit stands for these tasks at the least, machines with them, beside how long it may. */
  | {
      readonly kind: "dwell";
      readonly tasks: readonly (TimeSum["tasks"][number] & { readonly machine: Ratio })[];
      readonly total: Ratio;
      readonly limit: Ratio;
      /** Units that may stand at a place at a time, and places. */
      readonly holds: number;
      readonly places: number;
    }
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
      persons: most(kinds.map(({ maxCrew }) => maxCrew)),
    },
  ];
}

/** None without tasks. The least chance that any station they may stand at asks for. */
export function keepPaceReasons(
  line: Line,
  pace: Pace,
  problem: Work,
  tasks: readonly number[],
): TimeReason[] {
  const kinds = kindNumbersForAll(problem, tasks);
  const [asked] = kinds
    .map((at) => keepPaceAt(line, line.floor[at] ?? null))
    .filter((each) => each !== null)
    .sort((one, two) => compare(one.score, two.score));
  if (tasks.length === 0 || asked === undefined) return [];
  const own = tasks.map((task) => line.tasks[task]!);
  const rows = modelsKept(line).map((model) => ({
    model,
    deviation: deviationTogether(own, model),
    sum: timeSum(line, tasks, (task) => meanKept(line.tasks[task]!, model)),
  }));
  const needed = ({ sum, deviation }: (typeof rows)[number]) =>
    add(sum.total, multiply(asked.score, deviation));
  const most = rows.reduce((one, two) => (compare(needed(two), needed(one)) > 0 ? two : one));
  return [
    {
      kind: "keep-pace",
      ...most.sum,
      model: most.model === null ? null : line.models[most.model]!.id,
      deviations: own.map((task) => deviationOf(task, most.model)),
      deviation: most.deviation,
      needed: needed(most),
      limit: subtract(pace.lineCycle, handlingAt(line, pace, tasks)),
      asked,
      places: Math.max(...kinds.map((at) => problem.kinds[at]!.limits.length)),
    },
  ];
}

/** None without tasks that a unit stands for longer than hands work. */
export function dwellReasons(line: Line, problem: Work, tasks: readonly number[]): TimeReason[] {
  if (tasks.length === 0 || problem.schedule === null) return [];
  const roomiest = kindNumbersForAll(problem, tasks)
    .map((at) => limitsWith(problem, at, blocksOf(problem, tasks)))
    .reduce((one, two) => (two.dwell.at(-1)! > one.dwell.at(-1)! ? two : one));
  const timed = tasks.map((task) => {
    const { id, load } = line.tasks[task]!;
    return { task: id, time: load, machine: subtract(timeHeld(line, task), load) };
  });
  return [
    {
      kind: "dwell",
      tasks: timed,
      total: fromParts(line, leastDwell(problem, tasks, roomiest)),
      limit: fromParts(line, roomiest.dwell.at(-1)!),
      holds: roomiest.holds,
      places: roomiest.limits.length,
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

function blocksOf({ members }: Work, tasks: readonly number[]): number[] {
  const blockOf = BLOCK_OF.get(members) ?? new Map<number, number>();
  if (blockOf.size === 0)
    for (const [block, inside] of members.entries()) for (const task of inside) blockOf.set(task, block);
  BLOCK_OF.set(members, blockOf);
  const found = tasks.flatMap((task) => blockOf.get(task) ?? []);
  return [...new Set(found)].sort((one, two) => one - two);
}

/** The block of each task: on a line of thousands every task is asked for. */
const BLOCK_OF = new WeakMap<Work["members"], Map<number, number>>();

/** These stations by number: stations of the floor, and behind them the number of those that follow. */
export function kindNumbersFor(problem: Work, tasks: readonly number[]): readonly number[] {
  const blocks = blocksOf(problem, tasks);
  const [block] = blocks;
  if (blocks.length !== 1) return numbersOfKinds(problem, blocks);
  const row = problem.allowed[block!]!;
  const known = NUMBERS.get(row) ?? new Map<string, readonly number[]>();
  NUMBERS.set(row, known);
  const window = `${problem.first[block!]} ${problem.last[block!]}`;
  const numbers = known.get(window) ?? numbersOfKinds(problem, blocks);
  known.set(window, numbers);
  return numbers;
}

/** Many blocks may stand at the same stations; by their row in a work, then by their window. */
const NUMBERS = new WeakMap<readonly boolean[], Map<string, readonly number[]>>();

function numbersOfKinds({ kinds, allowed, first, last }: Work, blocks: readonly number[]): readonly number[] {
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
