import { countOf, countPeople } from "../findings/count-of.js";
import type { Line } from "../line/line.js";
import { floorStationOf } from "../plan/station-numbers.js";
import type { BalancingOptions } from "../solve/balance.js";
import type { Pace } from "../time/pace.js";
import { ceiling, compare, divide, larger, multiply, ONE, ratio, subtract } from "../time/ratio.js";
import { showTimesIn } from "../time/show-in-unit.js";
import { percent } from "../time/show-values.js";
import { RestBalancer } from "./balance-rest.js";
import { jobFor, onEveryUnit } from "./bench-job.js";
import { MOST_PARTS, MOST_PLACES, noParts, noPlaces } from "./beyond-use.js";
import { balanceChanged, type ChangedLine, sizeOf, sizeWords } from "./changed-line.js";
import { findBlocks, inOrderOfWork, marksBase } from "./find-blocks.js";
import { rateAt } from "./flag-long-tasks.js";
import { findFloorLongTasks } from "./floor-long-tasks.js";
import { holdsOf } from "./held-on-line.js";
import { leastLineCycle, slowed } from "./least-line-cycle.js";
import { measureBench } from "./measure-bench.js";
import { planWithBenches } from "./plan-with-benches.js";
import { placesOfEach, RoomForTasks } from "./room-for-tasks.js";
import { splitTask } from "./split-task.js";

const OTHERS = " (others are too long as well)";

/** What helps tasks that are too long for the stations of a line with shop-floor rules, each answer as a balance that keeps them. */
export class FloorAnswers {
  private readonly room: RoomForTasks;
  private slowerWords: Promise<string> | null = null;
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

  /**
   * The line where every station at which one of these tasks may stand may have as many places as the longest of them needs, and
   * with the equipment for that; every station of the line where there is no plan otherwise. Null where that is beyond use.
   */
  async places(): Promise<ChangedLine | null> {
    if (this.long.some((task) => this.room.placesFor(task) > MOST_PLACES)) return null;
    const { floor } = this.line;
    const theirs = this.theirStations();
    const own = await this.placesAt(theirs);
    if (own.plan !== null || theirs.size > floor.length) return own;
    const everywhere = await this.placesAt(new Set([...floor.keys(), floor.length]));
    return everywhere.plan === null ? own : everywhere;
  }

  private placesAt(stations: ReadonlySet<number>): Promise<ChangedLine> {
    const { line, long, room } = this;
    const most = Math.max(line.maxPlaces, ...long.map((task) => room.placesFor(task)));
    const floor = line.floor.map((station, at) => {
      const places = station.maxPlaces ?? line.maxPlaces;
      return { ...station, maxPlaces: stations.has(at) ? Math.max(places, most) : places };
    });
    const needed = new Map<string, number>();
    for (const task of long) {
      for (const [name, count] of room.equipmentFor(task, room.placesFor(task)))
        needed.set(name, (needed.get(name) ?? 0) + count);
    }
    const maxPlaces = stations.has(line.floor.length) ? most : line.maxPlaces;
    return this.equipped({ ...line, maxPlaces, floor }, needed);
  }

  /** Numbers of the stations at which any of these tasks may stand; the number of stations for those behind the floor. */
  private theirStations(): ReadonlySet<number> {
    return new Set(this.long.flatMap((task) => this.room.stationsFor(task)));
  }

  /** Says so where a plan counts on more places also at stations that have none of these tasks. */
  private placesEverywhere({ line, plan }: ChangedLine): string {
    const before = this.line;
    const isMore = plan?.stations.some(({ id, tasks, places }) => {
      const allowed = floorStationOf(before, id)?.maxPlaces ?? before.maxPlaces;
      return places > allowed && !tasks.some((task) => this.long.includes(task));
    });
    if (isMore !== true) return "";
    const most = Math.max(line.maxPlaces, ...line.floor.map(({ maxPlaces }) => maxPlaces ?? 1));
    const isAll = [line, ...line.floor].every(({ maxPlaces }) => (maxPlaces ?? line.maxPlaces) >= most);
    const which = isAll ? "every station" : "every station that they may stand at";
    return `, with places at ${which} (\`max-places: ${most}\`)`;
  }

