import type { BalanceFacts } from "../../answer/balance/shown-balance.js";
import type { Line } from "../../line/line.js";
import type { PlanMeasures } from "../../plan/measure.js";
import { numberJson, secondsJson } from "./number-json.js";

/** The figures of the plan in the result document; what the line has nothing of is null. */
export function measuresJson(line: Line, measures: PlanMeasures, { people, goodShare }: BalanceFacts) {
  return {
    stations: measures.stations,
    operators: measures.operators,
    workContentSeconds: secondsJson(measures.workContent),
    cycleOfPlanSeconds: secondsJson(measures.cycleOfPlan),
    slowestStation: measures.slowestStation,
    efficiencyAtPace: numberJson(measures.efficiencyAtPace),
    efficiencyAtSlowest: numberJson(measures.efficiencyAtSlowest),
    balanceDelayAtPace: numberJson(measures.balanceDelayAtPace),
    balanceDelayAtSlowest: numberJson(measures.balanceDelayAtSlowest),
    smoothnessSeconds: secondsJson(Math.round(measures.smoothness)),
    idleSecondsPerUnit: secondsJson(measures.idlePerUnit),
    idleSecondsPerShift: secondsJson(measures.idlePerShift),
    outputPerShift: measures.outputPerShift,
    repairPeople: measures.repairPeople,
    peopleInAll: people?.atATime ?? null,
    repairs:
      measures.repairs?.map(({ test, repairs, work }) => ({
        test: line.tasks[test]!.id,
        perGoodUnit: numberJson(repairs),
        seconds: secondsJson(work),
      })) ?? null,
    goodShare: numberJson(goodShare),
    leadTimeSeconds: secondsJson(measures.leadTime),
    leadTimeOfWaitsSeconds: secondsJson(measures.leadTimeOfWaits),
    waiting:
      measures.waiting?.map(({ wait, units, fixtures }) => ({
        from: line.tasks[wait.from]!.id,
        to: line.tasks[wait.to]!.id,
        waitSeconds: secondsJson(wait.wait),
        units: numberJson(units),
        fixtures,
      })) ?? null,
    valueShares: measures.valueShares?.map(({ kind, share }) => ({ kind, share: numberJson(share) })) ?? null,
    idleSecondsPerDay: secondsJson(measures.ofUnequalShifts?.idlePerDay ?? null),
    outputByShift: measures.ofUnequalShifts?.output ?? null,
  };
}
