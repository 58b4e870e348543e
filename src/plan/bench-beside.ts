import type { Micros } from "../time/duration.js";
import type { Ratio } from "../time/ratio.js";
import type { Station } from "./plan.js";
import type { Post } from "./post.js";

/** A bench of a plan to be followed set by set of parts; plain data. */
export interface BenchBeside {
  readonly id: string;
  /** In order of work, each with its places; the last one hands over. */
  readonly stations: readonly Station[];
  /** What the line counts of the equipment at each of them. */
  readonly equipment: readonly Post["equipment"][];
  /** Shifts a day; null: those of the line. */
  readonly shifts: number | null;
  /** Tasks of the line that the parts join at. */
  readonly joinsAt: readonly number[];
  /** Share of the units that carry the parts, where no times by model say which do. */
  readonly share: Ratio;
  /** Models of the units that carry them; null: any. */
  readonly models: readonly number[] | null;
  /** Of one set of parts, in microseconds; worked at the last station. */
  readonly handOver: Micros;
  /** Units' parts that may stand at one place at a time. */
  readonly holds: number;
  /** Units' parts that find room before the line, 1 or more, as stated or as its hours, `stop` and `bunch` ask for at the pace. */
  readonly room: number;
  readonly isRoomStated: boolean;
  /** Units' parts that lie there at the start. */
  readonly start: number;
}
