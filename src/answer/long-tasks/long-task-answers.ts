import { hoursOf } from "../../benches/bench-hours.js";
import { carriedShare, handOverOf, jobFor } from "../../benches/bench-job.js";
import { benchPost, placesToKeep } from "../../benches/bench-post.js";
import { workOnCarrier } from "../../benches/bench-stations.js";
import { countShares } from "../../benches/count-shares.js";
import { type Block, findBlocks } from "../../benches/find-blocks.js";
import type { Line } from "../../line/line.js";
import { efficiencyAtPace } from "../../plan/figures/efficiency.js";
import { unitsPerHour } from "../../plan/figures/output.js";
import { peopleOfPlan } from "../../plan/figures/people.js";
import { workingTimeAlone } from "../../plan/figures/working-time.js";
import { crewOf, ONE_PERSON, type Plan } from "../../plan/plan.js";
import { postsOf } from "../../plan/post.js";
import type { BalancingOptions } from "../../solve/balance.js";
import { availableTimeOfDay } from "../../time/calendar.js";
import type { Demand } from "../../time/demand.js";
import type { Pace } from "../../time/pace.js";
import {
  add,
  ceiling,
  compare,
  divide,
  larger,
  multiply,
  type Ratio,
  ratio,
  subtract,
  ZERO,
} from "../../time/ratio.js";
import { MICROS_IN } from "../../time/units.js";
import type { ChangedLine } from "./changed-line.js";
import { placesForTasks } from "./places-for-tasks.js";
import { MOST_PLACES, RoomForTasks } from "./room-for-tasks.js";

/** What a line makes at a slower pace, and what keeps its demand at that pace; times in microseconds. */
export interface SlowerPace {
  readonly lineCycle: Ratio;
  /** It is slower than the pace asked for. */
  readonly isSlower: boolean;
  readonly unitsPerHour: Ratio;
  /** Good units in the period of the demand; null without a demand. */
  readonly units: Ratio | null;
  readonly demand: Demand | null;
  /** Overtime that makes up for it, in each shift; null without a calendar and a demand. */
  readonly overtime: Ratio | null;
  /** Whether a day has the hours for that. */
  readonly fitsDay: boolean;
}

/** The answers to a task that is longer than a station may take, side by side. */
export interface LongTaskAnswer {
  readonly task: number;
  /** No station has the time for it; otherwise it is only above the station limit. */
  readonly isImpossible: boolean;
  readonly taskTime: Ratio;
  /** That alone is above the working time. */
  readonly isOverWorkingTime: boolean;
  /** Places at which units are taken in turn. */
  readonly places: number;
  /** The smallest block that holds it, and the places of its bench; null where it cannot leave the line. */
  readonly bench: {
    readonly tasks: readonly number[];
    readonly joinsAt: number;
    readonly places: number;
  } | null;
  /** Equal parts that fit a station each, at the least. */
  readonly parts: number;
  readonly partTime: Ratio;
  /** The line at the pace that this task alone asks for, whatever longer ones ask for. */
  readonly slower: SlowerPace;
  /** The line with this task helped and every other long task as it is: the next one sets its pace. */
  readonly helpedAlone: SlowerPace;
}

/** All tasks that are too long, and the line that helps all of them with parallel places. */
export interface LongTaskAnswers {
  readonly answers: readonly LongTaskAnswer[];
  /** Null where no task is too long, or no such plan was found. */
  readonly withPlaces: {
    readonly stations: number;
    /** In all, at a time: who repairs beside the line is among them. */
    readonly people: number;
    readonly places: number;
    readonly efficiency: Ratio | null;
    readonly outcome: "proved" | "found";
  } | null;
}

/** What tasks need where nothing else can hold them, and where they are to keep the reserve of their station. */
interface Rooms {
  readonly hold: RoomForTasks;
  readonly keep: RoomForTasks;
  /** By which the other tasks set a pace once one is helped: the reserve counts only where all have room without it. */
  readonly ofOthers: RoomForTasks;
}

/** @param plan of the whole line: a task that it holds at enough places is not too long; null where there is none */
export async function answerLongTasks(
  line: Line,
  pace: Pace,
  plan: Plan | null,
  options: BalancingOptions,
): Promise<LongTaskAnswers> {
  const { strictLimit } = options;
  const hold = new RoomForTasks(line, pace, strictLimit);
  const keep = new RoomForTasks(line, pace, strictLimit, true);
  const placesAt = new Map<number, number>();
  for (const { tasks, places } of plan?.stations ?? [])
    for (const task of tasks) placesAt.set(task, placesAt.get(task) ?? places);
  const placesOf = (task: number) => placesAt.get(task) ?? 1;
  const isAbove = (task: number, room: RoomForTasks) =>
    plan === null
      ? compare(room.lineCycleFor(task), pace.lineCycle) > 0
      : room.placesFor(task) > placesOf(task);
  const long = [...line.tasks.keys()].filter((task) => isAbove(task, keep));
  const impossible = long.filter((task) => isAbove(task, hold));
  const rooms = { hold, keep, ofOthers: impossible.length > 0 ? hold : keep };
  const answers = long.map((task) => answerOf(line, pace, task, rooms, impossible.includes(task)));
  const isBeyondUse = answers.some(({ places }) => places > MOST_PLACES);
  if (long.length === 0 || isBeyondUse) return { answers, withPlaces: null };
  return { answers, withPlaces: await withPlaces(line, pace, long, impossible, options) };
}

