import { type BlockPlan, peopleOfPlan } from "./work.js";

/** What a plan costs, apart from how even it is. */
export interface Cost {
  readonly people: number;
  readonly stations: number;
}

/** What is minimised first; the other comes second. */
export type Aim = "people" | "stations";

export function isCheaper(one: Cost, two: Cost, aim: Aim): boolean {
  const [first, second] =
    aim === "people" ? (["people", "stations"] as const) : (["stations", "people"] as const);
  return one[first] < two[first] || (one[first] === two[first] && one[second] < two[second]);
}

export const costOf = (plan: BlockPlan): Cost => ({ people: peopleOfPlan(plan), stations: plan.length });

/** Any plan is cheaper. */
export const ANY_COST: Cost = { people: Number.MAX_SAFE_INTEGER, stations: Number.MAX_SAFE_INTEGER };
