import type { Line } from "../../line/line.js";
import type { PlanMeasures, StationMeasures } from "../../plan/measure.js";
import type { Plan } from "../../plan/plan.js";
import type { Pace } from "../../time/pace.js";
import type { TaktSum } from "../../time/takt.js";
import { answerModels } from "./answer-models.js";
import { type BalanceAnswer, EMPTY_ANSWER } from "./balance-answer.js";

/** A plan that was given, in the shape of one that was found; nothing was searched and nothing is proved of it. */
export function answerOfPlan(
  line: Line,
  pace: Pace,
  takt: TaktSum | null,
  plan: Plan,
  figures: { readonly stations: readonly StationMeasures[]; readonly measures: PlanMeasures | null },
): BalanceAnswer {
  return {
    ...EMPTY_ANSWER,
    line,
    pace,
    takt,
    outcome: "found",
    plan,
    ...figures,
    search: { nodes: 0, nodeLimit: null, ended: null },
    findings: [],
    models: figures.measures === null ? null : answerModels(line, pace, plan),
  };
}
