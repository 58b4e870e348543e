import type { Micros } from "../time/duration.js";
import type { RunLine } from "./watched-line.js";

/** When units may go to stations before which they have to wait, as between glue and what is put on it. */
export class WaitsBetween {
  /** By station, of each unit. */
  private readonly readyAt: readonly Map<number, Micros>[];

  constructor(private readonly line: RunLine) {
    this.readyAt = line.stations.map(() => new Map());
  }

  /**
   * A station is done with a unit: waits that follow its work begin.
   *
   * @param due by task of the line: 1 where it was done there; null where all were
   */
  begin(station: number, unit: number, now: Micros, due: Uint8Array | null): void {
    const { sequence, stations, hours } = this.line;
    for (const { station: later, after, everies, byModel } of stations[station]!.waits) {
      if (due !== null && due[after] === 0) continue;
      if (everies.some((every) => unit % every !== every - 1)) continue;
      const ready = this.readyAt[later]!;
      const wait = byModel[sequence[unit % sequence.length]!]!;
      const until = hours === null ? now + wait : hours.unattendedUntil(now, wait);
      ready.set(unit, Math.max(until, ready.get(unit) ?? 0));
    }
  }

  /** When the unit that is to go to the station may; asked once. */
  end(station: number, unit: number): Micros {
    const until = this.readyAt[station]!.get(unit);
    if (until === undefined) return 0;
    this.readyAt[station]!.delete(unit);
    return until;
  }

  /** The unit has left the line. */
  forget(unit: number): void {
    for (const ready of this.readyAt) ready.delete(unit);
  }
}
