import { cycleOfPlan } from "../plan/figures/cycle.js";
import { peopleOf } from "../plan/figures/people.js";
import type { Plan } from "../plan/plan.js";
import { postsOf } from "../plan/post.js";
import { verifyPlan } from "../plan/verify-plan.js";
import { compare } from "../time/ratio.js";
import type { Staffing } from "./staff-balance.js";

/**
 * A demand with the plan of as many people that has the shortest cycle, of all that were found: what people make at most does not
 * hang on the demand that they are asked for. Its own plan stays where none is faster.
 */
export function withShortestCycle(point: Staffing, known: readonly Plan[], strictLimit: boolean): Staffing {
  const { line, takt, plan } = point;
  if (takt === null || plan === null) return point;
  const { pace } = takt;
  const people = peopleOf(plan);
  const cycleOf = (each: Plan) => cycleOfPlan(postsOf(line, pace, each));
  const faster = known
    .filter((each) => peopleOf(each) === people && compare(cycleOf(each), cycleOf(plan)) < 0)
    .toSorted((one, two) => compare(cycleOf(one), cycleOf(two)) || one.stations.length - two.stations.length)
    .find((each) => verifyPlan(line, pace, each, strictLimit).length === 0);
  return faster === undefined ? point : { ...point, plan: faster };
}
