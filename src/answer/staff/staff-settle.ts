import { peopleOf } from "../../plan/figures/people.js";
import { verifyPlan } from "../../plan/verify-plan.js";
import type { Staffing } from "./staff-balance.js";

/**
 * A plan keeps every slower pace as well, so it serves every lower demand; what no plan can do at a demand, none can at a higher
 * one. Hands plans down and bounds up, so that more units never need fewer people, even where a search gave up at one of them.
 *
 * @param ascending by demand, of one line
 */
export function settle(ascending: readonly Staffing[], strictLimit: boolean): Staffing[] {
  const settled = [...ascending];
  for (let at = settled.length - 2; at >= 0; at--) {
    const [here, above] = [settled[at]!, settled[at + 1]!];
    if (above.plan === null || here.takt === null) continue;
    const people = peopleOf(above.plan) + here.repair;
    if (people >= here.people) continue;
    if (verifyPlan(here.line, here.takt.pace, above.plan, strictLimit).length > 0) continue;
    settled[at] = { ...here, plan: above.plan, people };
  }
  for (let at = 1; at < settled.length; at++) {
    const [below, here] = [settled[at - 1]!, settled[at]!];
    const least = below.least - below.repair + here.repair;
    if (least > here.least) settled[at] = { ...here, least };
  }
  return settled;
}