  /** What the line needs for all of these tasks together: places, equipment or both. */
  placesWords(roomy: ChangedLine | null): string {
    const { line, long, room } = this;
    if (roomy === null) return noPlaces(line, long, room);
    const equipment = this.moreWords(roomy.line);
    const isRoomy = long.every((task) => room.placesFor(task) <= room.placesAllowed(task));
    if (isRoomy && equipment !== "") return `more equipment: ${equipment} ${this.sizeWords(roomy)}`;
    const more = equipment === "" ? "" : ` and ${equipment}`;
    const size = this.sizeWords(roomy, this.placesEverywhere(roomy));
    return `parallel places: ${placesOfEach(line, long, room)}${more}, units taken in turn ${size}`;
  }

  async split(task: number): Promise<string> {
    const { line, room } = this;
    const { machineTime } = line.tasks[task]!;
    if (machineTime > 0) return "split: no, its machine is loaded and runs in one go";
    const show = showTimesIn(line.unit);
    const { parts, byModel } = room.partsFor(task);
    const most = byModel
      ? `of which no model takes more than ${show(room.modelLimit)}`
      : `of at most ${show(room.limitFor(task))}`;
    if (parts > MOST_PARTS) return noParts(parts, most);
    const words = `split: ${parts} parts ${most}${this.fixedWords(task, parts)}`;
    if (this.mustHelpAll && this.long.length > 1) return `${words}${OTHERS}`;
    const needed = new Map([...room.equipmentFor(task, 1).keys()].map((name) => [name, 1]));
    const changed = await this.equipped(splitTask(line, task, parts), needed, parts - 1);
    const equipment = this.moreWords(changed.line);
    return `${words}${equipment === "" ? "" : `, with ${equipment}`} ${this.sizeWords(changed)}`;
  }

  private fixedWords(task: number, parts: number): string {
    const { stations } = this.line.tasks[task]!;
    if (stations === null) return "";
    const names = stations.map((at) => this.line.floor[at]!.id).join(" or ");
    return `, ${parts === 2 ? "both" : "all"} of them fixed to ${names} as the whole is`;
  }

  /** What one model may ask of a station, where that is what makes tasks too long; null where it is not. */
  async overload(): Promise<string | null> {
    const { line, pace, long, room } = this;
    if (line.modelOverload === null) return null;
    // Whatever a model may ask for, a task that is too long on average stays so.
    if (findFloorLongTasks(line, pace, this.options.strictLimit).length > 0) return null;
    const shares = long.map((task) => {
      const places = ratio(room.placesEquipped(task));
      const working = subtract(multiply(places, pace.lineCycle), ratio(pace.handling));
      return subtract(divide(room.modelTime(task), working), ONE);
    });
    const least = shares.reduce(larger);
    if (compare(least, line.modelOverload) <= 0) return null;
    const whole = ratio(ceiling(multiply(least, ratio(100))), 100n);
    const words = `more overload: \`model-overload: ${percent(whole)}\``;
    const changed = await balanceChanged({ ...line, modelOverload: whole }, pace, this.options);
    return `${words}${changed.plan === null && long.length > 1 ? OTHERS : ` ${this.sizeWords(changed)}`}`;
  }

  /** The smallest block that holds the task and that no rule holds at the line, or why there is none. */
  async bench(task: number): Promise<string> {
    const { line, pace, options } = this;
    const fixed = holdsOf(line, [task]).filter(({ kind }) => kind === "fixed-station");
    if (fixed.length > 0) return `bench: no, ${fixed.map(({ words }) => words).join(", ")}`;
    const holding = findBlocks(line)
      .filter((each) => each.tasks.includes(task))
      .sort((one, two) => one.tasks.length - two.tasks.length);
    const [smallest] = holding;
    if (smallest === undefined) {
      return marksBase(line)
        ? "bench: no, it cannot be built away from the line"
        : "bench: not known, as no task says `on-base: true`";
    }
    const block = holding.find(({ tasks }) => holdsOf(line, tasks).length === 0);
    if (block === undefined)
      return `bench: no, ${holdsOf(line, smallest.tasks)
        .map(({ words }) => words)
        .join(", ")}`;
    const limits = { nodes: options.nodes ?? Number.MAX_SAFE_INTEGER, checkpoint: options.checkpoint };
    const job = onEveryUnit(jobFor(line, { tasks: block.tasks, joinsAt: [block.joinsAt] }));
    const bench = await measureBench(line, pace, job, limits);
    const rest = await new RestBalancer(line, pace, options).of([bench], options.nodes);
    const beside = planWithBenches(line, pace, rest, [bench]);
    const isOtherTooLong = this.mustHelpAll && this.long.some((each) => !block.tasks.includes(each));
    const names = inOrderOfWork(line, block.tasks).map((each) => line.tasks[each]!.id);
    const guess = marksBase(line) ? "" : "; a guess, as no task says `on-base: true`";
    const size = isOtherTooLong
      ? "others are too long as well"
      : beside.plan === null
        ? `no plan of the rest keeps the rules${beside.obstacles.length === 0 ? "" : `: ${beside.obstacles.join(", ")}`}`
        : `${countOf(beside.stations!, "station")} at the line and ${countPeople(beside.people!)} in all`;
    const where = `${countOf(bench.places, "place")} for ${names.join(", ")}, joining at ${line.tasks[block.joinsAt]!.id}`;
    return `bench: ${where} (${size}${guess})`;
  }

