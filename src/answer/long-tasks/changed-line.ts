import type { Line } from "../../line/line.js";
import { efficiencyAtPace } from "../../plan/figures/efficiency.js";
import { peopleOfPlan } from "../../plan/figures/people.js";
import type { Plan } from "../../plan/plan.js";
import { postsOf } from "../../plan/post.js";
import type { BalancingOptions } from "../../solve/balance.js";
import { balance } from "../../solve/balance.js";
import { explainInfeasible } from "../../solve/explain/explain-infeasible.js";
import type { Pace } from "../../time/pace.js";
import { obstaclesOf } from "../balance/find-no-plan.js";
import type { Obstacle } from "../balance/obstacle.js";
import type { ChangedPlan } from "./long-answer.js";

/** A line changed so that a long task finds room, balanced under its rules. */
export interface ChangedLine {
  readonly line: Line;
  readonly pace: Pace;
  readonly plan: Plan | null;
  readonly outcome: "proved" | "found";
  /** Why there is no plan; null where there is one, and where the search was stopped before it knew. */
  readonly obstacles: readonly Obstacle[] | null;
  /** Counted equipment of which too few exist, as far as that is why. */
  readonly scarce: readonly string[];
}

export async function balanceChanged(
  line: Line,
  pace: Pace,
  options: BalancingOptions,
): Promise<ChangedLine> {
  const { plan, outcome } = await balance(line, pace, options);
  const changed = outcome === "proved" ? outcome : ("found" as const);
  const common = { line, pace, plan, outcome: changed, obstacles: null, scarce: [] };
  if (plan !== null || outcome !== "infeasible") return common;
  const why = await explainInfeasible(line, pace, options.strictLimit, options);
  const obstacles = why === null ? [] : obstaclesOf(line, pace, why);
  const machines = obstacles.flatMap((each) => (each.kind === "machines" ? (each.need.name ?? []) : []));
  return { ...common, obstacles, scarce: [...(why?.scarce ?? []), ...machines] };
}

/**
 * The same with at least so many of each counted equipment, and with as few more of it as give a plan.
 *
 * @param most so many more of each at the most
 */
export async function balanceEquipped(
  line: Line,
  pace: Pace,
  needed: ReadonlyMap<string, number>,
  options: BalancingOptions,
  most = 1,
): Promise<ChangedLine> {
  const balanced = (more: number) => balanceChanged(withMore(line, needed, more), pace, options);
  // Where something else is in the way, nothing is gained by more of it.
  const isShort = ({ scarce }: ChangedLine) => scarce.some((name) => needed.has(name));
  let changed = await balanced(0);
  for (let more = 1; more <= most && isShort(changed); more++) {
    if ((await options.checkpoint({ nodes: 0, best: "none", bound: null, what: "equipment" })) !== null)
      break;
    changed = await balanced(more);
  }
  return changed;
}

/** At least so many of each equipment, and some more of it. */
function withMore(line: Line, needed: ReadonlyMap<string, number>, more: number): Line {
  const equipment = [...line.equipment].map(([name, count]) => {
    const least = needed.get(name);
    return [name, least === undefined ? count : Math.max(count, least) + more] as const;
  });
  return { ...line, equipment: new Map(equipment) };
}

/** The size of a changed line that has a plan. */
export function sizeOf({ line, pace, plan, outcome }: ChangedLine): ChangedPlan {
  if (plan === null) throw new RangeError("a line without a plan has no size");
  return {
    kind: "plan",
    stations: plan.stations.length,
    people: peopleOfPlan(line, pace, plan).atATime,
    isProved: outcome === "proved",
    efficiency: efficiencyAtPace(postsOf(line, pace, plan), pace.lineCycle),
  };
}
