import { tells } from "../../findings/finding.js";
import { compareNaturally } from "../../findings/natural-order.js";
import { findOtherLine } from "../file/find-other-line.js";
import type { PlanMeasures, StationMeasures } from "../measure.js";
import { measurePlan, measureStations } from "../measure.js";
import { builtSequence, levelledSequence } from "../models/levelled-sequence.js";
import { checkEmptyStations } from "./check-empty-stations.js";
import { findHands } from "./check-hands.js";
import { checkFloor, checkKeptRules, checkListedTwice } from "./check-kept-rules.js";
import { checkLoads } from "./check-loads.js";
import { findUnnamed } from "./check-named.js";
import { checkOrigin } from "./check-origin.js";
import { findPeaks } from "./check-peaks.js";
import { checkPolicy } from "./check-policy.js";
import { rankOfRule } from "./check-rules.js";
import { findSpacing } from "./check-spacing.js";
import { type CheckSubject, postsAt } from "./check-subject.js";
import { findSlowingWaits } from "./check-waits.js";
import { eachTaskOnce } from "./each-task-once.js";
import { type PlanFinding, planFinding } from "./plan-finding.js";

/** A plan after its check. */
export interface CheckedPlan {
  readonly stations: readonly StationMeasures[];
  /** Over all people; null where the plan misses a task. */
  readonly measures: PlanMeasures | null;
  /** Everything wrong with the plan, and everything that is not known of it: by rule, then station, then task. */
  readonly findings: readonly PlanFinding[];
}

/** Checks a plan against its line as it is now: every fault in one run. A task that is listed twice counts at its first place. */
export function checkPlan(given: Omit<CheckSubject, "measures">): CheckedPlan {
  const { line, pace, benches, reading } = given;
  const plan = eachTaskOnce(line, given.plan);
  const twice = checkListedTwice({ ...given, plan: reading.plan ?? given.plan, measures: null });
  const kept = [...twice, ...checkKeptRules({ ...given, plan, measures: null })];
  const isWhole = !kept.some((each) => tells(each, "missing-task"));
  const measures = isWhole ? measurePlan(line, pace, plan, postsAt(benches)) : null;
  const subject = { ...given, plan, measures };
  const findings = [
    ...reading.findings.map(planFinding),
    ...kept,
    ...checkLoads(subject),
    ...(line.spacings.length === 0 ? [] : findSpacing(line, levelledSequence(line, pace, plan))),
    ...findPeaks(line, pace, plan, builtSequence(line, pace, plan)),
    ...findHands(line, pace, plan),
    ...findSlowingWaits(line, pace, plan),
    ...findUnnamed(line, plan),
    ...checkPolicy(subject),
    ...checkEmptyStations(subject),
    ...checkFloor(subject),
    ...checkOrigin(subject),
  ];
  // Beside that nothing else is worth telling.
  const other = findOtherLine(line, reading);
  const told = other === null ? inOrder(findings, plan) : [planFinding(other)];
  return { stations: measureStations(line, pace, plan), measures, findings: told };
}

/** By rule, then station in order of flow, then task, then place in the file. */
export function inOrder(findings: readonly PlanFinding[], { stations, benches = [] }: CheckSubject["plan"]) {
  const turns = new Map([...stations, ...benches].map(({ id }, turn) => [id, turn]));
  const turnOf = ({ station }: PlanFinding) => (station === null ? -1 : (turns.get(station) ?? turns.size));
  return [...findings].sort(
    (one, two) =>
      rankOfRule(one.rule) - rankOfRule(two.rule) ||
      turnOf(one) - turnOf(two) ||
      compareNaturally(one.task ?? "", two.task ?? "") ||
      (one.place?.line ?? 0) - (two.place?.line ?? 0) ||
      (one.place?.column ?? 0) - (two.place?.column ?? 0) ||
      (one.message < two.message ? -1 : 1),
  );
}
