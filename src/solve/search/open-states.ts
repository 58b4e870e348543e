import { LevelHeaps } from "./level-heaps.js";
import type { StateStore } from "./state-store.js";

/**
 * Partial plans that wait to be extended, taken in turn by stations used: the best with 0 stations, with 1, with 2, ...,
 * then from 0 again (cyclic best-first search: Morrison, Sewell & Jacobson 2014). So the search dives to whole plans at
 * once and still meets the most promising partial plans of every length first.
 */
export class OpenStates {
  private readonly heaps: LevelHeaps;
  private level = 0;
  private deferred: number[] = [];

  constructor(
    private readonly store: StateStore,
    mostStations: number,
  ) {
    this.heaps = new LevelHeaps(mostStations + 1);
  }

  /** The smaller the key, the sooner the state is taken. */
  push(state: number, key: number): void {
    this.heaps.push(this.store.positions[state]!, state, key);
  }

  /** The next state with fewer than `target` stations; -1 when there is none. Begins at 0 stations after `restart`. */
  next(target: number): number {
    for (let tries = 0; tries < target; tries++) {
      const level = this.level % target;
      this.level = level + 1;
      const state = this.pop(level);
      if (state >= 0) return state;
    }
    return -1;
  }

  /** States dominated by another since they were pushed are skipped. */
  private pop(level: number): number {
    let state = this.heaps.pop(level);
    while (state >= 0 && this.store.dropped[state] === 1) state = this.heaps.pop(level);
    return state;
  }

  restart(): void {
    this.level = 0;
  }

  /** Puts a state aside until `resume`. */
  defer(state: number): void {
    this.deferred.push(state);
  }

  /** Opens again what was put aside; false when nothing was. */
  resume(): boolean {
    for (const state of this.deferred) this.push(state, 0);
    const some = this.deferred.length > 0;
    this.deferred = [];
    return some;
  }
}