function answerOf(line: Line, pace: Pace, task: number, rooms: Rooms, isImpossible: boolean): LongTaskAnswer {
  const room = isImpossible ? rooms.hold : rooms.keep;
  const taskTime = line.tasks[task]!.load;
  const holding = findBlocks(line).filter((each) => each.tasks.includes(task));
  const block = holding.sort((one, two) => one.tasks.length - two.tasks.length)[0];
  const { parts } = room.partsFor(task);
  const others = [...line.tasks.keys()]
    .filter((other) => other !== task)
    .map((other) => rooms.ofOthers.lineCycleFor(other))
    .reduce(larger, ZERO);
  return {
    task,
    isImpossible,
    taskTime,
    isOverWorkingTime: compare(taskTime, workingTimeAlone(line, pace, task)) > 0,
    places: room.placesFor(task),
    bench: block === undefined ? null : { ...block, places: placesFor(line, pace, block) },
    parts,
    partTime: divide(taskTime, ratio(parts)),
    slower: atPace(line, pace, room.lineCycleFor(task)),
    helpedAlone: atPace(line, pace, larger(others, pace.lineCycle)),
  };
}

/** The line at another cycle: good units of the hour and of the demand's period, and overtime in place of them. */
function atPace(line: Line, pace: Pace, lineCycle: Ratio): SlowerPace {
  const slower = divide(pace.lineCycle, lineCycle);
  const isSlower = compare(lineCycle, pace.lineCycle) > 0;
  const { calendar, demand } = line;
  const day = calendar === null ? null : ratio(availableTimeOfDay(calendar));
  const overtime =
    day === null || demand === null || !isSlower
      ? null
      : divide(subtract(divide(day, slower), day), ratio(calendar!.shifts.length));
  return {
    lineCycle,
    isSlower,
    unitsPerHour: unitsPerHour(line, lineCycle)!,
    units: demand && multiply(demand.units, slower),
    demand,
    overtime,
    fitsDay: overtime === null || fitsDay(line, overtime),
  };
}

function fitsDay(line: Line, overtime: Ratio): boolean {
  const gross = line.calendar!.shifts.reduce((sum, shift) => sum + shift.gross + shift.overtime, 0);
  const whole = add(ratio(gross), multiply(overtime, ratio(line.calendar!.shifts.length)));
  return compare(whole, ratio(24 * MICROS_IN.h)) <= 0;
}

/** The line where stations may have the places that these tasks need. */
async function withPlaces(
  line: Line,
  pace: Pace,
  long: readonly number[],
  impossible: readonly number[],
  options: BalancingOptions,
): Promise<LongTaskAnswers["withPlaces"]> {
  // Where some are to keep the reserve of their station, all are.
  const strictLimit = options.strictLimit || impossible.length < long.length;
  const found = await placesForTasks(line, pace, long, { ...options, strictLimit });
  if (found === null) return null;
  const { best, shorter } = found;
  return sizeOf(shorter === null ? best : { ...best, outcome: "found" });
}

function sizeOf({ line, pace, plan, outcome }: ChangedLine): LongTaskAnswers["withPlaces"] {
  return (
    plan && {
      stations: plan.stations.length,
      people: peopleOfPlan(line, pace, plan).atATime,
      places: plan.stations.reduce((sum, { places }) => sum + places, 0),
      efficiency: efficiencyAtPace(postsOf(line, pace, plan), pace.lineCycle),
      outcome,
    }
  );
}

/** The fewest places at which a bench builds a block, each a whole one in turn: as the file says that the bench works, else for every unit. */
function placesFor(line: Line, pace: Pace, { tasks, joinsAt }: Block): number {
  const counted = countShares(line);
  const job = jobFor(line, { tasks, joinsAt: [joinsAt] });
  const { id, terms } = job;
  const share = carriedShare(line, job);
  const handOver = handOverOf(counted, job);
  const at = { hours: hoursOf(line, terms.shifts), share, handOver, holds: terms.holds };
  const work = tasks.map((task) => workOnCarrier(counted, task, share)).reduce(add, handOver);
  const station = { tasks, work, crew: crewOf(line, { ...ONE_PERSON, tasks }) };
  const post = benchPost(counted, pace, at, station, { id: id ?? "", places: 1, isLast: true });
  return Math.max(1, Number(ceiling(placesToKeep([post], pace))));
}
