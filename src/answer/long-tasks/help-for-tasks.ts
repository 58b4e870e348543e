import { jobFor } from "../../benches/bench-job.js";
import { countShares } from "../../benches/count-shares.js";
import { findBlocks, inOrderOfWork, marksBase } from "../../benches/find-blocks.js";
import { holdsOf } from "../../benches/held-on-line.js";
import { type BenchFigures, measureBench } from "../../benches/measure-bench.js";
import type { Line } from "../../line/line.js";
import { unitsPerHour } from "../../plan/figures/output.js";
import { workingTime } from "../../plan/figures/working-time.js";
import { ONE_PERSON } from "../../plan/plan.js";
import { postOf } from "../../plan/post.js";
import type { BalancingOptions } from "../../solve/balance.js";
import type { Pace } from "../../time/pace.js";
import {
  ceiling,
  compare,
  divide,
  floor,
  larger,
  multiply,
  ONE,
  type Ratio,
  ratio,
  subtract,
} from "../../time/ratio.js";
import { RestBalancer } from "../off-line/balance-rest.js";
import { planWithBenches } from "../off-line/plan-with-benches.js";
import { balanceChanged, balanceEquipped, type ChangedLine, sizeOf } from "./changed-line.js";
import { findLongTasks } from "./find-long-tasks.js";
import { leastLineCycle, slowed } from "./least-line-cycle.js";
import type { BenchTerms, ChangedResult, LongAnswer, MoreEquipment, SlowerRate } from "./long-answer.js";
import { type PlacesForTasks, placesForTasks } from "./places-for-tasks.js";
import { MOST_PARTS, placesOfEach, RoomForTasks } from "./room-for-tasks.js";
import { splitTask } from "./split-task.js";

const OTHERS_TOO_LONG = { kind: "others-too-long" } as const;

/** What helps tasks that are too long for their stations, each answer as a balance that keeps the rules of the line. */
export class HelpForTasks {
  private readonly room: RoomForTasks;
  private slowerAnswer: Promise<LongAnswer> | null = null;
  private readonly told = new Set<string>();

  constructor(
    private readonly line: Line,
    private readonly pace: Pace,
    private readonly long: readonly number[],
    private readonly options: BalancingOptions,
    /** There is no plan before every one of them is helped. */
    private readonly mustHelpAll: boolean,
  ) {
    this.room = new RoomForTasks(line, pace, options.strictLimit, options.strictLimit || !mustHelpAll);
  }

  /** Null where so many places are beyond use. */
  places(): Promise<PlacesForTasks | null> {
    const { line, pace, long, options } = this;
    return placesForTasks(line, pace, long, options);
  }

  /** What the line needs for all of these tasks together: places, equipment or both. */
  placesAnswer(found: PlacesForTasks | null): LongAnswer {
    const { line, long, room } = this;
    const places = placesOfEach(line, long, room);
    if (found === null) return { kind: "no-places", isJoint: true, places };
    const { best, everywhere, shorter } = found;
    const equipment = this.more(best.line);
    const isRoomy = long.every((task) => room.placesFor(task) <= room.placesAllowed(task));
    const common = { isJoint: true, equipment, result: this.result(best) } as const;
    if (isRoomy && equipment.length > 0) return { kind: "equipment", ...common };
    return { kind: "places", ...common, places, everywhere, shorter };
  }

  /** Further units at the places of these tasks, while machines run; null where a unit of none of them stands for too long. */
  async holds(): Promise<LongAnswer | null> {
    const { line, pace, long, room, options } = this;
    const needed = long.map((task) => ({ task, holds: room.holdsFor(task) }));
    const most = Math.max(...needed.map(({ holds }) => holds));
    const isShort = (task: number) => line.tasks[task]!.machineTime > 0 && room.standsTooLong(task);
    if (!long.some(isShort)) return null;
    const floor = line.floor.map((station) => ({
      ...station,
      holds: Math.max(most, station.holds ?? line.holds),
    }));
    const equipment = new Map<string, number>();
    for (const task of long.filter(isShort))
      for (const [name, count] of room.equipmentFor(task))
        equipment.set(name, (equipment.get(name) ?? 0) + count);
    const changed = await balanceEquipped(
      { ...line, holds: Math.max(most, line.holds), floor },
      pace,
      equipment,
      options,
    );
    return {
      kind: "holds",
      isJoint: true,
      holds: needed.flatMap(({ task, holds }) =>
        isShort(task) ? [{ task: line.tasks[task]!.id, holds }] : [],
      ),
      equipment: this.more(changed.line),
      result: this.result(changed),
    };
  }

