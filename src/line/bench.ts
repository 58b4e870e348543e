import type { Place } from "../findings/finding.js";
import type { Micros } from "../time/duration.js";
import type { Ratio } from "../time/ratio.js";

/** A bench beside the line, where parts of the unit may be built; times in microseconds. */
export interface Bench {
  readonly id: string;
  /** Task numbers, ascending; one or more, each at this bench only. */
  readonly tasks: readonly number[];
  /** Shifts of a day that it works; null: those of the line. */
  readonly shifts: number | null;
  /** Its stations one after another; at 1 each place builds the whole. */
  readonly stations: number;
  /** Share of the units that carry what is built there. */
  readonly share: Ratio;
  /** Pieces for one unit; null where the file is silent. */
  readonly pieces: number | null;
  /** Per unit, worked at the bench. */
  readonly handOver: Micros;
  /** Per unit, worked at each task where the parts join. */
  readonly takeOver: Micros;
  /** Units' parts that find room between bench and line; null where the file is silent. */
  readonly space: number | null;
  /** The longest stop of the bench that the line is to ride through; 0 for none. */
  readonly stop: Micros;
  /** Units with these parts that may follow each other without a gap; 1 for none. */
  readonly bunch: number;
  readonly place: Place;
}
