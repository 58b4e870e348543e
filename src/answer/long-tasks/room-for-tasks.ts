import type { Line } from "../../line/line.js";
import { handlingAt } from "../../line/passes.js";
import { workingTimeAlone } from "../../plan/figures/working-time.js";
import { ONE_PERSON } from "../../plan/plan.js";
import { modelTime } from "../../plan/station-schedule.js";
import { kindNumbersFor } from "../../solve/explain/binding-times.js";
import { layOutWork } from "../../solve/lay-out-work.js";
import { fromParts, isCountedExactly, wholeParts } from "../../solve/parts.js";
import { timeHeld } from "../../solve/time-held.js";
import type { Work } from "../../solve/work.js";
import type { Pace } from "../../time/pace.js";
import {
  add,
  ceiling,
  compare,
  divide,
  larger,
  multiply,
  ONE,
  type Ratio,
  ratio,
  ZERO,
} from "../../time/ratio.js";
import type { PlacesAnswer } from "./long-answer.js";

/** Into how many parts a task is cut at the most, one after the other; a line is not balanced with more of them. */
export const MOST_PARTS = 20;

/** How many places a station is given at the most; beyond it a time is more likely wrong than the line so wide. */
export const MOST_PLACES = 100;

/** A station that a task may stand at, as far as it sets the room there. */
interface Room {
  /** The share of the working time that the task may take of it. */
  readonly planTo: Ratio;
  readonly places: number;
  /** Units that may stand at one place at a time. */
  readonly holds: number;
}

/**
 * What tasks need to find room at a station, as a balance grants it: alone, a task may take the whole working time unless limits are
 * strict; in company, with one it must stand with, and where it is to keep the reserve, no more than the station limit.
 */
export class RoomForTasks {
  private readonly problem: Work;
  /** The block of each task. */
  private readonly blocks: readonly number[];

  /** @param keepsReserve the tasks are to fit the limit of their station, also where they might stand above it */
  constructor(
    private readonly line: Line,
    private readonly pace: Pace,
    strictLimit: boolean,
    private readonly keepsReserve = strictLimit,
  ) {
    this.problem = layOutWork(line, { pace, strictLimit, slowest: null, free: false });
    const blocks: number[] = [];
    for (const [block, tasks] of this.problem.members.entries())
      for (const task of tasks) blocks[task] = block;
    this.blocks = blocks;
  }

  /** The fewest places of a station that have the time for the task. */
  placesFor(task: number): number {
    const places = this.rooms(task).map((room) =>
      Number(ceiling(divide(this.occupied(task, room), this.pace.lineCycle))),
    );
    return Math.max(1, Math.min(...places));
  }

  /** The shortest line cycle at which a station that it may stand at has the time for the task, with the equipment that exists. */
  lineCycleFor(task: number): Ratio {
    const cycles = this.rooms(task).map((room) => divide(this.occupied(task, room), ratio(room.places)));
    return [...this.heldCycles(task), cycles.reduce(smaller)].reduce(larger);
  }

  /** How many of each counted equipment the task needs, shared among its places. */
  equipmentFor(task: number): Map<string, number> {
    const units = Number(ceiling(divide(timeHeld(this.line, task), this.pace.lineCycle)));
    return new Map(this.counted(task).map((name) => [name, Math.max(1, units)] as const));
  }

  /** Whether a unit stands for the task, and its machine, for longer than any station that it may stand at lets it. */
  standsTooLong(task: number): boolean {
    const held = asPlanned(this.line, timeHeld(this.line, task));
    return this.rooms(task).every(
      ({ places, holds }) => compare(held, multiply(ratio(holds), this.workingTimeOf(places))) > 0,
    );
  }

  /** Units that must stand at one place at a time for the task to end, with its machine, in time. */
  holdsFor(task: number): number {
    const held = asPlanned(this.line, timeHeld(this.line, task));
    const needed = this.rooms(task).map(({ places }) =>
      Number(ceiling(divide(held, this.workingTimeOf(places)))),
    );
    return Math.max(1, Math.min(...needed));
  }

  /** That of one place, and a line cycle for each further one. */
  private workingTimeOf(places: number): Ratio {
    return add(this.pace.workingTime, multiply(ratio(places - 1), this.pace.lineCycle));
  }

  /** The largest station limit that it may stand under, at one place. */
  limitFor(task: number): Ratio {
    return this.rooms(task, true)
      .map(({ planTo }) => multiply(this.workingTime(task), planTo))
      .reduce(larger, ZERO);
  }

