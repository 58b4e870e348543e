import type { Line } from "../../line/line.js";
import type { Pace } from "../../time/pace.js";
import type { Ratio } from "../../time/ratio.js";
import type { PlanReading } from "../file/read-plan.js";
import type { PlanMeasures } from "../measure.js";
import type { Plan, Station } from "../plan.js";
import type { Post } from "../post.js";

/** How few stations a line can do with: none has fewer than `bound`, and a plan of `found` exists. */
export interface KnownLeast {
  readonly bound: number;
  readonly found: number;
}

/** A bench of a plan beside its line, with a post for each of its stations; times for one unit of the line, in microseconds. */
export interface BenchOfPlan {
  readonly bench: Station;
  readonly posts: readonly Post[];
  /** Station time of all its stations, with what handing over takes. */
  readonly work: Ratio;
  readonly workingTime: Ratio;
  /** At a time. */
  readonly people: number;
}

export const postsAt = (benches: readonly BenchOfPlan[]): Post[] => benches.flatMap(({ posts }) => posts);

/** A plan that could be read, beside everything that it is checked against. */
export interface CheckSubject {
  /** With what taking parts over from benches adds to its tasks. */
  readonly line: Line;
  readonly pace: Pace;
  /** With every task at its first place only. */
  readonly plan: Plan;
  readonly reading: PlanReading;
  readonly benches: readonly BenchOfPlan[];
  /** Over all people; null where the plan misses a task. */
  readonly measures: PlanMeasures | null;
  /** Null where it was not asked for or not found. */
  readonly least: KnownLeast | null;
  /** Fingerprints of the line file as it is. */
  readonly fingerprints: readonly string[];
  /** The line file as seen from the plan file; null where one of them is no file. */
  readonly lineFile: string | null;
}
