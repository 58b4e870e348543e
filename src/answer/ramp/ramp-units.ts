import { benchesOfPlan, lineBeside } from "../../benches/bench-of-plan.js";
import type { LearnedLine } from "../../line/learned-line.js";
import type { Line } from "../../line/line.js";
import { postsAt } from "../../plan/check/check-subject.js";
import { cycleOfPlan, cycleOfPost, type HeldBy, heldBy, slowestPost } from "../../plan/figures/cycle.js";
import { heldCycle } from "../../plan/figures/held-cycle.js";
import { handsLacking, handsMissing } from "../../plan/figures/people.js";
import { workContent } from "../../plan/figures/work-content.js";
import { stationTime } from "../../plan/figures/working-time.js";
import type { Plan } from "../../plan/plan.js";
import { type Post, postsOf } from "../../plan/post.js";
import type { Pace } from "../../time/pace.js";
import { compare, type Ratio } from "../../time/ratio.js";
import type { PlanAtUnit } from "./ramp-answer.js";

/** A plan while it builds units of one kind: those on which every task takes the same time. */
export interface StretchOfUnits extends PlanAtUnit {
  /** The first and the last unit of the batch. */
  readonly from: number;
  readonly to: number;
  /** By post, people that it lacks, or below 0 that it has to spare, in parts of a person; 0 where more hands would not help. */
  readonly lacks: readonly Ratio[];
  /** By post, what holds it up where it does not keep the pace and more hands do not help. */
  readonly heldBy: readonly (HeldBy | null)[];
  /** Person-time of one unit, in microseconds. */
  readonly work: Ratio;
}

/** The stations of a plan and then those of its benches as posts, at the times of a line. */
export const allPosts = (line: Line, pace: Pace, plan: Plan): Post[] => [
  ...postsOf(lineBeside(line, plan), pace, plan),
  ...postsAt(benchesOfPlan(line, pace, plan)),
];

/** The cycle of a plan with its benches, and how often a good unit comes, at the times of a line, in microseconds. */
export function cyclesOf(
  line: Line,
  plan: Plan,
  posts: readonly Post[],
): Pick<PlanAtUnit, "cycle" | "outputCycle"> {
  const cycle = cycleOfPlan(posts);
  return { cycle, outputCycle: heldCycle(lineBeside(line, plan), plan, cycle) };
}

/** A batch as stretches of units, in order: each unit by itself while times fall, then all that are left. */
export function* stretchesOfBatch(
  learned: LearnedLine,
  pace: Pace,
  plan: Plan,
  units: number,
): Generator<StretchOfUnits> {
  const settled = Math.min(units, learned.settlesAt ?? units);
  for (let unit = 1; unit < settled; unit++) yield stretchOf(learned.at(unit), pace, plan, unit, unit);
  yield stretchOf(learned.at(settled), pace, plan, settled, units);
}

function stretchOf(line: Line, pace: Pace, plan: Plan, from: number, to: number): StretchOfUnits {
  const posts = allPosts(line, pace, plan);
  const cycles = posts.map(cycleOfPost);
  return {
    from,
    to,
    ...cyclesOf(line, plan, posts),
    slowest: posts.length === 0 ? null : slowestPost(posts).id,
    times: posts.map(stationTime),
    cycles,
    overPace: cycles.filter((cycle) => compare(cycle, pace.lineCycle) > 0).length,
    extraHands: handsMissing(posts, pace.lineCycle),
    lacks: posts.map((post) => handsLacking(post, pace.lineCycle)),
    heldBy: posts.map((post) => heldBy(post, pace.lineCycle)),
    work: workContent(posts),
  };
}