  /** @param isBalanced whether the line is balanced with it */
  async split(task: number, isBalanced: boolean): Promise<LongAnswer> {
    const { line, pace, room } = this;
    const { machineTime, stations } = line.tasks[task]!;
    if (machineTime > 0) return { kind: "no-split", isJoint: false };
    const { parts, byModel } = room.partsFor(task);
    const part = {
      isJoint: false,
      parts,
      most: byModel ? room.modelLimit(task) : room.limitFor(task),
      isOfModel: byModel,
    } as const;
    if (parts > MOST_PARTS) return { kind: "too-many-parts", ...part };
    const fixedTo = stations?.map((at) => line.floor[at]!.id) ?? null;
    const common = { kind: "split", ...part, fixedTo } as const;
    if (this.mustHelpAll && this.long.length > 1)
      return { ...common, equipment: [], result: OTHERS_TOO_LONG };
    if (!isBalanced) return { ...common, equipment: [], result: null };
    const needed = new Map([...room.equipmentFor(task).keys()].map((name) => [name, 1]));
    const changed = await balanceEquipped(
      splitTask(line, task, parts),
      pace,
      needed,
      this.options,
      parts - 1,
    );
    return { ...common, equipment: this.more(changed.line), result: this.result(changed) };
  }

  /** What one model may ask of a station, where that is what makes tasks too long; null where it is not. */
  async overload(): Promise<LongAnswer | null> {
    const { line, pace, long, room } = this;
    if (line.modelOverload === null) return null;
    // Whatever a model may ask for, a task that is too long on average stays so.
    if (findLongTasks(line, pace, this.options.strictLimit).length > 0) return null;
    const shares = long.map((task) => {
      const places = room.placesAllowed(task);
      const alone = postOf(line, pace, { ...ONE_PERSON, id: "", tasks: [task], places });
      const working = workingTime(alone, pace.lineCycle);
      return subtract(divide(room.modelTime(task), working), ONE);
    });
    const least = shares.reduce(larger);
    if (compare(least, line.modelOverload) <= 0) return null;
    const overload = ratio(ceiling(multiply(least, ratio(100))), 100n);
    const changed = await balanceChanged({ ...line, modelOverload: overload }, pace, this.options);
    const result = changed.plan === null && long.length > 1 ? OTHERS_TOO_LONG : this.result(changed);
    return { kind: "overload", isJoint: true, overload, result };
  }

  /** The smallest block that holds the task and that no rule holds at the line, or why there is none. */
  async bench(task: number, isBalanced: boolean): Promise<LongAnswer> {
    const { line, pace, options } = this;
    const fixed = holdsOf(line, [task]).filter(({ kind }) => kind === "fixed-station");
    if (fixed.length > 0) return { kind: "no-bench", isJoint: false, holds: fixed };
    const holding = findBlocks(line)
      .filter((each) => each.tasks.includes(task))
      .sort((one, two) => one.tasks.length - two.tasks.length);
    const [smallest] = holding;
    if (smallest === undefined) return noBench(line);
    const block = holding.find(({ tasks }) => holdsOf(line, tasks).length === 0);
    if (block === undefined)
      return { kind: "no-bench", isJoint: false, holds: holdsOf(line, smallest.tasks) };
    const limits = { nodes: options.nodes ?? Number.MAX_SAFE_INTEGER, checkpoint: options.checkpoint };
    const job = jobFor(line, { tasks: block.tasks, joinsAt: [block.joinsAt] });
    const bench = await measureBench(countShares(line), pace, job, limits);
    const isOtherTooLong = this.mustHelpAll && this.long.some((each) => !block.tasks.includes(each));
    return {
      kind: "bench",
      isJoint: false,
      tasks: inOrderOfWork(line, block.tasks).map((each) => line.tasks[each]!.id),
      joinsAt: line.tasks[block.joinsAt]!.id,
      places: bench.places,
      isGuess: !marksBase(line),
      result: isOtherTooLong ? OTHERS_TOO_LONG : isBalanced ? await this.resultBeside(bench) : null,
    };
  }

