import type { Finding } from "../findings/finding.js";
import type { Line } from "../line/line.js";
import type { Pace } from "../time/pace.js";
import type { Plan } from "./plan.js";
import { checkBenches } from "./verify/benches.js";
import { checkDwell } from "./verify/dwell.js";
import { checkEquipment } from "./verify/equipment.js";
import type { Check } from "./verify/fault.js";
import { checkApart, checkTogether } from "./verify/groups.js";
import { checkKeepPace } from "./verify/keep-pace.js";
import { checkLimits } from "./verify/limits.js";
import { checkLoads } from "./verify/loads.js";
import { checkModelOverload } from "./verify/model-loads.js";
import { checkPrecedence, checkStationOrder, checkWaits } from "./verify/order.js";
import { checkPersons } from "./verify/persons.js";
import { checkFixedStations, checkZones } from "./verify/places-to-stand.js";
import { viewPlan } from "./verify/plan-view.js";
import { checkSides } from "./verify/sides.js";
import { checkSkills } from "./verify/skills.js";
import { checkCrew, checkPlaces } from "./verify/staffing.js";
import { checkTaskOnce } from "./verify/task-once.js";

/** Every rule that a plan must keep, in the order in which faults are told. */
const CHECKS: readonly Check[] = [
  checkTaskOnce,
  checkStationOrder,
  checkPrecedence,
  checkBenches,
  checkLoads,
  checkKeepPace,
  checkDwell,
  checkFixedStations,
  checkZones,
  checkEquipment,
  checkSkills,
  checkTogether,
  checkApart,
  checkLimits,
  checkWaits,
  checkPlaces,
  checkCrew,
  checkSides,
  checkPersons,
  checkModelOverload,
];

/**
 * Judges a plan by the line file alone, in whole-number arithmetic of its own: it shares nothing with the solvers or
 * the figures, so that it cannot repeat their mistakes. Returns one finding a fault; none means the plan holds.
 *
 * @param strictLimit no task may exceed the station limit, not even alone
 */
export function verifyPlan(line: Line, pace: Pace, plan: Plan, strictLimit: boolean): Finding[] {
  const view = viewPlan(line, pace, plan, strictLimit);
  return CHECKS.flatMap((check) => check(view));
}

/** The rules that a plan may keep at one pace and break at another, or with longer task times. */
const CHECKS_OF_PACE: readonly Check[] = [
  checkLoads,
  checkKeepPace,
  checkDwell,
  checkEquipment,
  checkLimits,
  checkModelOverload,
];

/** Judges a plan, or some of its stations, by these rules alone. */
export function verifyAtPace(line: Line, pace: Pace, plan: Plan, strictLimit: boolean): Finding[] {
  const view = viewPlan(line, pace, plan, strictLimit);
  return CHECKS_OF_PACE.flatMap((check) => check(view));
}

/** Judges a plan by the same rules, loads left out: those are held against more than the station limit. */
export function verifyRules(line: Line, pace: Pace, plan: Plan): Finding[] {
  const view = viewPlan(line, pace, plan, false);
  return CHECKS.filter((check) => check !== checkLoads).flatMap((check) => check(view));
}

/** Judges by one rule alone whether each task is in a plan once: what a plan that lists a task again breaks besides means little. */
export function verifyTasksOnce(line: Line, pace: Pace, plan: Plan): readonly Finding[] {
  return checkTaskOnce(viewPlan(line, pace, plan, false));
}
