import type { FillingStep } from "../fill-stations.js";
import { OpenStation } from "../station/open-station.js";
import { mayBeStaffed } from "../station/staff-skills.js";
import { type BlockPlan, type FilledStation, kindAt, type Work } from "../work.js";

/**
 * Fills stations one after another by a ranking, as `fillStations` does, under the rules of the floor: the highest-ranked block
 * that can start and may join; blocks that must stand no later than here go first. A station has more than one place only where
 * its first block needs them. Null where the ranking runs into a rule: some block then found no station.
 *
 * @param order task numbers of the line, the first to be placed first; a block ranks as its first task does
 * @param onStep told of every placement and every closing, in order, as task numbers of the line; a block as its first task
 */
export function fillFloor(
  problem: Work,
  order: readonly number[],
  onStep: ((step: FillingStep) => void) | null = null,
): BlockPlan | null {
  return new Filling(problem, order, onStep).run();
}

class Filling {
  private readonly rank: number[];
  private readonly at: number[];
  private readonly station: OpenStation;
  private inUse: readonly number[];
  private skills: bigint[] = [];

  constructor(
    private readonly problem: Work,
    order: readonly number[],
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
      plan.push({ position, blocks: [...blocks], places, crew });
      left -= blocks.length;
    }
    return plan;
  }

  private fill(position: number): void {
    const { station, problem } = this;
    let places = 0;
    for (;;) {
      const ready = this.ready(position);
      const at = ready.findIndex((block) => {
        if (!station.canTake(block)) return false;
        station.take(block);
        const closed = station.close();
        station.giveBack();
        return closed !== null && (places === 0 || closed.places <= places);
      });
      const limit = problem.kinds[kindAt(problem, position)]!.limits[Math.max(places, 1) - 1]!;
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
      const now = problem.kinds[kindAt(problem, position)]!.limits[places - 1]!;
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
    const due = (block: number) => (problem.last[block]! <= position ? 0 : 1);
    return [...problem.loads.keys()]
      .filter((block) => !isDone(block) && problem.before[block]!.every(isDone) && mayStart(block))
      .sort((one, two) => due(one) - due(two) || rank[one]! - rank[two]! || one - two);
  }

  private canStaff(places: number): boolean {
    const { skills } = this.problem;
    if (skills === null) return true;
    const needs = this.station.blocks.reduce((all, block) => all | skills.needs[block]!, 0n);
    if (needs !== 0n) this.skills.push(...Array<bigint>(places).fill(needs));
    return mayBeStaffed(this.skills, skills.people);
  }
}
