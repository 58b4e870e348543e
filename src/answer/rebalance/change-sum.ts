import type { Line } from "../../line/line.js";
import { hasTraining, trainingFor } from "../../line/parts/training.js";
import { heldCycle } from "../../plan/figures/held-cycle.js";
import { outputByShift, outputOfDay, outputPerShift, unitsPerHour } from "../../plan/figures/output.js";
import { peopleAt, peopleOfPlan } from "../../plan/figures/people.js";
import type { Plan } from "../../plan/plan.js";
import { skillsNeeded } from "../../plan/who-stands-where.js";
import type { Pace } from "../../time/pace.js";
import { add, divide, larger, multiply, type Ratio, ratio, ZERO } from "../../time/ratio.js";
import { MICROS_IN } from "../../time/units.js";
import type { Steps } from "./steps.js";

/** What a change costs and gains. */
export interface ChangeSum {
  /** People on the line and at repair, at a time. */
  readonly peopleBefore: number;
  readonly peopleAfter: number;
  /** The most of them on the way; those who leave one station and come to another count once. */
  readonly peopleAtMost: number;
  /** Tasks that change their station; work that is new to the line is none. */
  readonly moves: number;
  /** Hours of training of all people together; null where the line says nothing of training. */
  readonly trainingHours: Ratio | null;
  /** Tasks taken over of which nothing says how long that takes to learn; none where the line says nothing of training. */
  readonly tasksWithoutTraining: readonly number[];
  /** Good units that today's plan makes, whole ones of a shift or day; null where tasks of the line are at no station of it. */
  readonly outputBefore: Ratio | null;
  /** The least from today's plan to the new one; null as before. */
  readonly outputDuring: Ratio | null;
  readonly outputAfter: Ratio | null;
  /** What these are of; of a day where shifts differ, of an hour without a calendar. */
  readonly outputPer: "shift" | "day" | "hour";
}

/**
 * Sums up a change. Training: for each station, what one person learns there, x the people who stand there after it. A person added at a
 * station is trained for what the station takes over, no more: who comes may know the rest.
 *
 * @param matched which station of the plan before each station is, -1 for a new one
 */
export function sumUpChange(
  line: Line,
  pace: Pace,
  from: Plan,
  to: Plan,
  matched: readonly number[],
  { steps, before: cycleBefore }: Steps,
): ChangeSum {
  const trainings = to.stations.map((station, at) => {
    const before = matched[at]! < 0 ? null : from.stations[matched[at]!]!;
    const tasks = station.tasks.filter((task) => !before?.tasks.includes(task));
    const known = new Set(before === null ? [] : skillsNeeded(line, before));
    const { time, unknown } = trainingFor(line, tasks, known);
    return { time: multiply(ratio(time), ratio(peopleAt(station))), unknown };
  });
  const people = (plan: Plan) => peopleOfPlan(line, pace, plan).atATime;
  const placed = new Set(from.stations.flatMap(({ tasks }) => tasks));
  const isWhole = line.tasks.every((_, task) => placed.has(task));
  const before = heldCycle(line, from, cycleBefore);
  const onTheWay = steps.map(({ plan, cycle }) => heldCycle(line, plan, cycle));
  const after = onTheWay.at(-1)!;
  const isOfShift = outputPerShift(line, after) !== null;
  const output = (cycle: Ratio): Ratio | null => {
    if (line.calendar === null) return unitsPerHour(line, cycle);
    const byShift = outputByShift(line, cycle);
    const whole = isOfShift || byShift === null ? outputPerShift(line, cycle) : outputOfDay(byShift);
    return whole === null ? null : ratio(whole);
  };
  return {
    peopleBefore: people(from),
    peopleAfter: people(to),
    peopleAtMost: Math.max(people(from), ...steps.map(({ plan }) => people(plan))),
    moves: steps.flatMap(({ moves }) => moves.filter((move) => move.from !== null)).length,
    trainingHours: hasTraining(line)
      ? divide(trainings.map(({ time }) => time).reduce(add, ZERO), ratio(MICROS_IN.h))
      : null,
    tasksWithoutTraining: hasTraining(line) ? trainings.flatMap(({ unknown }) => unknown) : [],
    outputBefore: isWhole ? output(before) : null,
    outputDuring: isWhole ? output(onTheWay.reduce(larger, before)) : null,
    outputAfter: output(after),
    outputPer: isOfShift ? "shift" : line.calendar === null ? "hour" : "day",
  };
}