  /** The line with the bench beside it. */
  private async resultBeside(bench: BenchFigures): Promise<BenchTerms["result"]> {
    const { line, pace, options } = this;
    const rest = await new RestBalancer(line, pace, options).of([bench]);
    const beside = planWithBenches(line, pace, rest, [bench]);
    return beside.plan === null
      ? { kind: "no-plan", obstacles: beside.obstacles }
      : { kind: "plan", stations: beside.stations!, people: beside.people! };
  }

  /** The pace at which the line has a plan: that at which the longest of these tasks fits a station, or a slower one. */
  slower(): Promise<LongAnswer> {
    this.slowerAnswer ??= this.findSlower();
    return this.slowerAnswer;
  }

  private async findSlower(): Promise<LongAnswer> {
    const { line, pace, long, room, options } = this;
    const needs = long.map((task) => ({ task, lineCycle: room.lineCycleFor(task) }));
    const slowest = needs.reduce((one, two) => (compare(two.lineCycle, one.lineCycle) > 0 ? two : one));
    const strictLimit = options.strictLimit || !this.mustHelpAll;
    const { lineCycle, outcome } = await leastLineCycle(line, pace, slowest.lineCycle, {
      ...options,
      strictLimit,
    });
    const changed = await balanceChanged(line, slowed(pace, lineCycle), options);
    const isEnough = compare(lineCycle, slowest.lineCycle) === 0;
    const neededBy = { ...slowest, task: line.tasks[slowest.task]!.id, isEnough };
    return {
      kind: "slower",
      isJoint: true,
      lineCycle,
      outcome: outcome === "none" && changed.plan !== null ? "proved" : outcome,
      neededBy: isEnough && long.length === 1 ? null : neededBy,
      rate: rateAt(line, pace, lineCycle),
      result: this.result(changed),
    };
  }

  /** The size of a changed line, or why it has no plan; the same reasons are told once. */
  private result(changed: ChangedLine): ChangedResult {
    if (changed.plan !== null) return sizeOf(changed);
    const { obstacles } = changed;
    const reasons = JSON.stringify(obstacles, (_, value: unknown) =>
      typeof value === "bigint" ? value.toString() : value,
    );
    const isToldBefore = obstacles !== null && obstacles.length > 0 && this.told.has(reasons);
    this.told.add(reasons);
    return { kind: "no-plan", obstacles, isToldBefore };
  }

  /** The equipment of which a changed line has more. */
  private more(changed: Line): MoreEquipment[] {
    return [...this.line.equipment].flatMap(([name, count]) => {
      const needed = changed.equipment.get(name) ?? count;
      return needed <= count ? [] : [{ name, needed, count }];
    });
  }
}

/** No block holds the task. */
const noBench = (line: Line): LongAnswer =>
  marksBase(line)
    ? { kind: "no-bench", isJoint: false, holds: [] }
    : { kind: "unknown-bench", isJoint: false };

/** What the line then makes: whole good units of the demand's own period, hundredths of them in an hour; a demand of so many is kept. */
function rateAt(line: Line, pace: Pace, lineCycle: Ratio): SlowerRate {
  const { demand } = line;
  if (demand === null) return { kind: "hour", units: unitsPerHour(line, lineCycle)! };
  const units = multiply(demand.units, divide(pace.lineCycle, lineCycle));
  const parts = ratio(demand.period === "hour" ? 100 : 1);
  return { kind: "demand", units: divide(ratio(floor(multiply(units, parts))), parts), demand };
}
