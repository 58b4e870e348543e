import type { Line } from "../../line/line.js";
import {
  add,
  ceiling,
  divide,
  floor,
  leastCommonMultiple,
  multiply,
  ONE,
  type Ratio,
  ratio,
} from "../../time/ratio.js";
import { type Aim, type Cost, costOf, isCheaper } from "../cost.js";
import { layOutWork, type PassedStations, passesOfBlocks, type WorkLimits } from "../lay-out-work.js";
import { mergeTogether } from "../merge-together.js";
import { partsOf } from "../parts.js";
import type { Stations } from "../problem.js";
import { CycleGrid, sumsOf } from "../search/cycle-grid.js";
import {
  type CycleProblem,
  type CyclesAtLeast,
  mostStations,
  type StationTimes,
} from "../search/cycle-problem.js";
import { commonDivisor } from "../search/exact-sums.js";
import { plainCycles } from "../search/least-limit.js";
import { stationsInRow } from "../search/two-way-search.js";
import { arrangeBlocks } from "../station/arrange-blocks.js";
import { arrangeStation } from "../station/arrange-station.js";
import { OpenStation } from "../station/open-station.js";
import { rulesOf } from "../station/task-rules.js";
import {
  type BlockPlan,
  blocksByTask,
  type FilledStation,
  kindAt,
  mostOfStation,
  sumsTimesOnly,
  type Work,
} from "../work.js";
import { cycleBeyondStations } from "./cycle-of-work.js";
import { leastTimes } from "./least-times.js";

/** What plans of a line must keep while their cycle is brought down: cheaper than the ceiling. */
export interface LevelAim {
  readonly aim: Aim;
  readonly ceiling: Cost;
}

/**
 * The cycles of a line as whole steps: every cycle that stations, models and machines can make is a whole number of them, so that between
 * one and the next there is none.
 */
export class LineCycles implements CycleProblem {
  readonly grid: CycleGrid;
  readonly ceiling: Cost;
  readonly aim: Aim;
  readonly least: bigint;
  readonly time: StationTimes | null;
  readonly atLeast: CyclesAtLeast | null;
  private readonly base: Work;
  private readonly passed: PassedStations;
  /** A microsecond in steps, and a part of it. */
  private readonly steps: bigint;
  private readonly stepsOfPart: bigint;
  private known: { readonly cycle: bigint; readonly work: Work } | null = null;

  /**
   * @param least no plan has a shorter cycle, in microseconds
   * @param first the plan to begin with: no longer cycle is of interest
   */
  constructor(
    private readonly line: Line,
    private readonly limits: WorkLimits,
    { aim, ceiling: cost }: LevelAim,
    least: Ratio,
    first: BlockPlan,
  ) {
    this.aim = aim;
    this.ceiling = cost;
    this.base = layOutWork(line, limits);
    this.passed = passesOfBlocks(line, limits, this.base.members);
    this.steps = stepsOf(line, this.base, this.passed, limits);
    this.stepsOfPart = this.steps / partsOf(line);
    this.time = sumsTimesOnly(this.base) ? this.timeAlone() : null;
    this.atLeast = this.sumsAtLeast();
    this.grid = this.gridUpTo(this.cycleOf(first, null));
    this.least = this.grid.atLeast(ceiling(multiply(least, ratio(this.steps))));
  }

  workAt(cycle: bigint): Work {
    if (this.known?.cycle !== cycle)
      this.known = { cycle, work: layOutWork(this.line, { ...this.limits, slowest: this.timeOf(cycle) }) };
    return this.known.work;
  }

  /** Every block is one task, so units are the tasks of the line. */
  get isByTask(): boolean {
    return this.base.members.every((tasks) => tasks.length === 1);
  }

  /** No other limit of a station is below what this cycle leaves it, so whatever keeps a shorter cycle keeps them all. */
  isOnlyLimit(cycle: bigint): boolean {
    if (this.limits.free) return true;
    const { kinds, modelLoads } = this.base;
    const left = (places: number) => (BigInt(places) * cycle - this.handling(0)) / this.stepsOfPart;
    return (
      modelLoads.length === 0 &&
      kinds.every(({ limits }) => limits.every((most, at) => BigInt(most) >= left(at + 1)))
    );
  }

  /** A cycle as progress tells it: in parts of a microsecond, rounded down. */
  inParts(cycle: bigint): number {
    return Number(cycle / this.stepsOfPart);
  }

  /** In microseconds. */
  timeOf(cycle: bigint): Ratio {
    return ratio(cycle, this.steps);
  }

