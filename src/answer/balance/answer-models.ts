import type { Line } from "../../line/line.js";
import { type MixMeasures, measureMix } from "../../plan/models/measure-mix.js";
import { type WeightedWork, weightedWork } from "../../plan/models/weighted-work.js";
import type { Plan } from "../../plan/plan.js";
import type { Pace } from "../../time/pace.js";

/** What the models of a line do to a plan. */
export interface AnswerModels {
  readonly work: WeightedWork;
  readonly mix: MixMeasures;
}

/** The figures of a mixed line; null on a line that builds one model. */
export function answerModels(line: Line, pace: Pace, plan: Plan): AnswerModels | null {
  if (line.models.length === 0) return null;
  return { work: weightedWork(line, pace), mix: measureMix(line, pace, plan) };
}
