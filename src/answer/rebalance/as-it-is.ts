import type { Line } from "../../line/line.js";
import { cycleOfPlan } from "../../plan/figures/cycle.js";
import { heldCycle } from "../../plan/figures/held-cycle.js";
import {
  outputByShift,
  outputOfDay,
  outputPerShift,
  type ShiftOutput,
  shiftTime,
} from "../../plan/figures/output.js";
import type { Plan } from "../../plan/plan.js";
import { postsOf } from "../../plan/post.js";
import type { Pace } from "../../time/pace.js";
import { compare, divide, multiply, type Ratio, ratio, subtract, ZERO } from "../../time/ratio.js";

/** What today's plan does at a new pace when nobody moves; times in microseconds. */
export interface AsItIs {
  readonly cycleOfPlan: Ratio;
  /** How often a good unit comes at the best: the same, or more where waits hold the line up. */
  readonly outputCycle: Ratio;
  /** That / line cycle: above 1 the plan is too slow. */
  readonly shareOfPace: Ratio;
  /** Whole good units of a shift; null without a calendar, or where shifts differ. */
  readonly outputPerShift: number | null;
  /** Whole good units of each shift; null without a calendar. */
  readonly outputByShift: readonly ShiftOutput[] | null;
  /** Of all shifts; null without a calendar. */
  readonly outputPerDay: number | null;
  /** What a shift must work to meet the demand with this plan: its available time x that share. */
  readonly timeNeeded: Ratio | null;
  /** Overtime a shift, below 0 where the shift may end sooner. */
  readonly overtime: Ratio | null;
}

/** A plan whose tasks are all on the line: overtime in place of moves, or shorter hours where demand falls. */
export function asItIs(line: Line, pace: Pace, plan: Plan): AsItIs {
  const ownCycle = cycleOfPlan(postsOf(line, pace, plan));
  const cycle = heldCycle(line, plan, ownCycle);
  const shareOfPace = compare(pace.lineCycle, ZERO) > 0 ? divide(cycle, pace.lineCycle) : ZERO;
  const byShift = outputByShift(line, cycle);
  const available = pace.takt === null ? null : shiftTime(line);
  const timeNeeded = available === null ? null : multiply(ratio(available), shareOfPace);
  return {
    cycleOfPlan: ownCycle,
    outputCycle: cycle,
    shareOfPace,
    outputPerShift: outputPerShift(line, cycle),
    outputByShift: byShift,
    outputPerDay: byShift && outputOfDay(byShift),
    timeNeeded,
    overtime: available === null || timeNeeded === null ? null : subtract(timeNeeded, ratio(available)),
  };
}
