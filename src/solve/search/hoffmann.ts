import { addTask } from "./bit-sets.js";
import { FullLoads } from "./full-loads.js";
import type { Instance } from "./instance.js";

/**
 * Fills one station after the other with the best of its full loads (Hoffmann 1963). Best is the load with the
 * largest sum, over its tasks, of time + `share` x positional weight (Sewell & Jacobson 2012); a share of 0 looks for
 * the least idle time alone. Walks no more than MOST_STEPS steps through the loads of a station, and looks
 * at `mostNodes` loads in all.
 */
export class Hoffmann {
  /** Full loads and steps of walks looked at so far. */
  nodes = 0;
  steps = 0;
  private readonly loads: FullLoads;
  private readonly best: Int32Array;
  private bestCount = 0;

  constructor(
    private readonly instance: Instance,
    private readonly mostNodes: number,
  ) {
    this.loads = new FullLoads(instance, new Int32Array(instance.size).fill(NEVER_DUE));
    this.best = new Int32Array(instance.size);
  }

  /**
   * Stations for all tasks outside `set` that leave no more than `mostIdle` idle in all, in the instance's task
   * numbers; null when it finds none.
   */
  fill(set: Int32Array, mostIdle: number, share: number): number[][] | null {
    const filled = set.slice();
    const stations: number[][] = [];
    for (let idle = mostIdle; ; ) {
      this.loads.start(filled, 0, 0, idle);
      if (this.loads.readyCount === 0) return stations;
      if (!this.chooseLoad(share)) return null;
      const load = Array.from(this.best.subarray(0, this.bestCount));
      idle -= load.reduce((room, task) => room - this.instance.times[task]!, this.instance.limit);
      for (const task of load) addTask(filled, 0, task);
      stations.push(load);
    }
  }

  private chooseLoad(share: number): boolean {
    const { loads, best } = this;
    let bestValue = -1;
    while (this.nodes < this.mostNodes && loads.advance(MOST_STEPS) === "load") {
      this.nodes++;
      const value = this.value(share);
      if (value <= bestValue) continue;
      bestValue = value;
      this.bestCount = loads.count;
      for (let at = 0; at < loads.count; at++) best[at] = loads.load[at]!;
      if (share === 0 && loads.room === 0) break;
    }
    this.steps += loads.steps;
    return bestValue >= 0;
  }

  private value(share: number): number {
    const { times, weights } = this.instance;
    let value = 0;
    for (let at = 0; at < this.loads.count; at++) {
      const task = this.loads.load[at]!;
      value += times[task]! + share * weights[task]!;
    }
    return value;
  }
}

const MOST_STEPS = 2000;
const NEVER_DUE = 0x7fffffff;