  /** Into how many equal parts the task must be split at the least for each to fit a station of one place; 1 where it fits whole. */
  partsFor(task: number): { readonly parts: number; readonly byModel: boolean } {
    const limit = this.limitFor(task);
    // However short the parts, each is passed as often as the whole.
    if (compare(limit, ZERO) <= 0) return { parts: MOST_PARTS + 1, byModel: false };
    const hands = divide(this.line.tasks[task]!.load, limit);
    const models = divide(this.modelTime(task), this.modelLimit(task));
    return {
      parts: Math.max(1, Number(ceiling(larger(hands, models)))),
      byModel: compare(models, hands) > 0,
    };
  }

  /** What one model may ask of a station of one place with the task. */
  modelLimit(task: number): Ratio {
    return multiply(this.workingTime(task), add(ONE, this.line.modelOverload ?? ZERO));
  }

  /** The most that one model takes at the task; zero where models are held on average only. */
  modelTime(task: number): Ratio {
    if (this.line.modelOverload === null) return ZERO;
    return this.line.models.map((_, model) => modelTimeOf(this.line, task, model)).reduce(larger, ZERO);
  }

  /** Numbers of the stations at which it may stand; the number of stations for those behind the floor. */
  stationsFor(task: number): readonly number[] {
    return kindNumbersFor(this.problem, [task]);
  }

  /** The most places that a station it may stand at has. */
  placesAllowed(task: number): number {
    return Math.max(...this.rooms(task).map(({ places }) => places));
  }

  /** How long the task occupies a place, with handling and the part of its time that is kept free; its machine with it. */
  private occupied(task: number, { planTo, holds }: Room): Ratio {
    const { line, pace } = this;
    const stands = divide(asPlanned(line, timeHeld(line, task)), ratio(holds));
    const hands = larger(divide(this.handsOf(task), planTo), stands);
    const models =
      line.modelOverload === null
        ? ZERO
        : divide(asPlanned(line, this.modelTime(task)), add(ONE, line.modelOverload));
    const tasks = this.problem.schedule?.sides == null ? this.blockOf(task) : [task];
    return add(larger(hands, models), handlingAt(line, pace, tasks));
  }

  private workingTime(task: number): Ratio {
    return workingTimeAlone(this.line, this.pace, task);
  }

  /** With the tasks that must share its station; where these are on two sides of it, the task alone. */
  private handsOf(task: number): Ratio {
    const { line } = this;
    const tasks = this.problem.schedule?.sides == null ? this.blockOf(task) : [task];
    return tasks.map((each) => asPlanned(line, line.tasks[each]!.load)).reduce(add, ZERO);
  }

  private blockOf(task: number): readonly number[] {
    return this.problem.members[this.blocks[task]!]!;
  }

  private rooms(task: number, underLimit = false): Room[] {
    const { line, pace, problem } = this;
    const isAlone = problem.mayStandAlone[this.blocks[task]!]!;
    const isWhole = !underLimit && !this.keepsReserve && isAlone;
    // Stations that hold the same make one room.
    const numbers = new Map(kindNumbersFor(problem, [task]).map((at) => [problem.kinds[at], at]));
    return [...numbers.values()].map((at) => ({
      planTo: isWhole ? ONE : (line.floor[at]?.planTo ?? pace.planTo),
      places: line.floor[at]?.maxPlaces ?? line.maxPlaces,
      holds: line.floor[at]?.holds ?? line.holds,
    }));
  }

  private counted(task: number): string[] {
    return this.line.tasks[task]!.equipment.filter((name) => this.line.equipment.has(name));
  }

  /** Line cycles at which the equipment that exists keeps up; where benches keep all of one, no cycle helps, as its rule says. */
  private heldCycles(task: number): Ratio[] {
    const held = timeHeld(this.line, task);
    const counts = this.counted(task).map((name) => this.line.equipment.get(name)!);
    return counts.filter((count) => count > 0).map((count) => divide(held, ratio(count)));
  }
}

/** The places that each of these tasks needs. */
export const placesOfEach = (
  line: Line,
  tasks: readonly number[],
  room: RoomForTasks,
): PlacesAnswer["places"] =>
  tasks.map((task) => ({ task: line.tasks[task]!.id, places: room.placesFor(task) }));

/** What one model takes of a station that does a task alone, in microseconds; 0 where it does not have the task. */
export const modelTimeOf = (line: Line, task: number, model: number): Ratio =>
  modelTime(line, { ...ONE_PERSON, id: "", tasks: [task] }, model);

/** A load as plans count it, in whole parts of a microsecond: room for less might not be found. */
const asPlanned = (line: Line, load: Ratio): Ratio =>
  isCountedExactly(line) ? load : fromParts(line, wholeParts(line, load, "up"));

const smaller = (one: Ratio, two: Ratio): Ratio => (compare(two, one) < 0 ? two : one);