  /** The pace at which the line has a plan: that at which the longest of these tasks fits a station, or a slower one. */
  slower(): Promise<string> {
    this.slowerWords ??= this.findSlower();
    return this.slowerWords;
  }

  private async findSlower(): Promise<string> {
    const { line, pace, long, room, options } = this;
    const show = showTimesIn(line.unit);
    const needs = long.map((task) => ({ task, lineCycle: room.lineCycleFor(task) }));
    const slowest = needs.reduce((one, two) => (compare(two.lineCycle, one.lineCycle) > 0 ? two : one));
    const strictLimit = options.strictLimit || !this.mustHelpAll;
    const { lineCycle, outcome } = await leastLineCycle(line, pace, slowest.lineCycle, {
      ...options,
      strictLimit,
    });
    const changed = await balanceChanged(line, slowed(pace, lineCycle), options);
    if (outcome === "none" && changed.plan === null)
      return `slower pace: no pace helps ${this.sizeWords(changed)}`;
    const { id } = line.tasks[slowest.task]!;
    const isTheirs = compare(lineCycle, slowest.lineCycle) === 0;
    const theirs = long.length === 1 ? "" : ` (${id} needs it)`;
    const sets = isTheirs
      ? theirs
      : ` (${id} alone needs ${show(slowest.lineCycle)}, the rules of the line more)`;
    const open = outcome === "open" ? " or more" : outcome === "found" ? " or less" : "";
    const rate = rateAt(line, pace, lineCycle);
    return `slower pace: a line cycle of ${show(lineCycle)}${open}${sets}, ${rate} ${this.sizeWords(changed)}`;
  }

  /** With as few more of the counted equipment as give a plan, at most so many more of each than these tasks need alone. */
  private async equipped(line: Line, needed: ReadonlyMap<string, number>, most = 1): Promise<ChangedLine> {
    const balanced = (more: number) => balanceChanged(withMore(line, needed, more), this.pace, this.options);
    let changed = await balanced(0);
    // Where something else is in the way, nothing is gained by more of it.
    for (let more = 1; more <= most && this.isShort(changed, needed); more++) {
      if ((await this.options.checkpoint({ nodes: 0, best: "none", bound: "-", what: "equipment" })) !== null)
        break;
      changed = await balanced(more);
    }
    return changed;
  }

  /** Whether too little of the equipment is among the reasons against a plan. */
  private isShort({ line, plan, why }: ChangedLine, needed: ReadonlyMap<string, number>): boolean {
    if (plan !== null) return false;
    const words = [...needed.keys()].flatMap((name) => [
      `only ${line.equipment.get(name)} ${name} exist`,
      ` x ${name} needed`,
    ]);
    return words.some((each) => why.includes(each));
  }

  /** The size of a changed line, or why it has no plan; the same reasons are said once. */
  private sizeWords(changed: ChangedLine, more = ""): string {
    if (changed.plan !== null) return `(${sizeOf(changed)}${more})`;
    if (changed.why.includes(":") && this.told.has(changed.why))
      return "(no plan then either, for the same reasons)";
    this.told.add(changed.why);
    return sizeWords(changed);
  }

  /** "2 x jig (1 exists)" for the equipment of which a changed line has more. */
  private moreWords(changed: Line): string {
    return [...this.line.equipment]
      .flatMap(([name, count]) => {
        const then = changed.equipment.get(name) ?? count;
        return then <= count ? [] : [`${then} x ${name} (${count} ${count === 1 ? "exists" : "exist"})`];
      })
      .join(" and ");
  }
}

/** At least so many of each equipment, and some more of it. */
function withMore(line: Line, needed: ReadonlyMap<string, number>, more: number): Line {
  const equipment = [...line.equipment].map(([name, count]) => {
    const least = needed.get(name);
    return [name, least === undefined ? count : Math.max(count, least) + more] as const;
  });
  return { ...line, equipment: new Map(equipment) };
}
