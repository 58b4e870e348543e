import type { Line } from "../line/line.js";
import { handlingAt } from "../line/passes.js";
import { cycleWithReserve } from "../plan/figures/cycle.js";
import { unitsFor } from "../plan/figures/machines.js";
import { personTime } from "../plan/figures/person-time.js";
import { ONE_PERSON } from "../plan/plan.js";
import type { Post } from "../plan/post.js";
import { dwellAt } from "../plan/station-schedule.js";
import type { Pace } from "../time/pace.js";
import { add, divide, larger, multiply, type Ratio, ZERO } from "../time/ratio.js";
import type { BenchHours } from "./bench-hours.js";
import { heldAtBench } from "./bench-machines.js";
import type { BenchStation } from "./bench-stations.js";

/** How a bench works, as its posts need it. */
export interface BenchAtWork {
  readonly hours: BenchHours;
  /** Share of the units that carry the parts. */
  readonly share: Ratio;
  /** Time for the hand-over at its last station, for each good unit that carries the parts, in microseconds. */
  readonly handOver: Ratio;
  /** Units' parts that may stand at one place at a time. */
  readonly holds: number;
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
  const { hours, share, holds } = at;
  const handOver = isLast ? at.handOver : ZERO;
  const takt = taktOfBench(pace, at);
  return {
    id,
    kind: "bench",
    tasks,
    places,
    crew,
    busy: work,
    personTime: add(divide(personTime(line, tasks), share), handOver),
    handling: handlingAt(line, pace, tasks, share),
    planTo: pace.planTo,
    dwell: add(divide(dwellAt(line, { ...ONE_PERSON, id, tasks }), share), handOver),
    holds,
    equipment: heldAtBench(line, tasks, share)
      .filter(({ name }) => line.equipment.has(name))
      .map(({ name, held }) => ({ name, held, units: Math.max(places, unitsFor(held, takt)) })),
    hours: hours.ofLine,
    shifts: hours.shifts,
    share,
  };
}

/** Places that keep the pace, in parts of one, where each of these posts has one place: what fills them most, its reserve kept, or has units stand there longest. */
export const placesToKeep = (posts: readonly Post[], { lineCycle }: Pace): Ratio =>
  divide(posts.map(cycleWithReserve).reduce(larger, ZERO), lineCycle);