  cycleOf(plan: BlockPlan, at: bigint | null): bigint {
    const work = at === null ? this.base : this.workAt(at);
    const beyond = cycleBeyondStations(this.line, work, this.limits, plan);
    let most = ceiling(multiply(beyond, ratio(this.steps)));
    for (const station of plan) {
      const own = this.cycleOfStation(station, at);
      if (own > most) most = own;
    }
    return most;
  }

  cycleOfStation(station: FilledStation, at: bigint | null): bigint {
    const work = at === null ? this.base : this.workAt(at);
    // What does not fit at a cycle has a longer one of its own.
    const order = arrangeStation(work, station) ?? arrangeStation(this.base, station);
    const load = order?.hands ?? station.blocks.reduce((sum, each) => sum + work.loads[each]!, 0);
    const passes = station.blocks.reduce((most, each) => Math.max(most, work.passes[each]!), 0);
    const places = BigInt(station.places);
    const handling = this.handling(passes);
    const ofHands = (BigInt(load) * this.stepsOfPart + handling) / places;
    if (order === null) return ofHands;
    const holds = BigInt(work.kinds[kindAt(work, station.position)]!.holds);
    const ofDwell = (BigInt(order.dwell) * this.stepsOfPart + holds * handling) / (holds * places);
    if (ofDwell > ofHands) return ofDwell;
    return ofHands;
  }

  /** In steps, at stations of so many passes as `Work.passes` counts them. */
  private handling(passes: number): bigint {
    const { num, den } = this.passed.handlings[passes]!;
    return (num * this.steps) / den;
  }

  /** Blocks as units, in the order of their first tasks. */
  private timeAlone(): StationTimes {
    const { base } = this;
    const { blocks, times, before } = blocksByTask(base);
    const unitOf = new Map(blocks.map((block, unit) => [block, unit]));
    const most = mostOfStation(base);
    const handling = this.handling(0);
    const isAll = rulesOf(base) === null && base.loads.every((load) => load <= most);
    const station = new OpenStation(base);
    const nothingInUse = base.equipment.map(() => 0);
    const inOrder = base.loads.map((_, block) => [unitOf.get(block)!, block] as const);
    const arranged = (work: Work, positionOf: readonly number[], by: OpenStation) => {
      const plan = arrangeBlocks(work, positionOf, by);
      return plan !== null && isCheaper(costOf(plan), this.ceiling, this.aim) ? plan : null;
    };
    return {
      times,
      before,
      isAll,
      limitAt: (cycle) => Number((cycle - handling) / this.stepsOfPart),
      stationsOf: (plan) => plan.map((each) => each.blocks.map((block) => unitOf.get(block)!)),
      planOf: (stations: Stations, positions) => {
        if (isAll)
          return stations.map((units, position) => {
            return { position, blocks: units.map((unit) => blocks[unit]!), places: 1, crew: 1 };
          });
        const positionOf = base.loads.map(() => 0);
        for (const [at, units] of stations.entries())
          for (const unit of units) positionOf[blocks[unit]!] = positions?.[at] ?? at;
        return arranged(base, positionOf, station);
      },
      rulesAt: (positions, cycle) => {
        if (isAll) return null;
        const work = cycle === null ? base : this.workAt(cycle);
        const asked = cycle === null ? station : new OpenStation(work);
        const positionOf = base.loads.map(() => 0);
        return (stationOf, changed) => {
          // What a station by itself forbids is seen sooner than what stations hand on.
          for (const at of changed) {
            asked.start(positions[at]!, nothingInUse);
            for (const [unit, block] of inOrder) {
              if (stationOf[unit] !== at) continue;
              if (!asked.canTake(block)) return false;
              asked.take(block);
            }
          }
          for (const [unit, block] of blocks.entries()) positionOf[block] = positions[stationOf[unit]!]!;
          return arranged(work, positionOf, asked) !== null;
        };
      },
    };
  }

