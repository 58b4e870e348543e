import { type BlockPlan, peopleOfPlan } from "./work.js";

/** What a plan costs, apart from how even it is. */
export interface Cost {
  readonly people: number;
  readonly stations: number;
}

/** The same with what it costs to move tasks away from today's plan. */
export interface CostWithMoves extends Cost {
  readonly moves: number;
}

export type CostName = keyof CostWithMoves;

/** An aim is an ordered list of costs: the first counts, of equals in that the next. */
export type Aim<Name extends CostName = keyof Cost> = readonly Name[];

export const PEOPLE_FIRST: Aim = ["people", "stations"];
export const STATIONS_FIRST: Aim = ["stations", "people"];
/** What a change costs comes before what the plan costs; a ceiling holds the people. */
export const MOVES_FIRST: Aim<CostName> = ["moves", "people", "stations"];

export function isCheaper<Name extends CostName>(
  one: Readonly<Record<Name, number>>,
  two: Readonly<Record<Name, number>>,
  aim: Aim<Name>,
): boolean {
  for (const name of aim) if (one[name] !== two[name]) return one[name] < two[name];
  return false;
}

export const costOf = (plan: BlockPlan): Cost => ({ people: peopleOfPlan(plan), stations: plan.length });

/** Any plan is cheaper. */
export const ANY_COST: Cost = { people: Number.MAX_SAFE_INTEGER, stations: Number.MAX_SAFE_INTEGER };
