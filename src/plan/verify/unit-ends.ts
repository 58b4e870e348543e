import type { Line, Task } from "../../line/line.js";
import type { Ratio } from "../../time/ratio.js";
import type { StationSide } from "../plan.js";
import { workOffSides } from "./side-times.js";
import { addUp } from "./whole-times.js";

/** When the last task of a good unit ends on average, in microseconds: the share-weighted sum over the models. */
export function meanEnd(line: Line, tasks: readonly number[], sides: readonly StationSide[]): Ratio {
  if (line.models.length === 0) return endOfModel(line, tasks, sides, 0);
  return addUp(
    line.models.map(({ share }, model) => {
      const end = endOfModel(line, tasks, sides, model);
      return { num: share.num * end.num, den: share.den * end.den };
    }),
  );
}

/**
 * When the last task of a good unit of a model ends on average, in microseconds. Units with work of every n-th unit end later: for
 * each set of such numbers, what having all of them adds beyond its smaller sets, on one of their least common multiple. Work done
 * again is worked by itself.
 */
export function endOfModel(
  line: Line,
  tasks: readonly number[],
  sides: readonly StationSide[],
  model: number,
): Ratio {
  const endWith = (due: readonly number[]): bigint => {
    const times = tasks.map((at) => {
      const task = line.tasks[at]!;
      return task.every === 1 || due.includes(task.every) ? onceOf(task, model) : 0n;
    });
    return workOffSides(tasks, sides, times, line.before).finish;
  };
  const numbers = [...new Set(tasks.map((at) => line.tasks[at]!.every))].filter((every) => every !== 1);
  const added = subsetsOf(numbers).map((set) => {
    const more = subsetsOf(set).reduce((sum, part) => {
      const end = endWith(part);
      return (set.length - part.length) % 2 === 0 ? sum + end : sum - end;
    }, 0n);
    return { num: more, den: set.reduce(commonMultiple, 1n) };
  });
  return addUp([...added, ...tasks.map((at) => timeAgain(line.tasks[at]!, model))]);
}

/** (Task time + walking) x (visits - 1 / every); never below 0: work of a share of the units is counted on every unit. */
function timeAgain(task: Task, model: number): Ratio {
  const { num, den } = task.visits[columnOf(task, model)]!;
  const every = BigInt(task.every);
  const more = num * every - den;
  return { num: more > 0n ? onceOf(task, model) * more : 0n, den: den * every };
}

function onceOf(task: Task, model: number): bigint {
  const own = task.times[columnOf(task, model)]!;
  return own === null ? 0n : BigInt(own + task.walking);
}

const columnOf = ({ times }: Task, model: number): number => (times.length === 1 ? 0 : model);

function subsetsOf([first, ...others]: readonly number[]): number[][] {
  if (first === undefined) return [[]];
  const without = subsetsOf(others);
  return [...without, ...without.map((set) => [first, ...set])];
}

function commonMultiple(common: bigint, next: number): bigint {
  let [one, two] = [common, BigInt(next)];
  while (two > 0n) [one, two] = [two, one % two];
  return (common / one) * BigInt(next);
}
