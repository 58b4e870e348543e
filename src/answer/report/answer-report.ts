import type { BenchOfPlan } from "../../plan/check/check-subject.js";
import type { Plan } from "../../plan/plan.js";
import type { Pace } from "../../time/pace.js";
import { type ShownBalance, shownBalance } from "../balance/shown-balance.js";
import { type ShownTakt, shownTakt } from "../balance/shown-takt.js";
import { type LoadChart, loadChart } from "../charts/load-chart.js";
import { type OrderChart, orderChart } from "../charts/order-chart.js";
import type { Comparison } from "../compare/compare-options.js";
import type { StandingPlan } from "../show/answer-show.js";

/** Another plan of the line, to tell what changed since. */
export interface PlanBefore {
  readonly file: string;
  readonly shown: ShownBalance;
  readonly plan: Plan;
}

/** Everything that a report says of a plan that stands. */
export interface ReportAnswer {
  readonly shown: ShownBalance;
  readonly benches: readonly BenchOfPlan[];
  /** Null where the line cycle was given. */
  readonly takt: ShownTakt | null;
  readonly loads: LoadChart;
  readonly order: OrderChart;
  /** The plan file; the fingerprint is that of the line it was made for, null where it has none. */
  readonly file: string;
  readonly fingerprint: string | null;
  /** What stood before, and the tasks that stand elsewhere now, in order of work. */
  readonly before: PlanBefore | null;
  readonly moves: readonly { readonly task: number; readonly from: string; readonly to: string }[];
  /** The options of the line side by side; null where that was not asked for. */
  readonly options: Comparison | null;
}

/** The plan that stands with its pictures; a plan without figures has none of the loads. */
export function answerReport(
  standing: StandingPlan,
  plan: Plan,
  pace: Pace,
  of: Pick<ReportAnswer, "file" | "fingerprint" | "before" | "options">,
): ReportAnswer {
  const shown = shownBalance(standing.answer, standing.benches);
  const { line, takt } = shown;
  const order = orderChart(line, plan, of.before?.plan ?? null);
  const moves = order.columns.flatMap(({ id, tasks }) =>
    tasks.flatMap((task) => {
      const from = order.movedFrom.get(task);
      return from === undefined ? [] : [{ task, from, to: id }];
    }),
  );
  return {
    ...of,
    shown,
    benches: standing.benches,
    takt: takt === null ? null : shownTakt(line, takt),
    loads: loadChart(line, pace, plan),
    order,
    moves,
  };
}
