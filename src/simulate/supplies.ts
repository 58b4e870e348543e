import type { Micros } from "../time/duration.js";
import { BenchLine, type BenchRun } from "./bench-line.js";
import type { RunBench } from "./bench-of-run.js";
import type { Stream } from "./draw-times.js";
import { PartContainers, type RunPart } from "./part-containers.js";
import type { Window } from "./window.js";

/** What units of the line wait for at its stations until it is there. */
export class Supplies {
  private readonly benches: readonly { readonly bench: RunBench; readonly line: BenchLine }[];
  /** Units in the line that have their set of each bench; a unit that comes again has its parts already. */
  private readonly has: readonly Set<number>[];

  private readonly parts: readonly { readonly part: RunPart; readonly containers: PartContainers }[];

  /** @param areSentBack units may come to a station again */
  constructor(
    benches: readonly RunBench[],
    parts: readonly RunPart[],
    streams: readonly Stream[],
    window: Window,
    private readonly areSentBack: boolean,
  ) {
    this.benches = benches.map((bench, at) => ({ bench, line: new BenchLine(bench, streams[at]!, window) }));
    this.has = benches.map(() => new Set());
    this.parts = parts.map((part) => ({ part, containers: new PartContainers(part, window) }));
  }

  /** When a unit that comes to a station has all that it needs there. */
  readyAt(station: number, unit: number, now: Micros, due: Uint8Array | null): Micros {
    let ready = now;
    for (const [at, { bench, line }] of this.benches.entries()) {
      if (bench.joins !== station || !bench.carries(unit) || this.has[at]!.has(unit)) continue;
      if (this.areSentBack) this.has[at]!.add(unit);
      ready = Math.max(ready, line.take(now));
    }
    for (const { part, containers } of this.parts)
      if (part.station === station) ready = Math.max(ready, containers.take(now, part.pieces(unit, due)));
    return ready;
  }

  /** The unit has left the line. */
  forget(unit: number): void {
    for (const each of this.has) each.delete(unit);
  }

  benchRuns(): BenchRun[] {
    return this.benches.map(({ line }) => line.end());
  }

  /** How long units waited for each part. */
  partsWaited(): number[] {
    return this.parts.map(({ containers }) => containers.waited);
  }
}
