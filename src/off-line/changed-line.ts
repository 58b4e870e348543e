import { countOf, countPeople } from "../findings/count-of.js";
import type { Line } from "../line/line.js";
import { peopleOfPlan } from "../plan/people-in-all.js";
import type { Plan } from "../plan/plan.js";
import { efficiencyAtPace } from "../plan/plan-figures.js";
import type { BalancingOptions } from "../solve/balance.js";
import { balanceFloor } from "../solve/floor/balance-floor.js";
import { explainInfeasible } from "../solve/floor/explain-infeasible.js";
import type { Pace } from "../time/pace.js";
import { percent } from "../time/show-values.js";
import { obstaclesOf } from "./find-no-plan.js";

/** A line changed so that a long task finds room, balanced under its rules. */
export interface ChangedLine {
  readonly line: Line;
  readonly pace: Pace;
  readonly plan: Plan | null;
  readonly outcome: "proved" | "found";
  /** Why there is no plan; empty where there is one. */
  readonly why: string;
}

export async function balanceChanged(
  line: Line,
  pace: Pace,
  options: BalancingOptions,
): Promise<ChangedLine> {
  const { plan, outcome } = await balanceFloor(line, pace, options);
  const common = { line, pace, plan, outcome: outcome === "proved" ? outcome : ("found" as const) };
  if (plan !== null) return { ...common, why: "" };
  if (outcome !== "infeasible") return { ...common, why: "no plan was found before the search was stopped" };
  const why = await explainInfeasible(line, pace, options.strictLimit);
  const obstacles = why === null ? [] : obstaclesOf(line, pace, why);
  const reasons = obstacles.length === 0 ? "" : `: ${obstacles.join(", ")}`;
  return { ...common, why: `no plan keeps the rules of the line then${reasons}` };
}

/** "(4 stations and 5 people in all, efficiency 80 % at the pace)", or why there is no plan. */
export const sizeWords = (changed: ChangedLine): string =>
  `(${changed.plan === null ? changed.why : sizeOf(changed)})`;

/** The same of a plan, without brackets; it says so where fewer people or stations might do. */
export function sizeOf({ line, pace, plan, outcome }: ChangedLine): string {
  if (plan === null) throw new RangeError("a line without a plan has no size");
  const efficiency = efficiencyAtPace(line, pace, plan);
  const share = efficiency === null ? "" : `, efficiency ${percent(efficiency)} at the pace`;
  const people = countPeople(peopleOfPlan(line, pace, plan).atATime);
  const open = outcome === "proved" ? "" : ", not proved least";
  return `${countOf(plan.stations.length, "station")} and ${people} in all${open}${share}`;
}
