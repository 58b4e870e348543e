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
  /** People in all at a time: of line and benches, and for repairs. */
  readonly peopleBefore: number | null;
  readonly peopleAfter: number | null;
  /** Whether the balance after the change is proved least; null where there is none. */
  readonly outcome: "proved" | "found" | null;
  /** People freed by it; below 0 where it costs some, null where there is no balance to compare. */
  readonly freed: number | null;
  /** What it does, in a sentence or two; for a task over a limit the answers that exist, each with its number. */
  readonly reason: string;
  /** The answers of the reason one by one, for a task over a limit. */
  readonly answers?: readonly LongAnswer[];
  /** What the reason says beyond the figures above: bench, load, what is not certain. */
  readonly details: string;
}

/** One answer to a task over a limit. */
export interface LongAnswer {
  readonly words: string;
  /** It helps all such tasks of the line at once, and is the same for each. */
  readonly isJoint: boolean;
}

export const ownAnswer = (words: string): LongAnswer => ({ words, isJoint: false });
export const jointAnswer = (words: string): LongAnswer => ({ words, isJoint: true });

/** All of the answers in one text. */
export const reasonOf = (answers: readonly LongAnswer[]): string =>
  answers.map(({ words }) => words).join("; ");