  /**
   * Stations as schedules of one unit each, worked by people who are all at one task: sums of what each block takes at the least, with
   * blocks together that take an equipment of which there is one. Null elsewhere, and where people are more than stations.
   */
  private sumsAtLeast(): CyclesAtLeast | null {
    const { base, ceiling, aim } = this;
    const { schedule, kinds, members } = base;
    const isOneByOne = kinds.every(
      ({ limits, atOnce, holds }) => limits.length === 1 && atOnce === 1 && holds === 1,
    );
    const isOfOne = aim[0] === "stations" || ceiling.people < ceiling.stations;
    if (schedule === null || !isOneByOne || !isOfOne) return null;
    const inUse = base.equipment.filter(({ count }) => count === 1);
    const units = mergeTogether(
      base.before,
      inUse.map(({ needs }) => [...members.keys()].filter((block) => needs[block]!)),
    );
    const unitOf: number[] = [];
    for (const [unit, blocks] of units.entries()) for (const block of blocks) unitOf[block] = unit;
    const least = leastTimes(schedule);
    const times = units.map((blocks) =>
      blocks.flatMap((block) => members[block]!).reduce((sum, task) => sum + least[task]!, 0),
    );
    const before = units.map((blocks, unit) =>
      [...new Set(blocks.flatMap((block) => base.before[block]!.map((each) => unitOf[each]!)))].filter(
        (each) => each !== unit,
      ),
    );
    const station = new OpenStation(base);
    return {
      problem: plainCycles(times, before, mostStations(this)),
      plainPlan: (plan) =>
        stationsInRow(plan.map(({ blocks }) => [...new Set(blocks.map((block) => unitOf[block]!))])),
      planOf: (plain) => {
        const positionOf = base.loads.map(() => 0);
        for (const { position, blocks } of plain)
          for (const unit of blocks) for (const block of units[unit]!) positionOf[block] = position;
        return arrangeBlocks(base, positionOf, station);
      },
      cycleOf: (load) => load * this.stepsOfPart + this.handling(0),
    };
  }

  /** The cycles up to one that plans can have; where sides or many sums make them too many to list, all steps. */
  private gridUpTo(most: bigint): CycleGrid {
    const { base, limits, stepsOfPart } = this;
    if (base.schedule !== null) return CycleGrid.stepping(1n);
    const places = BigInt(mostPlaces(base));
    const loads = sumsOf(base.loads, 0, Number((most * places) / stepsOfPart));
    const beyond = limits.free ? this.ofModels(most) : [];
    const handlings = this.passed.handlings.map((_, passes) => this.handling(passes));
    const count = BigInt((loads?.length ?? 0) * handlings.length) * places;
    if (loads === null || beyond.includes(null) || count > MOST_CYCLES) {
      const isSimple = places === 1n && beyond.length === 0 && handlings.length === 1;
      if (!isSimple) return CycleGrid.stepping(1n);
      return CycleGrid.stepping(BigInt(commonDivisor(base.loads)) * stepsOfPart, handlings[0]!);
    }
    const stations = loads.flatMap((load) =>
      handlings.flatMap((handling) =>
        Array.from(
          { length: Number(places) },
          (_, at) => (BigInt(load) * stepsOfPart + handling) / BigInt(at + 1),
        ),
      ),
    );
    return CycleGrid.listing([...stations, ...(beyond as bigint[][]).flat()]);
  }

  /** What sums of times of a model ask of the cycle; null where they are too many. */
  private ofModels(most: bigint): (bigint[] | null)[] {
    const { line, base, steps } = this;
    if (line.modelOverload === null) return [];
    const share = add(ONE, line.modelOverload);
    const mostParts = floor(multiply(divide(ratio(most), ratio(this.stepsOfPart)), share));
    return base.modelLoads.map((loads) => {
      const sums = sumsOf(loads, 0, Number(mostParts));
      return (
        sums?.flatMap((sum) => {
          const time = divide(ratio(BigInt(sum), partsOf(line)), share);
          return this.passed.handlings.map((each) => ceiling(multiply(add(time, each), ratio(steps))));
        }) ?? null
      );
    });
  }
}

/** Cycles that are listed at the most. */
const MOST_CYCLES = 10_000n;

const mostPlaces = ({ kinds }: Work): number => Math.max(...kinds.map(({ limits }) => limits.length));

/** Into how many equal steps a microsecond is cut so that every cycle of a plan is a whole number of them. */
function stepsOf(line: Line, work: Work, { handlings }: PassedStations, limits: WorkLimits): bigint {
  const parts = handlings.map(({ den }) => den).reduce(leastCommonMultiple, partsOf(line));
  const coarse = parts * upTo(BigInt(mostPlaces(work)));
  const shared = work.schedule === null ? 1n : unitsShared(work);
  // A time of n parts asks for n x d / (d + o) of them where o / d is the overload.
  const models = limits.free && line.modelOverload !== null ? add(ONE, line.modelOverload) : ONE;
  return coarse * shared * models.num;
}

/** A multiple of how many units share what a place, or all units of an equipment at a station, have for one. */
function unitsShared({ kinds, equipment }: Work): bigint {
  const holds = kinds.map((kind) => BigInt(kind.holds)).reduce(leastCommonMultiple, 1n);
  const most = Math.max(...kinds.map((kind) => kind.holds * kind.limits.length));
  return leastCommonMultiple(
    holds,
    upTo(BigInt(Math.min(most, Math.max(1, ...equipment.map(({ count }) => count))))),
  );
}

/** A multiple of every whole number up to `most`. */
function upTo(most: bigint): bigint {
  let common = 1n;
  for (let each = 2n; each <= most; each++) common = leastCommonMultiple(common, each);
  return common;
}
