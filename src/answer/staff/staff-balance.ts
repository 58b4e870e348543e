import type { Finding } from "../../findings/finding.js";
import { finding } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import { peopleAtRepairs, peopleOf } from "../../plan/figures/people.js";
import type { Plan } from "../../plan/plan.js";
import type { Balance, BalancingOptions } from "../../solve/balance.js";
import { balance } from "../../solve/balance.js";
import type { Watch } from "../../solve/watch-times.js";
import type { Demand } from "../../time/demand.js";
import { type TaktSum, taktSum } from "../../time/takt.js";
import { findNoPlan } from "../balance/find-no-plan.js";
import { balanceLine } from "../off-line/balance-rest.js";

/** A demand with the fewest people found for it; people are those at a time, who repairs beside the line among them. */
export interface Staffing {
  /** The line at this demand. */
  readonly line: Line;
  readonly demand: Demand;
  /** Null where handling leaves no working time at this demand. */
  readonly takt: TaktSum | null;
  /** Verified; null where there is none. */
  readonly plan: Plan | null;
  /** Infinity without a plan. */
  readonly people: number;
  /** No plan has fewer people; Infinity where none exists at all. */
  readonly least: number;
  /** People who repair beside the line. */
  readonly repair: number;
  /** What a balance of this demand says: people first, then stations. */
  readonly outcome: Balance["outcome"];
}

export interface StaffOptions {
  /** How often the partial plans of a search double until a plan is found. */
  readonly doublings?: number;
  readonly strictLimit: boolean;
  readonly checkpoint: Watch;
}

export const NOBODY = Number.POSITIVE_INFINITY;

/**
 * The fewest people for a demand, in so many partial plans.
 *
 * @param level evens out the loads of the plan as well: the very plan that `balance` gives at this demand
 */
export async function staffDemand(
  line: Line,
  demand: Demand,
  nodes: number,
  options: StaffOptions,
  level: boolean,
): Promise<Staffing> {
  const asked = { ...line, demand };
  const takt = taktSum({ ...asked, demand });
  const nobody = { people: NOBODY, least: NOBODY, repair: 0, outcome: "infeasible" as const };
  if (!takt.ok) return { line: asked, demand, takt: null, plan: null, ...nobody };
  const { pace } = takt.value;
  const found = await balanceLine(asked, pace, balanceOptions(nodes, options, level));
  const repair = peopleAtRepairs(asked, pace);
  const least = found.outcome === "infeasible" ? NOBODY : (found.least?.people ?? 0) + repair;
  const people = found.plan === null ? NOBODY : peopleOf(found.plan) + repair;
  const { plan, outcome } = found;
  return { line: asked, demand, takt: takt.value, plan, people, least, repair, outcome };
}

function balanceOptions(
  nodes: number,
  { doublings = 0, strictLimit, checkpoint }: StaffOptions,
  level: boolean,
): BalancingOptions {
  return { method: "best", nodes, doublings, level, explain: false, strictLimit, checkpoint };
}

/** How far it is settled how many people a demand needs. */
export function outcomeOf({
  people,
  least,
}: Pick<Staffing, "people" | "least">): "proved" | "found" | "infeasible" | "stopped" {
  if (people === NOBODY) return least === NOBODY ? "infeasible" : "stopped";
  return people === least ? "proved" : "found";
}

/** Why a demand has no plan. */
export async function whyNoPlan(
  { line, demand, takt }: Staffing,
  options: StaffOptions & { readonly nodes: number },
): Promise<readonly Finding[]> {
  if (takt === null) {
    const read = taktSum({ ...line, demand });
    const message = read.ok ? "" : read.problem;
    return [finding({ rule: "no-pace", severity: "error", message, file: line.file })];
  }
  const asked = balanceOptions(options.nodes, options, false);
  const found = await balance(line, takt.pace, asked);
  const { findings } = await findNoPlan(line, takt.pace, found, asked);
  return findings.filter(({ severity }) => severity === "error");
}
