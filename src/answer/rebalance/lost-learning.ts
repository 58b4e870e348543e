import { listOf } from "../../findings/list-of.js";
import { visibleText } from "../../findings/visible-text.js";
import { LearningCurve, MOST_UNITS } from "../../line/learning-curve.js";
import type { Learning, Line, Task } from "../../line/line.js";
import { loadOf } from "../../line/task-load.js";
import { personTime } from "../../plan/figures/person-time.js";
import { add, ceiling, divide, multiply, ONE, type Ratio, ratio, ZERO } from "../../time/ratio.js";
import { accept, type Reading, refuse } from "../../time/reading.js";
import { MICROS_IN, type Micros } from "../../time/units.js";
import type { Move } from "./match-stations.js";

/** What moves lose of what people have learned. */
export interface LostLearning {
  /** Person-time by task, in microseconds: what is learned again by whoever takes it over. */
  readonly lost: readonly Ratio[];
  /** The same in whole minutes, rounded up, 1 at the least: what a move costs in points. */
  readonly points: readonly number[];
}

/** Tasks whose time falls without an end, so that their moves have no price: what is lost would be lost for ever. */
export const tasksWithoutEnd = ({ tasks }: Line): number[] =>
  [...tasks.keys()].filter((task) => {
    const { learning } = tasks[task]!;
    return learning !== null && learning.built > 0 && new LearningCurve(learning).settlesAt() === null;
  });

/**
 * The price of a move where whoever takes a task over learns it from its first unit: the units that were built before take as much more
 * than the settled time as they took then. Nothing where nothing was built, or nothing is learned. Every task settles.
 */
export function lostLearning(line: Line): LostLearning {
  const lost = line.tasks.map(({ learning }, task) =>
    learning === null ? ZERO : lostAt(line, task, learning),
  );
  const points = lost.map((each) => Math.max(1, Number(ceiling(divide(each, ratio(MICROS_IN.min))))));
  return { lost, points };
}

/** The same; refused where no move loses anything, and where what one loses has no end. */
export function learningToLose(line: Line): Reading<LostLearning> {
  if (!line.tasks.some(({ learning }) => learning !== null && learning.built > 0))
    return refuse(
      "no move loses anything, as no task has `learning` with units built before; write `learning: {share: 85 %, built: 2000}` for the line or a task",
    );
  const endless = tasksWithoutEnd(line).map((task) => visibleText(line.tasks[task]!.id));
  if (endless.length > 0)
    return refuse(
      `what a move loses has no end for ${listOf(endless)}, whose times fall for ever; give their \`learning\` a \`least\`, such as 60 %`,
    );
  return accept(lostLearning(line));
}

/** Person-time is proportional to the time that a task takes on units of a model, so what all units together take more is priced at once. */
function lostAt(line: Line, task: number, learning: Learning): Ratio {
  const curve = new LearningCurve(learning);
  const settled = curve.settlesAt() ?? MOST_UNITS;
  const units = Math.min(learning.built, settled);
  const { times } = line.tasks[task]!;
  return times
    .map((time, model) =>
      time === null
        ? ZERO
        : multiply(weightOfModel(line, task, model), ratio(moreThanSettled(curve, time, units, settled))),
    )
    .reduce(add, ZERO);
}

/** What one microsecond of a task on each unit of a model is of people's time for one good unit of all models. */
function weightOfModel(line: Line, task: number, model: number): Ratio {
  const shares = line.models.length === 0 ? [ONE] : line.models.map(({ share }) => share);
  const { takenOver: _, ...own } = line.tasks[task]!;
  const bare = { ...own, walking: 0, times: own.times.map((time, at) => time && (at === model ? 1 : 0)) };
  const tasks: Task[] = [...line.tasks];
  tasks[task] = { ...bare, load: loadOf(bare, shares) };
  return personTime({ ...line, tasks }, [task]);
}

function moreThanSettled(curve: LearningCurve, time: Micros, units: number, settled: number): bigint {
  const least = curve.timeOf(time, settled);
  let more = 0n;
  for (let unit = 1; unit <= units; unit++) more += BigInt(curve.timeOf(time, unit) - least);
  return more;
}

/** What some moves lose together. */
export const lostByMoves = ({ lost }: LostLearning, moves: readonly Move[]): Ratio =>
  moves.map(({ task }) => lost[task]!).reduce(add, ZERO);
