import { directFollowers } from "../../line/precedence.js";
import type { Stations } from "../problem.js";
import type { PlanRules } from "../search/cycle-problem.js";

/** A plan that changes: the station of each task and the station times, with what each change must keep. */
export class Arrangement {
  readonly stationOf: Int32Array;
  readonly loads: number[];
  /** Tasks at each station. */
  readonly counts: Int32Array;
  readonly after: readonly (readonly number[])[];
  /** How often the rules were asked. */
  asked = 0;

  constructor(
    readonly times: readonly number[],
    readonly before: readonly (readonly number[])[],
    plan: Stations,
    private readonly rules: PlanRules | null = null,
  ) {
    this.after = directFollowers(before);
    this.stationOf = new Int32Array(times.length);
    this.counts = Int32Array.from(plan, (tasks) => tasks.length);
    this.loads = plan.map((tasks) => tasks.reduce((sum, task) => sum + times[task]!, 0));
    for (const [station, tasks] of plan.entries()) for (const task of tasks) this.stationOf[task] = station;
  }

  get longest(): number {
    return this.loads.reduce((most, each) => Math.max(most, each), 0);
  }

  /** The first station that may hold the task, by where the tasks before it stand. */
  earliest(task: number): number {
    let station = 0;
    for (const earlier of this.before[task]!) station = Math.max(station, this.stationOf[earlier]!);
    return station;
  }

  /** The last station that may hold the task, by where the tasks after it stand. */
  latest(task: number): number {
    let station = this.loads.length - 1;
    for (const later of this.after[task]!) station = Math.min(station, this.stationOf[later]!);
    return station;
  }

  /** Whether what else is asked of the plan is kept after changes at these stations. */
  keepsRules(one: number, two: number): boolean {
    if (this.rules === null) return true;
    this.asked++;
    return this.rules(this.stationOf, [one, two]);
  }

  place(task: number, station: number): void {
    const from = this.stationOf[task]!;
    this.stationOf[task] = station;
    this.loads[from]! -= this.times[task]!;
    this.loads[station]! += this.times[task]!;
    this.counts[from]!--;
    this.counts[station]!++;
  }

  /** Puts every task at the station given for it. */
  arrange(stationOf: Int32Array): void {
    this.loads.fill(0);
    this.counts.fill(0);
    for (const [task, station] of stationOf.entries()) {
      this.stationOf[task] = station;
      this.loads[station]! += this.times[task]!;
      this.counts[station]!++;
    }
  }

  plan(): number[][] {
    const stations: number[][] = this.loads.map(() => []);
    for (const [task, station] of this.stationOf.entries()) stations[station]!.push(task);
    return stations;
  }
}
