import { countOf } from "../findings/count-of.js";
import type { Line, Task } from "../line/line.js";
import { unitsPerHour } from "../plan/figures/output.js";
import { peopleOfPlan } from "../plan/figures/people.js";
import type { Plan } from "../plan/plan.js";
import type { BalancingOptions } from "../solve/balance.js";
import { findImpossibleTasks, findLongTasks } from "../solve/station-problem.js";
import type { Pace } from "../time/pace.js";
import { compare, divide, floor, multiply, type Ratio } from "../time/ratio.js";
import { showTimesIn } from "../time/show-in-unit.js";
import { decimal } from "../time/show-values.js";
import { partsFor, placesFor } from "./bench.js";
import { type BestWithPlaces, bestWithPlaces } from "./best-with-places.js";
import { MOST_PARTS, MOST_PLACES, noParts, noPlaces } from "./beyond-use.js";
import { sizeOf } from "./changed-line.js";
import { findBlocks, inOrderOfWork, marksBase } from "./find-blocks.js";
import { jointAnswer, type LongAnswer, type OffLineFlag, ownAnswer, reasonOf } from "./off-line-flag.js";
import { placesOfEach, RoomForTasks } from "./room-for-tasks.js";

/** Flags every task that no station can hold, with the answers that exist, each with its number. */
export async function flagImpossibleTasks(
  line: Line,
  pace: Pace,
  options: BalancingOptions,
): Promise<OffLineFlag[]> {
  const tooLong = findImpossibleTasks(line, pace, options.strictLimit);
  if (tooLong.length === 0) return [];
  const room = new RoomForTasks(line, pace, options.strictLimit);
  const isBeyondUse = tooLong.some((at) => room.placesFor(at) > MOST_PLACES);
  const withPlaces = isBeyondUse ? null : await bestWithPlaces(line, pace, options);
  const best = withPlaces?.best ?? null;
  const places =
    withPlaces === null
      ? noPlaces(line, tooLong, room)
      : `parallel places: ${placesOfEach(line, tooLong, room)}, units taken in turn (${placesWords(withPlaces)})`;
  return tooLong.map((at) => {
    const answers = [jointAnswer(places), ...otherAnswers(line, pace, at, tooLong, room)];
    return {
      ...flagOf(line.tasks[at]!),
      stationsAfter: best && best.plan!.stations.length,
      peopleAfter: best && peopleOfPlan(line, pace, best.plan!).atATime,
      outcome: best?.outcome ?? null,
      reason: reasonOf(answers),
      answers,
    };
  });
}

/** Flags every task between the station limit and the working time, which the plan holds alone; answers keep the limit. */
export function flagTightTasks(line: Line, pace: Pace, before: Plan): OffLineFlag[] {
  const stations = before.stations.length;
  const { overLimit } = findLongTasks(line, pace);
  const room = new RoomForTasks(line, pace, false, true);
  const peopleBefore = peopleOfPlan(line, pace, before).atATime;
  return overLimit.map((at) => {
    const answers = otherAnswers(line, pace, at, overLimit, room);
    const reason = reasonOf(answers);
    return { ...flagOf(line.tasks[at]!), stationsBefore: stations, peopleBefore, reason, answers };
  });
}

export function flagOf(task: Task): OffLineFlag {
  return {
    kind: "over-limit",
    tasks: [task.id],
    joinsAt: null,
    stationsBefore: null,
    stationsAfter: null,
    peopleBefore: null,
    peopleAfter: null,
    outcome: null,
    freed: null,
    reason: "",
    details: "",
  };
}

/** "2 stations and 3 people in all, with places at every station (`max-places: 2`)" */
function placesWords({ best, everywhere, shorter }: BestWithPlaces): string {
  const all = (maxPlaces: number) => `with places at every station (\`max-places: ${maxPlaces}\`)`;
  if (everywhere !== null) return `${sizeOf(best)}, ${all(everywhere)}`;
  if (shorter === null) return sizeOf(best);
  return `${sizeOf(best)}, or ${countOf(shorter.stations, "station")} ${all(shorter.maxPlaces)}`;
}

function otherAnswers(
  line: Line,
  pace: Pace,
  at: number,
  tooLong: readonly number[],
  room: RoomForTasks,
): LongAnswer[] {
  const task = line.tasks[at]!;
  const parts = partsFor(pace, task.load);
  const most = `of at most ${showTimesIn(line.unit)(pace.stationLimit)}`;
  return [
    ownAnswer(parts > MOST_PARTS ? noParts(parts, most) : `split: ${parts} parts ${most}`),
    ownAnswer(bench(line, pace, at)),
    jointAnswer(slowerPace(line, pace, tooLong, room)),
  ];
}

/** The smallest block that holds the task, or why there is none. */
function bench(line: Line, pace: Pace, at: number): string {
  const holding = findBlocks(line).filter((each) => each.tasks.includes(at));
  const [block] = holding.sort((one, two) => one.tasks.length - two.tasks.length);
  if (block === undefined) {
    return marksBase(line)
      ? "bench: no, it cannot be built away from the line"
      : "bench: not known, as no task says `on-base: true`";
  }
  const names = inOrderOfWork(line, block.tasks).map((task) => line.tasks[task]!.id);
  const places = placesFor(line, pace, block);
  const where = `${places === 1 ? "1 place" : `${places} places`} for ${names.join(", ")}, joining at ${line.tasks[block.joinsAt]!.id}`;
  return `bench: ${where}${marksBase(line) ? "" : " (a guess, as no task says `on-base: true`)"}`;
}

/** The pace at which the longest of these tasks fits one place; every shorter one then fits as well. */
function slowerPace(line: Line, pace: Pace, tooLong: readonly number[], room: RoomForTasks): string {
  const longest = tooLong.reduce((one, two) =>
    compare(line.tasks[two]!.load, line.tasks[one]!.load) > 0 ? two : one,
  );
  const needed = room.lineCycleFor(longest);
  const sets = tooLong.length === 1 ? "" : ` (${line.tasks[longest]!.id} needs it)`;
  return `slower pace: a line cycle of ${showTimesIn(line.unit)(needed)}${sets}, ${rateAt(line, pace, needed)}`;
}

/** What the line then makes: good units in the demand's own period, or units per hour where only a cycle was given. */
export function rateAt(line: Line, pace: Pace, lineCycle: Ratio): string {
  const { demand } = line;
  if (demand === null) {
    return `${decimal(unitsPerHour(line, lineCycle)!, 1)} units per hour`;
  }
  const units = multiply(demand.units, divide(pace.lineCycle, lineCycle));
  return `${floor(units)} good units per ${demand.period} instead of ${decimal(demand.units, 2)}`;
}
