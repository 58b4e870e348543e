import type { Ratio } from "../../time/ratio.js";
import type { Station } from "../plan.js";

/** A bench of a plan beside its line; times for one unit of the line, in microseconds. */
export interface BenchLoad {
  readonly bench: Station;
  /** Work, with what handing over takes. */
  readonly work: Ratio;
  /** The same for every person of the crew. */
  readonly personTime: Ratio;
  /** At a time, and over all shifts of a day. */
  readonly people: number;
  readonly peopleOfDay: number;
  /** How often it can deliver for one unit. */
  readonly cycle: Ratio;
  /** The time that its places have for one unit when the line works at that line cycle. */
  workingTime(lineCycle: Ratio): Ratio;
}
