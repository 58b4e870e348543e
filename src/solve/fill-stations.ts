import { latestStarts } from "./improve/latest-starts.js";
import type { StationProblem, Stations } from "./problem.js";
import type { Closed } from "./station/constraint.js";
import { OpenStation } from "./station/open-station.js";
import { asksOf, mayBeStaffed } from "./station/staff-skills.js";
import { type BlockPlan, type FilledStation, kindAt, limitsWith, plainWork, type Work } from "./work.js";

/**
 * One step of station filling, in the terms of somebody who checks it by hand; tasks by their numbers, a block as its first task, times
 * in the units of the work.
 */
export type FillingStep =
  | {
      readonly step: "place";
      /** Station number from 0; on a floor the position of the station. */
      readonly station: number;
      readonly task: number;
      readonly freeBefore: number;
      readonly freeAfter: number;
      /** Available tasks of higher rank that did not fit, in rank order. */
      readonly passedOver: readonly number[];
    }
  | {
      readonly step: "close";
      readonly station: number;
      readonly free: number;
      /** Available tasks, none of which fits, in rank order. */
      readonly left: readonly number[];
    };

/**
 * Fills stations one after another, each with the highest-ranked available block that may still join; a station closes when nothing
 * available may. Every rule is filled this way, on every line. Blocks that must stand no later than here go first. A station has more
 * than one place only where its first block needs them. Where that runs into a rule, stations are filled anew: a block that must stand
 * no later than here also opens further places at a station in use; and at last what must stand here is told from the work that comes
 * after it, too. Null where the ranking runs into a rule all the same: some block then found no station.
 *
 * @param order task numbers of the line, the first to be placed first; a block ranks as its first task does
 * @param onStep told of every placement and every closing, in order
 * @returns stations whose blocks are in the order in which they were placed
 */
export function fillStations(
  work: Work,
  order: readonly number[],
  onStep: ((step: FillingStep) => void) | null = null,
): BlockPlan | null {
  for (const due of dueDates(work)) {
    const steps: FillingStep[] = [];
    const plan = new Filling(work, order, due, onStep === null ? null : (step) => steps.push(step)).run();
    if (plan === null) continue;
    for (const step of steps) onStep?.(step);
    return plan;
  }
  return null;
}

/** The same by time and precedence alone. Throws a RangeError for a task that is longer than the limit. */
export function fillByTime(problem: StationProblem, order: readonly number[]): Stations {
  const plan = fillStations(plainWork(problem), order);
  if (plan === null) throw new RangeError("a task is longer than the station limit");
  return plan.map(({ blocks }) => blocks);
}

/** When a block goes before others of higher rank, and when it may open further places. */
interface Due {
  /** The position by which each block should stand. */
  readonly by: ArrayLike<number>;
  /** So many positions sooner it already goes before others. */
  readonly ahead: number;
  readonly opensPlaces: boolean;
}

/** The way that follows the ranking most closely first; further ones only where they may come to something else. */
function* dueDates(work: Work): Generator<Due> {
  const by = work.last;
  yield { by, ahead: 0, opensPlaces: false };
  if (work.kinds.some(({ limits }) => limits.length > 1)) yield { by, ahead: 0, opensPlaces: true };
  if (!work.isPositional) return;
  const floor = work.kinds.length - 1;
  const latest = latestStarts(work, floor > 0 ? floor : work.positions);
  const whole = latest.map(Math.floor);
  for (let ahead = 0; ahead <= MOST_AHEAD; ahead++) yield { by: whole, ahead, opensPlaces: true };
  // At last the ranking decides only between those with the same room to be late.
  yield { by: latest, ahead: work.positions, opensPlaces: true };
}

const MOST_AHEAD = 3;

class Filling {
  private readonly at: number[];
  private readonly station: OpenStation;
  private readonly ready: ReadyBlocks;
  /** Blocks by the last position that they may have. */
  private readonly byLast: readonly number[];
  private readonly waitsFor = new Map<number, Work["waits"]>();
  private inUse: readonly number[];
  private skills: bigint[] = [];

  constructor(
    private readonly work: Work,
    order: readonly number[],
    private readonly due: Due,
    private readonly onStep: ((step: FillingStep) => void) | null,
  ) {
    this.at = work.loads.map(() => -1);
    this.station = new OpenStation(work);
    this.ready = new ReadyBlocks(work, order);
    this.byLast = [...work.loads.keys()].sort((one, two) => work.last[one]! - work.last[two]!);
    for (const wait of work.waits) this.waitsFor.set(wait.to, [...(this.waitsFor.get(wait.to) ?? []), wait]);
    this.inUse = work.equipment.map(() => 0);
  }

