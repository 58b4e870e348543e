/** Something worth looking at beside the line, with what it changes; every after-figure comes from a verified balance. */
export interface OffLineFlag {
  readonly kind: "over-limit" | "block";
  /** Task ids, in order of work. */
  readonly tasks: readonly string[];
  /** Id of the task that waits for the block; null where nothing joins. */
  readonly joinsAt: string | null;
  /** Stations of the line, without benches; null where there is no such balance. */
  readonly stationsBefore: number | null;
  readonly stationsAfter: number | null;
  /** People of line and benches together. */
  readonly peopleBefore: number | null;
  readonly peopleAfter: number | null;
  /** Whether the balance after the change is proved least; null where there is none. */
  readonly outcome: "proved" | "found" | null;
  /** People freed by it; below 0 where it costs some, null where there is no balance to compare. */
  readonly freed: number | null;
  /** What it does, in a sentence or two; for a task over a limit the answers that exist, each with its number. */
  readonly reason: string;
  /** What the reason says beyond the figures above: bench, load, what is not certain. */
  readonly details: string;
}
