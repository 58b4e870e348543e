import { countPeople } from "../../findings/count-of.js";
import type { Line } from "../../line/line.js";
import { peopleAtAll } from "../figures/people.js";
import type { Plan } from "../plan.js";
import { type PlanFinding, planFinding } from "./plan-finding.js";

/** A warning where a line file names its people, and fewer than a plan has at a time on the line and at its benches. */
export function findUnnamed({ people, file }: Line, { stations, benches = [] }: Plan): PlanFinding[] {
  const planned = peopleAtAll([...stations, ...benches]);
  if (people.length === 0 || planned <= people.length) return [];
  const message = `${countPeople(planned)} are planned at a time, and \`people\` names ${people.length}`;
  return [planFinding({ rule: "people-named", severity: "warning", message, file })];
}
