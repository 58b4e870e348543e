import type { Line } from "../../line/line.js";
import { repairsPerGoodUnit } from "../../line/visits.js";
import { heldCycle } from "../../plan/figures/held-cycle.js";
import {
  outputByShift,
  outputOfDay,
  outputPerShift,
  type ShiftOutput,
  unitsPerHour,
} from "../../plan/figures/output.js";
import { peopleOf } from "../../plan/figures/people.js";
import { repairPeople } from "../../plan/figures/repairs.js";
import { verifyPlan } from "../../plan/verify-plan.js";
import type { FixedStations } from "../../solve/fix-stations.js";
import type { Pace } from "../../time/pace.js";
import { divide, ONE, type Ratio, ratio, subtract } from "../../time/ratio.js";

/** What so many stations can give; times in microseconds. */
export interface StationsRate {
  readonly stations: number;
  /** People on the line. */
  readonly operators: number;
  /** The same and who repairs beside it. */
  readonly people: number;
  /** The cycle at which the plan is worked: that of its slowest station, or a longer one that models or machines need. */
  readonly cycleOfPlan: Ratio;
  /** No plan with so many stations has a shorter cycle. */
  readonly cycleBound: Ratio;
  readonly outcome: "proved" | "found";
  /** A shorter cycle is at most one part in so many shorter; null where that is not proved, or there is none at all. */
  readonly within: bigint | null;
  /** Good units per hour of available time; null for a line without work. */
  readonly unitsPerHour: Ratio | null;
  /** Good units per hour of one of these people: whether the same people would give more with another number of stations. */
  readonly unitsPerPersonHour: Ratio | null;
  /** Whole good units; null without a calendar, or where shifts differ. */
  readonly outputPerShift: number | null;
  /** Whole good units of each shift; null without a calendar. */
  readonly outputByShift: readonly ShiftOutput[] | null;
  /** Of all shifts; null without a calendar. */
  readonly outputPerDay: number | null;
}

/** The pace that a plan sets itself: the line cycle of its slowest station, or what models or machines need, with no reserve. */
export function paceFromPlan(fixed: FixedStations, handling: number, takt: Ratio | null): Pace {
  const workingTime = subtract(fixed.cycle, ratio(handling));
  return { takt, lineCycle: fixed.cycle, handling, planTo: ONE, workingTime, stationLimit: workingTime };
}

/** The rates of a plan that the verifier has passed. */
export function rateStations(line: Line, fixed: FixedStations): StationsRate {
  const { plan } = fixed;
  const pace = paceFromPlan(fixed, line.handling, null);
  const faults = verifyPlan(line, pace, plan, true);
  if (faults.length > 0) throw new Error(`the verifier refused a plan: ${faults[0]!.message}`);
  const operators = peopleOf(plan);
  const people = operators + (repairPeople(line, pace, repairsPerGoodUnit(line)) ?? 0);
  const cycle = heldCycle(line, plan, pace.lineCycle);
  const byShift = outputByShift(line, cycle);
  const perHour = unitsPerHour(line, cycle);
  return {
    stations: plan.stations.length,
    operators,
    people,
    cycleOfPlan: pace.lineCycle,
    cycleBound: fixed.cycleBound,
    outcome: fixed.proved ? "proved" : "found",
    within: fixed.within,
    unitsPerHour: perHour,
    unitsPerPersonHour: perHour && divide(perHour, ratio(people)),
    outputPerShift: outputPerShift(line, cycle),
    outputByShift: byShift,
    outputPerDay: byShift && outputOfDay(byShift),
  };
}
