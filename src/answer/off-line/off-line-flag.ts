import type { Ratio } from "../../time/ratio.js";
import type { LongAnswer } from "../long-tasks/long-answer.js";

/** What a change takes off the line or puts beside it; every after-figure comes from a verified balance. */
interface Changes {
  /** Task ids, in order of work. */
  readonly tasks: readonly string[];
  /** Stations of the line, without benches; null where there is no such balance. */
  readonly stationsBefore: number | null;
  readonly stationsAfter: number | null;
  /** People in all at a time: of line and benches, and for repairs. */
  readonly peopleBefore: number | null;
  readonly peopleAfter: number | null;
  /** Whether the balance after the change is proved least; null where there is none. */
  readonly outcome: "proved" | "found" | null;
}

/** A task over a limit, with the answers that exist. */
export interface LongTaskFlag extends Changes {
  readonly kind: "over-limit";
  readonly joinsAt: null;
  readonly answers: readonly LongAnswer[];
}

/** A block worth building at a bench. */
export interface BlockFlag extends Changes {
  readonly kind: "block";
  /** Id of the task that waits for the block. */
  readonly joinsAt: string;
  readonly stationsAfter: number;
  readonly peopleAfter: number;
  readonly outcome: "proved" | "found";
  /** People before and after as `off-line` compares them: of a day where some bench works other shifts than the line. */
  readonly counted: { readonly before: number; readonly after: number; readonly isOfDay: boolean } | null;
  /** People freed by it, so counted; below 0 where it costs some, null where there is no balance to compare. */
  readonly freed: number | null;
  readonly bench: {
    /** Time of one unit, in microseconds. */
    readonly work: Ratio;
    readonly places: number;
    /** The share of the bench limit that this takes. */
    readonly load: Ratio;
  };
  /** The stations before are not proved least, so that the change is not certain. */
  readonly isDoubted: boolean;
  /** No task says that it works on the base unit. */
  readonly isGuess: boolean;
}

/** Something worth looking at beside the line, with what it changes. */
export type OffLineFlag = LongTaskFlag | BlockFlag;
