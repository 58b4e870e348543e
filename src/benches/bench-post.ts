import type { Line } from "../line/line.js";
import { handlingAt } from "../line/passes.js";
import { cycleWithReserve } from "../plan/figures/cycle.js";
import { personTime } from "../plan/figures/person-time.js";
import type { Post } from "../plan/post.js";
import type { Pace } from "../time/pace.js";
import { add, divide, larger, multiply, type Ratio, ratio, ZERO } from "../time/ratio.js";
import type { BenchHours } from "./bench-hours.js";
import { machinesAt } from "./bench-machines.js";
import type { BenchStation } from "./bench-stations.js";

/** How a bench works, as its posts need it. */
export interface BenchAtWork {
  readonly hours: BenchHours;
  /** Share of the units that carry the parts. */
  readonly share: Ratio;
  /** Time for the hand-over at its last station, in microseconds. */
  readonly handOver: number;
}

/** Time between two units' parts = line cycle x hours / share, in microseconds. */
export const taktOfBench = (pace: Pace, { hours, share }: Pick<BenchAtWork, "hours" | "share">): Ratio =>
  divide(multiply(pace.lineCycle, hours.ofLine), share);

/**
 * A station of a bench as a post.
 *
 * @param line with loads that are means over all units, as `countShares` gives them
 */
export function benchPost(
  line: Line,
  pace: Pace,
  at: BenchAtWork,
  { tasks, work, crew }: BenchStation,
  { id, places, isLast }: { readonly id: string; readonly places: number; readonly isLast: boolean },
): Post {
  const { hours, share } = at;
  const ofTasks = divide(personTime(line, tasks), share);
  const setUp = { stations: [{ tasks }], places, takt: taktOfBench(pace, at), share };
  return {
    id,
    kind: "bench",
    tasks,
    places,
    crew,
    busy: work,
    personTime: isLast ? add(ofTasks, ratio(at.handOver)) : ofTasks,
    handling: handlingAt(line, pace, tasks, share),
    planTo: pace.planTo,
    machines: machinesAt(line, pace, setUp).flatMap(({ name, busy, units }) =>
      name !== null && line.equipment.has(name) ? [{ name, busy, units }] : [],
    ),
    hours: hours.ofLine,
    shifts: hours.shifts,
    share,
  };
}

/** Places that keep the pace, in parts of one, where each of these posts has one place: what fills them most, its reserve kept. */
export const placesToKeep = (posts: readonly Post[], { lineCycle }: Pace): Ratio =>
  divide(posts.map(cycleWithReserve).reduce(larger, ZERO), lineCycle);
