import { compareNaturally } from "../../line/natural-order.js";
import type { PlanMeasures, StationMeasures } from "../measure.js";
import { measureStations } from "../measure.js";
import { checkEmptyStations } from "./check-empty-stations.js";
import { checkFloor, checkKeptRules } from "./check-kept-rules.js";
import { checkLoads } from "./check-loads.js";
import { checkOrigin } from "./check-origin.js";
import { checkPolicy } from "./check-policy.js";
import { rankOfRule } from "./check-rules.js";
import type { CheckSubject } from "./check-subject.js";
import { measureWithBenches } from "./measure-with-benches.js";
import { type PlanFinding, planFinding } from "./plan-finding.js";

/** A plan after its check. */
export interface CheckedPlan {
  readonly stations: readonly StationMeasures[];
  /** Over all people; null where the plan does not hold every task once. */
  readonly measures: PlanMeasures | null;
  /** Everything wrong with the plan, and everything that is not known of it: by rule, then station, then task. */
  readonly findings: readonly PlanFinding[];
}

/** Checks a plan against its line as it is now: every fault in one run. */
export function checkPlan(given: Omit<CheckSubject, "measures">): CheckedPlan {
  const { line, pace, plan, benches, reading } = given;
  const kept = checkKeptRules({ ...given, measures: null });
  const isWhole = !kept.some(({ rule }) => rule === "missing-task" || rule === "task-twice");
  const measures = isWhole ? measureWithBenches(line, pace, plan, benches) : null;
  const subject = { ...given, measures };
  const findings = [
    ...reading.findings.map(planFinding),
    ...kept,
    ...checkLoads(subject),
    ...checkPolicy(subject),
    ...checkEmptyStations(subject),
    ...checkFloor(subject),
    ...checkOrigin(subject),
  ];
  return { stations: measureStations(line, pace, plan), measures, findings: inOrder(findings, plan) };
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
