import { countOf } from "../findings/count-of.js";
import type { Line, Task } from "../line/line.js";
import { peopleOfPlan } from "../plan/people-in-all.js";
import { peopleOf } from "../plan/plan-figures.js";
import type { Balance, BalancingOptions } from "../solve/balance.js";
import { findImpossibleTasks, findLongTasks } from "../solve/station-problem.js";
import type { Pace } from "../time/pace.js";
import { compare, divide, floor, multiply, type Ratio, ratio } from "../time/ratio.js";
import { showTimesIn } from "../time/show-in-unit.js";
import { decimal } from "../time/show-values.js";
import { MICROS_IN } from "../time/units.js";
import { partsFor, placesFor } from "./bench.js";
import { balanceChanged, type ChangedLine, sizeOf } from "./changed-line.js";
import { findBlocks, inOrderOfWork, marksBase, timeOf } from "./find-blocks.js";
import { jointAnswer, type LongAnswer, type OffLineFlag, ownAnswer, reasonOf } from "./off-line-flag.js";
import { placesOfEach, RoomForTasks } from "./room-for-tasks.js";
import { balanceWithPlaces } from "./with-places.js";

/** Flags every task that no station can hold, with the answers that exist, each with its number. */
export async function flagImpossibleTasks(
  line: Line,
  pace: Pace,
  options: BalancingOptions,
): Promise<OffLineFlag[]> {
  const tooLong = findImpossibleTasks(line, pace, options.strictLimit);
  if (tooLong.length === 0) return [];
  const room = new RoomForTasks(line, pace, options.strictLimit);
  const { best, words } = await withPlaces(line, pace, room, tooLong, options);
  const places = `parallel places: ${placesOfEach(line, tooLong, room)}, units taken in turn (${words})`;
  return tooLong.map((at) => {
    const answers = [jointAnswer(places), ...otherAnswers(line, pace, at, tooLong, room)];
    return {
      ...flagOf(line.tasks[at]!),
      stationsAfter: best.plan!.stations.length,
      peopleAfter: peopleOfPlan(line, pace, best.plan!).atATime,
      outcome: best.outcome,
      reason: reasonOf(answers),
      answers,
    };
  });
}

/** Flags every task between the station limit and the working time, which the plan holds alone; answers keep the limit. */
export function flagTightTasks(line: Line, pace: Pace, before: Balance): OffLineFlag[] {
  const stations = before.plan.stations.length;
  const { overLimit } = findLongTasks(line, pace);
  const room = new RoomForTasks(line, pace, false, true);
  const peopleBefore = peopleOfPlan(line, pace, before.plan).atATime;
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

/**
 * Places at the stations of tasks that are too long, or at every station of the line: these need fewer people where work beside such
 * a task fills its places.
 */
async function withPlaces(
  line: Line,
  pace: Pace,
  room: RoomForTasks,
  tooLong: readonly number[],
  options: BalancingOptions,
): Promise<{ readonly best: ChangedLine; readonly words: string }> {
  const { plan, balance } = await balanceWithPlaces(line, pace, options);
  const outcome = balance.proved ? "proved" : "found";
  const own: ChangedLine = { line, pace, plan, outcome, why: "" };
  const maxPlaces = Math.max(...tooLong.map((at) => room.placesFor(at)));
  const nodes = options.nodes === null ? null : Math.max(LEAST_NODES, Math.floor(options.nodes / SEARCHES));
  const search = { ...options, nodes, method: "best", level: false, explain: false };
  const everywhere = await balanceChanged({ ...line, maxPlaces }, pace, search);
  const all = `with places at every station (\`max-places: ${maxPlaces}\`)`;
  if (everywhere.plan === null) return { best: own, words: sizeOf(own) };
  const people = peopleOf(everywhere.plan) - peopleOf(plan);
  const stations = everywhere.plan.stations.length;
  if (people < 0) return { best: everywhere, words: `${sizeOf(everywhere)}, ${all}` };
  const isShorter = people === 0 && stations < plan.stations.length;
  return {
    best: own,
    words: `${sizeOf(own)}${isShorter ? `, or ${countOf(stations, "station")} ${all}` : ""}`,
  };
}

/** Searches that share the partial plans allowed with the one for places at every station. */
const SEARCHES = 4;
const LEAST_NODES = 1_000;

function otherAnswers(
  line: Line,
  pace: Pace,
  at: number,
  tooLong: readonly number[],
  room: RoomForTasks,
): LongAnswer[] {
  const task = line.tasks[at]!;
  const parts = partsFor(pace, task.load);
  return [
    ownAnswer(`split: ${parts} parts of at most ${showTimesIn(line.unit)(pace.stationLimit)}`),
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
  const places = placesFor(pace, timeOf(line, block.tasks));
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
    return `${decimal(divide(ratio(MICROS_IN.h), lineCycle), 1)} units per hour`;
  }
  const units = multiply(demand.units, divide(pace.lineCycle, lineCycle));
  return `${floor(units)} good units per ${demand.period} instead of ${decimal(demand.units, 2)}`;
}
