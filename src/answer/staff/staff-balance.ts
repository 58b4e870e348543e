import type { Finding } from "../../findings/finding.js";
import { finding } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import { peopleAtRepairs, peopleOf } from "../../plan/figures/people.js";
import type { Plan } from "../../plan/plan.js";
import type { BalancingOptions } from "../../solve/balance.js";
import { balance } from "../../solve/balance.js";
import type { Watch } from "../../solve/watch-times.js";
import type { Demand } from "../../time/demand.js";
import { type TaktSum, taktSum } from "../../time/takt.js";
import { findReasons } from "../balance/find-no-plan.js";
import { findLongTaskFaults } from "../balance/long-task-findings.js";
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
}

export interface StaffOptions {
  readonly strictLimit: boolean;
  readonly checkpoint: Watch;
}

export const NOBODY = Number.POSITIVE_INFINITY;

/** The fewest people for a demand, in so many partial plans; `level` evens out the loads of the plan as well. */
export async function staffDemand(
  line: Line,
  demand: Demand,
  nodes: number,
  options: StaffOptions,
  level = false,
): Promise<Staffing> {
  const asked = { ...line, demand };
  const takt = taktSum({ ...asked, demand });
  const none = { line: asked, demand, takt: null, plan: null, people: NOBODY, least: NOBODY, repair: 0 };
  if (!takt.ok) return none;
  const { pace } = takt.value;
  const found = await balanceLine(asked, pace, balanceOptions(nodes, options, level));
  const repair = peopleAtRepairs(asked, pace);
  const least = found.outcome === "infeasible" ? NOBODY : (found.least?.people ?? 0) + repair;
  const people = found.plan === null ? NOBODY : peopleOf(found.plan) + repair;
  return { ...none, takt: takt.value, plan: found.plan, people, least, repair };
}

function balanceOptions(
  nodes: number,
  { strictLimit, checkpoint }: StaffOptions,
  level: boolean,
): BalancingOptions {
  return { method: "best", nodes, level, explain: false, strictLimit, checkpoint };
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
  nodes: number,
  options: StaffOptions,
): Promise<readonly Finding[]> {
  if (takt === null) {
    const read = taktSum({ ...line, demand });
    const message = read.ok ? "" : read.problem;
    return [finding({ rule: "no-pace", severity: "error", message, file: line.file })];
  }
  const asked = balanceOptions(nodes, options, false);
  const found = await balance(line, takt.pace, asked);
  if (found.timeOnly) {
    return findLongTaskFaults(line, takt.pace, options.strictLimit).filter(
      ({ severity }) => severity === "error",
    );
  }
  return (await findReasons(line, takt.pace, found, asked)).findings;
}