  run(): BlockPlan | null {
    const { work, station, byLast, at } = this;
    const plan: FilledStation[] = [];
    let [left, inTime] = [work.size, 0];
    for (let position = 0; left > 0; position++) {
      if (position >= work.positions) return null;
      station.start(position, this.inUse);
      this.fill(position);
      for (; inTime < work.size && work.last[byLast[inTime]!]! <= position; inTime++)
        if (at[byLast[inTime]!]! < 0) return null;
      const { blocks } = station;
      if (blocks.length === 0) {
        if (!work.isPositional) return null;
        continue;
      }
      const closed = this.close();
      if (closed === null) return null;
      this.inUse = this.inUse.map((used, each) => used + closed.equipment[each]!);
      plan.push({ position, blocks: [...blocks], ...closed });
      left -= blocks.length;
    }
    return plan;
  }

  private fill(position: number): void {
    const { station, work, ready, onStep } = this;
    let places = 0;
    for (;;) {
      const inTurn = this.inTurn(position);
      const limitBefore = this.limitAt(position, places);
      const freeBefore = Math.max(0, limitBefore - station.load);
      let at = 0;
      let joined: number | null = null;
      for (; at < inTurn.length && joined === null; at++) joined = this.join(inTurn[at]!, position, places);
      if (joined === null) {
        if (places > 0)
          onStep?.({ step: "close", station: position, free: freeBefore, left: this.tasksOf(inTurn) });
        return;
      }
      const block = inTurn[at - 1]!;
      this.at[block] = position;
      places = Math.max(places, joined);
      if (onStep !== null) {
        const now = this.limitAt(position, places);
        onStep({
          step: "place",
          station: position,
          task: work.members[block]![0]!,
          freeBefore: Math.max(freeBefore, now - station.load + work.loads[block]!),
          freeAfter: Math.max(0, now - station.load),
          passedOver: this.tasksOf(inTurn.slice(0, at - 1)),
        });
      }
      ready.take(block);
    }
  }

  /** The places of the station with the block, which has joined it; null where it may not. */
  private join(block: number, position: number, places: number): number | null {
    const { station, due } = this;
    if (!station.canTake(block)) return null;
    station.take(block);
    const closed = station.close()?.places ?? null;
    const mayOpen = places === 0 || (due.opensPlaces && due.by[block]! < position + 1);
    if (closed !== null && (closed <= places || mayOpen)) return closed;
    station.giveBack();
    return null;
  }

  private limitAt(position: number, places: number): number {
    const { work, station } = this;
    return limitsWith(work, kindAt(work, position), station.blocks).limits[Math.max(places, 1) - 1]!;
  }

  private tasksOf(blocks: readonly number[]): number[] {
    return blocks.map((block) => this.work.members[block]![0]!);
  }

  /** What may start here: what is due first, then by rank. */
  private inTurn(position: number): readonly number[] {
    const { at, ready, waitsFor } = this;
    const { by, ahead } = this.due;
    const isDue = (block: number) => by[block]! < position + 1 + ahead;
    const mayStart = (block: number) =>
      waitsFor.get(block)?.every(({ from, stations }) => position - at[from]! >= stations) ?? true;
    const open = waitsFor.size === 0 ? ready.blocks : ready.blocks.filter(mayStart);
    if (!open.some(isDue)) return open;
    const due = open.filter(isDue).sort((one, two) => by[one]! - by[two]!);
    return [...due, ...open.filter((block) => !isDue(block))];
  }

  /** With the fewest places, by people who have its skills beside those of the stations before; null where there are none. */
  private close(): Closed | null {
    const { station } = this;
    const { skills } = this.work;
    const first = station.close()!;
    if (skills === null) return first;
    const asked = ({ team, places }: Closed) => [...this.skills, ...asksOf(team, places)];
    const ways = [first, ...station.closings()];
    const closed = ways.find((way) => mayBeStaffed(asked(way), skills.people)) ?? null;
    if (closed !== null) this.skills = asked(closed);
    return closed;
  }
}

/** Blocks whose predecessors are all placed, kept in rank order. */
class ReadyBlocks {
  readonly blocks: number[];
  readonly #rank: readonly number[];
  readonly #waitingFor: number[];

  constructor(
    private readonly work: Work,
    order: readonly number[],
  ) {
    const rankOf = new Map(order.map((task, at) => [task, at]));
    this.#rank = work.members.map((tasks) => Math.min(...tasks.map((task) => rankOf.get(task)!)));
    this.#waitingFor = work.before.map((earlier) => earlier.length);
    this.blocks = [...work.loads.keys()]
      .filter((block) => this.#waitingFor[block] === 0)
      .sort((one, two) => this.#rank[one]! - this.#rank[two]!);
  }

  /** Removes a block and lets in what waited only for it. */
  take(block: number): void {
    this.blocks.splice(this.blocks.indexOf(block), 1);
    for (const later of this.work.after[block]!) {
      this.#waitingFor[later]! -= 1;
      if (this.#waitingFor[later] === 0) this.#insert(later);
    }
  }

  #insert(block: number): void {
    const own = this.#rank[block]!;
    const at = this.blocks.findIndex((other) => this.#rank[other]! > own);
    this.blocks.splice(at < 0 ? this.blocks.length : at, 0, block);
  }
}
