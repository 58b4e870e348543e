import type { FillingStep } from "./fill-stations.js";
import { latestStarts } from "./improve/latest-starts.js";
import { Reach } from "./improve/reach.js";
import { OpenStation } from "./station/open-station.js";
import { mayBeStaffed } from "./station/staff-skills.js";
import { type BlockPlan, type FilledStation, kindAt, limitsWith, type Work } from "./work.js";

/**
 * Fills stations one after another by a ranking, as `fillStations` does, under the rules of the floor: the highest-ranked block
 * that can start and may join; blocks that must stand no later than here go first. A station has more than one place only where
 * its first block needs them. Where that runs into a rule, stations are filled anew: a block that must stand no later than here also
 * opens further places at a station in use; and at last what must stand here is told from the work that comes after it, too.
 * Null where the ranking runs into a rule all the same: some block then found no station.
 *
 * @param order task numbers of the line, the first to be placed first; a block ranks as its first task does
 * @param onStep told of every placement and every closing, in order, as task numbers of the line; a block as its first task
 */
export function fillWork(
  problem: Work,
  order: readonly number[],
  onStep: ((step: FillingStep) => void) | null = null,
): BlockPlan | null {
  for (const due of dueDates(problem)) {
    const steps: FillingStep[] = [];
    const plan = new Filling(problem, order, due, onStep === null ? null : (step) => steps.push(step)).run();
    if (plan === null) continue;
    for (const step of steps) onStep?.(step);
    return plan;
  }
  return null;
}

/** When a block goes before others of higher rank, and when it may open further places. */
interface Due {
  /** The position by which each block should stand. */
  readonly by: ArrayLike<number>;
  /** So many positions sooner it already goes before others. */
  readonly ahead: number;
  readonly opensPlaces: boolean;
}

/** The way that follows the ranking most closely first. */
function* dueDates(problem: Work): Generator<Due> {
  yield { by: problem.last, ahead: 0, opensPlaces: false };
  yield { by: problem.last, ahead: 0, opensPlaces: true };
  if (!problem.isPositional) return;
  const floor = problem.kinds.length - 1;
  const latest = latestStarts(problem, Reach.of(problem), floor > 0 ? floor : problem.positions);
  const by = latest.map(Math.floor);
  for (let ahead = 0; ahead <= MOST_AHEAD; ahead++) yield { by, ahead, opensPlaces: true };
  // At last the ranking decides only between those with the same room to be late.
  yield { by: latest, ahead: problem.positions, opensPlaces: true };
}

const MOST_AHEAD = 3;

class Filling {
  private readonly rank: number[];
  private readonly at: number[];
  private readonly station: OpenStation;
  private inUse: readonly number[];
  private skills: bigint[] = [];

  constructor(
    private readonly problem: Work,
    order: readonly number[],
    private readonly due: Due,
    private readonly onStep: ((step: FillingStep) => void) | null,
  ) {
    const rankOf = new Map(order.map((task, at) => [task, at]));
    this.rank = problem.members.map((tasks) => Math.min(...tasks.map((task) => rankOf.get(task)!)));
    this.at = problem.loads.map(() => -1);
    this.station = new OpenStation(problem);
    this.inUse = problem.equipment.map(() => 0);
  }

  run(): BlockPlan | null {
    const plan: FilledStation[] = [];
    let left = this.problem.size;
    for (let position = 0; left > 0; position++) {
      if (position >= this.problem.positions) return null;
      this.station.start(position, this.inUse);
      this.fill(position);
      const { blocks } = this.station;
      if (this.at.some((at, block) => at < 0 && this.problem.last[block]! <= position)) return null;
      if (blocks.length === 0) {
        if (!this.problem.isPositional) return null;
        continue;
      }
      const { places, crew, equipment } = this.station.close()!;
      this.inUse = this.inUse.map((used, at) => used + equipment[at]!);
      if (!this.canStaff(places)) return null;
      plan.push({ position, blocks: [...blocks], places, crew, equipment });
      left -= blocks.length;
    }
    return plan;
  }

  private fill(position: number): void {
    const { station, problem, due } = this;
    let places = 0;
    for (;;) {
      const ready = this.ready(position);
      const at = ready.findIndex((block) => {
        if (!station.canTake(block)) return false;
        station.take(block);
        const closed = station.close();
        station.giveBack();
        return (
          closed !== null &&
          (places === 0 || closed.places <= places || (due.opensPlaces && due.by[block]! < position + 1))
        );
      });
      const kind = kindAt(problem, position);
      const limit = limitsWith(problem, kind, station.blocks).limits[Math.max(places, 1) - 1]!;
      const tasks = (blocks: readonly number[]) => blocks.map((block) => problem.members[block]![0]!);
      if (at < 0) {
        if (places > 0)
          this.onStep?.({
            step: "close",
            station: position,
            free: Math.max(0, limit - station.load),
            left: tasks(ready),
          });
        return;
      }
      const block = ready[at]!;
      const freeBefore = Math.max(0, limit - station.load);
      station.take(block);
      this.at[block] = position;
      places = Math.max(places, station.close()!.places);
      const now = limitsWith(problem, kind, station.blocks).limits[places - 1]!;
      this.onStep?.({
        step: "place",
        station: position,
        task: tasks([block])[0]!,
        freeBefore: Math.max(freeBefore, now - station.load + problem.loads[block]!),
        freeAfter: Math.max(0, now - station.load),
        passedOver: tasks(ready.slice(0, at)),
      });
    }
  }

  private ready(position: number): number[] {
    const { problem, at, rank } = this;
    const isDone = (block: number) => at[block]! >= 0;
    const mayStart = (block: number) =>
      problem.waits.every(({ from, to, stations }) => to !== block || position - at[from]! >= stations);
    const { by, ahead } = this.due;
    const dueAt = (block: number) =>
      by[block]! < position + 1 + ahead ? by[block]! : Number.MAX_SAFE_INTEGER;
    return [...problem.loads.keys()]
      .filter((block) => !isDone(block) && problem.before[block]!.every(isDone) && mayStart(block))
      .sort((one, two) => dueAt(one) - dueAt(two) || rank[one]! - rank[two]! || one - two);
  }

  private canStaff(places: number): boolean {
    const { skills } = this.problem;
    if (skills === null) return true;
    const needs = this.station.blocks.reduce((all, block) => all | skills.needs[block]!, 0n);
    if (needs !== 0n) this.skills.push(...Array<bigint>(places).fill(needs));
    return mayBeStaffed(this.skills, skills.people);
  }
}
