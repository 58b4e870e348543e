import { findBlocks, inOrderOfWork, marksBase } from "../../benches/find-blocks.js";
import type { Line, Task } from "../../line/line.js";
import { unitsPerHour } from "../../plan/figures/output.js";
import { peopleOfPlan } from "../../plan/figures/people.js";
import { workingTimeAlone } from "../../plan/figures/working-time.js";
import type { Plan } from "../../plan/plan.js";
import type { BalancingOptions } from "../../solve/balance.js";
import { findImpossibleTasks, findLongTasks } from "../../solve/station-problem.js";
import type { Pace } from "../../time/pace.js";
import { compare, divide, floor, multiply, type Ratio, ZERO } from "../../time/ratio.js";
import type { LongTaskFlag } from "../off-line/off-line-flag.js";
import { partsFor, placesFor } from "./bench.js";
import { sizeOf } from "./changed-line.js";
import type { LongAnswer, PlacesAnswer, SlowerRate } from "./long-answer.js";
import { type PlacesForTasks, placesForTasks } from "./places-for-tasks.js";
import { MOST_PARTS, placesOfEach, RoomForTasks } from "./room-for-tasks.js";

/** Flags every task that no station can hold, with the answers that exist. */
export async function flagImpossibleTasks(
  line: Line,
  pace: Pace,
  options: BalancingOptions,
): Promise<LongTaskFlag[]> {
  const tooLong = findImpossibleTasks(line, pace, options.strictLimit);
  if (tooLong.length === 0) return [];
  const room = new RoomForTasks(line, pace, options.strictLimit);
  const found = await placesForTasks(line, pace, tooLong, options);
  const best = found?.best.plan == null ? null : found.best;
  const places = placesAnswer(placesOfEach(line, tooLong, room), found);
  return tooLong.map((at) => ({
    ...flagOf(line.tasks[at]!),
    stationsAfter: best && best.plan!.stations.length,
    peopleAfter: best && peopleOfPlan(line, pace, best.plan!).atATime,
    outcome: best?.outcome ?? null,
    answers: [places, ...otherAnswers(line, pace, at, tooLong, room)],
  }));
}

function placesAnswer(places: PlacesAnswer["places"], found: PlacesForTasks | null): LongAnswer {
  if (found?.best.plan == null) return { kind: "no-places", isJoint: true, places };
  const { best, everywhere, shorter } = found;
  return {
    kind: "places",
    isJoint: true,
    places,
    equipment: [],
    result: sizeOf(best),
    everywhere,
    shorter,
  };
}

/** Flags every task between the station limit and the working time, which the plan holds alone; answers keep the limit. */
export function flagTightTasks(line: Line, pace: Pace, before: Plan): LongTaskFlag[] {
  const stationsBefore = before.stations.length;
  const { overLimit } = findLongTasks(line, pace);
  const room = new RoomForTasks(line, pace, false, true);
  const peopleBefore = peopleOfPlan(line, pace, before).atATime;
  return overLimit.map((at) => {
    const answers = otherAnswers(line, pace, at, overLimit, room);
    return { ...flagOf(line.tasks[at]!), stationsBefore, peopleBefore, answers };
  });
}

/** A task over a limit of which nothing else is known yet. */
export function flagOf(task: Task): LongTaskFlag {
  return {
    kind: "over-limit",
    tasks: [task.id],
    joinsAt: null,
    stationsBefore: null,
    stationsAfter: null,
    peopleBefore: null,
    peopleAfter: null,
    outcome: null,
    answers: [],
  };
}

function otherAnswers(
  line: Line,
  pace: Pace,
  at: number,
  tooLong: readonly number[],
  room: RoomForTasks,
): LongAnswer[] {
  const most = multiply(workingTimeAlone(line, pace, at), pace.planTo);
  // However short the parts, each is passed as often as the whole.
  const parts = compare(most, ZERO) > 0 ? partsFor(most, line.tasks[at]!.load) : MOST_PARTS + 1;
  const part = { isJoint: false, parts, most, isOfModel: false } as const;
  const split: LongAnswer =
    parts > MOST_PARTS
      ? { kind: "too-many-parts", ...part }
      : { kind: "split", ...part, fixedTo: null, equipment: [], result: null };
  return [split, bench(line, pace, at), slowerPace(line, pace, tooLong, room)];
}

/** The smallest block that holds the task, or why there is none. */
function bench(line: Line, pace: Pace, at: number): LongAnswer {
  const holding = findBlocks(line).filter((each) => each.tasks.includes(at));
  const [block] = holding.sort((one, two) => one.tasks.length - two.tasks.length);
  if (block === undefined) return noBench(line);
  return {
    kind: "bench",
    isJoint: false,
    tasks: inOrderOfWork(line, block.tasks).map((task) => line.tasks[task]!.id),
    joinsAt: line.tasks[block.joinsAt]!.id,
    places: placesFor(line, pace, block),
    isGuess: !marksBase(line),
    result: null,
  };
}

/** No block holds the task. */
export const noBench = (line: Line): LongAnswer =>
  marksBase(line)
    ? { kind: "no-bench", isJoint: false, holds: [] }
    : { kind: "unknown-bench", isJoint: false };

/** The pace at which the longest of these tasks fits one place; every shorter one then fits as well. */
function slowerPace(line: Line, pace: Pace, tooLong: readonly number[], room: RoomForTasks): LongAnswer {
  const longest = tooLong.reduce((one, two) =>
    compare(line.tasks[two]!.load, line.tasks[one]!.load) > 0 ? two : one,
  );
  const lineCycle = room.lineCycleFor(longest);
  const { id: task } = line.tasks[longest]!;
  return {
    kind: "slower",
    isJoint: true,
    lineCycle,
    outcome: "proved",
    neededBy: tooLong.length === 1 ? null : { task, lineCycle, isEnough: true },
    rate: rateAt(line, pace, lineCycle),
    result: null,
  };
}

/** What the line then makes: good units in the demand's own period, or units per hour where only a cycle was given. */
export function rateAt(line: Line, pace: Pace, lineCycle: Ratio): SlowerRate {
  const { demand } = line;
  if (demand === null) return { kind: "hour", units: unitsPerHour(line, lineCycle)! };
  const units = floor(multiply(demand.units, divide(pace.lineCycle, lineCycle)));
  return { kind: "demand", units, demand };
}
