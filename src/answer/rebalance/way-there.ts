import { type Finding, finding } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import type { Plan } from "../../plan/plan.js";
import type { Watch } from "../../solve/watch-times.js";
import type { Pace } from "../../time/pace.js";
import { type ChangeSum, sumUpChange } from "./change-sum.js";
import type { RebalanceAnswer } from "./rebalance-line.js";
import { type Slack, slackOf } from "./slack.js";
import { findSlowBenches } from "./slow-benches.js";
import { type StepSpread, type Steps, spreadSteps, stepsOf } from "./steps.js";

/** How a line gets from today's plan to the new one. */
export interface WayThere {
  /** null where nothing changes, or there is no new plan. */
  readonly steps: Steps | null;
  /** What that costs and gains; null as before. */
  readonly change: ChangeSum | null;
  /** The steps by day; null where nobody asked for days. */
  readonly spread: StepSpread | null;
}

/** What is told beside a rebalance, apart from the search: whoever only counts moves need not pay for it. */
export interface BesideRebalance {
  readonly way: WayThere;
  /** Of today's plan, its benches included; null where it was not worked out any more. */
  readonly slack: Slack | null;
  /** Benches that stay slower than the new pace, where there is a plan; and what was left out as the command was told to end. */
  readonly findings: readonly Finding[];
}

/**
 * @param today the line with all that its benches build, and the plan with its benches
 * @param days that the steps are to be spread over; null where nobody asked
 * @param checkpoint for this alone: the time of a search is up where it ends
 */
export async function lookBeside(
  answer: RebalanceAnswer,
  today: { readonly line: Line; readonly pace: Pace; readonly from: Plan; readonly strictLimit: boolean },
  days: number | null,
  checkpoint: Watch,
): Promise<BesideRebalance> {
  const { plan } = answer.balance;
  const slow = plan === null ? [] : findSlowBenches(today.line, today.pace, today.from);
  const progress = { nodes: answer.nodes, best: null, bound: null, what: "moves" } as const;
  const early = await checkpoint(progress);
  if (early !== null) {
    const parts = `${plan === null ? "" : "the steps and "}${SLACK}`;
    return {
      way: { steps: null, change: null, spread: null },
      slack: null,
      findings: [...slow, leftOut(early, parts)],
    };
  }
  const { way, isWhole } = await wayThere(answer, days, checkpoint);
  const late = await checkpoint(progress);
  if (late !== null) {
    const parts = `${isWhole ? "" : "the order of all moves, of which the last step has the rest, and "}${SLACK}`;
    return { way, slack: null, findings: [...slow, leftOut(late, parts)] };
  }
  const slack = slackOf(today.line, today.pace, today.from, today.strictLimit);
  return { way, slack, findings: slow };
}

export const SLACK = "the slack of today's plan";

/** Says which parts a command does not answer that was told to end. */
export function leftOut(why: "time" | "interrupted", parts: string): Finding {
  const message = `${why === "time" ? "the time was up" : "interrupted"} before it worked out ${parts}`;
  return finding({ rule: "parts-left-out", severity: "warning", message });
}

/** The way that an answer leaves to its plan, and whether all of its moves were put in order. */
async function wayThere(
  { balance: { line, pace, plan }, chosen, from, matched, nodes }: RebalanceAnswer,
  days: number | null,
  checkpoint: Watch,
): Promise<{ readonly way: WayThere; readonly isWhole: boolean }> {
  const best = { moves: chosen?.moves.length ?? 0 };
  let isWhole = true;
  const goesOn = async () => {
    isWhole &&= (await checkpoint({ nodes, best, bound: null, what: "moves" })) === null;
    return isWhole;
  };
  const steps = plan === null ? null : await stepsOf(line, pace, from, plan, matched, goesOn);
  const way = {
    steps,
    change: plan === null || steps === null ? null : sumUpChange(line, pace, from, plan, matched, steps),
    spread: days === null ? null : spreadSteps(steps?.steps ?? [], days),
  };
  return { way, isWhole };
}
