import { countOf } from "../../findings/count-of.js";
import type { Policy } from "../../line/line.js";
import { compare, ratio, subtract } from "../../time/ratio.js";
import { percent, percentsApart } from "../../time/show-values.js";
import { peopleAtAll, peopleOfPlan } from "../figures/people.js";
import type { PlanMeasures } from "../measure.js";
import { type CheckSubject, type KnownLeast, postsAt } from "./check-subject.js";
import { type PlanFinding, planFinding } from "./plan-finding.js";

/** What the policy of the line asks of a plan as a whole. */
export function checkPolicy(subject: CheckSubject): PlanFinding[] {
  const { line, plan, measures, least } = subject;
  const { policy } = line;
  const found = [
    countStations(policy, plan.stations.length),
    countPeople(subject),
    measures === null ? null : judgeEfficiency(policy, measures),
    policy.maxAboveLeast === null ? null : judgeLeast(policy.maxAboveLeast, plan.stations.length, least),
  ];
  return found.flatMap((each) => (each === null ? [] : [{ ...each, file: subject.reading.file }]));
}

function countStations({ maxStations }: Policy, stations: number): PlanFinding | null {
  if (maxStations === null || stations <= maxStations) return null;
  const message = `the plan has ${countOf(stations, "station")}; the policy allows ${maxStations}`;
  return planFinding({ rule: "max-stations", severity: "error", message, amount: ratio(stations) });
}

/** Everybody who is there at a time counts: on the line, at benches, and for repairs beside it. */
function countPeople({ line, pace, plan, benches }: CheckSubject): PlanFinding | null {
  const { maxPeople } = line.policy;
  if (maxPeople === null) return null;
  const atBenches = peopleAtAll(postsAt(benches));
  const { atATime, repair: repairing } = peopleOfPlan(line, pace, plan);
  const people = atATime + atBenches;
  if (people <= maxPeople) return null;
  const others = [
    ...(atBenches === 0 ? [] : [`${atBenches} of them at benches`]),
    ...(repairing === 0 ? [] : [`${repairing} for repairs`]),
  ];
  const where = others.length === 0 ? "" : `, ${others.join(" and ")}`;
  const message = `the plan needs ${people} people at the same time${where}; the policy allows ${maxPeople}`;
  return planFinding({ rule: "max-people", severity: "error", message, amount: ratio(people) });
}

function judgeEfficiency({ minEfficiency }: Policy, measures: PlanMeasures): PlanFinding | null {
  if (minEfficiency === null) return null;
  const rule = "min-efficiency";
  const asked = percent(minEfficiency, 3);
  const { efficiencyAtPace: efficiency, operators, repairPeople } = measures;
  if (efficiency === null) {
    const message = `cannot tell whether the efficiency is at least ${asked}: a station is overloaded`;
    return planFinding({ rule, severity: "note", message });
  }
  if (compare(efficiency, minEfficiency) >= 0) return null;
  const [shown] = percentsApart(efficiency, minEfficiency);
  const counted = operators === 1 ? "1 person" : `all ${operators} people`;
  const people = repairPeople ? `${counted}, those for repairs not among them` : counted;
  const message = `the efficiency at the pace is ${shown}, over ${people}; the policy asks for ${asked}`;
  return planFinding({ rule, severity: "error", message, amount: subtract(minEfficiency, efficiency) });
}

function judgeLeast(allowed: number, stations: number, least: KnownLeast | null): PlanFinding | null {
  const rule = "max-above-least";
  const policy = `the policy allows ${allowed === 0 ? "no more than the least" : `${allowed} above the least`}`;
  if (least === null) {
    const message = `cannot tell the least number of stations: no plan that keeps the rules was found; ${policy}`;
    return planFinding({ rule, severity: "note", message });
  }
  const { bound, found } = least;
  const amount = ratio(stations - bound);
  const has = `the plan has ${countOf(stations, "station")}`;
  if (bound === found || stations > found + allowed) {
    if (stations <= bound + allowed) return null;
    const words = bound === found ? `${bound} are the proved least` : `${found} are enough`;
    return planFinding({ rule, severity: "error", message: `${has}, ${words}; ${policy}`, amount });
  }
  if (stations <= bound + allowed) return null;
  const open = `at least ${bound} are needed and ${found} are enough; which of them is the least is not proved`;
  return planFinding({ rule, severity: "warning", message: `${has}; ${open}; ${policy}`, amount });
}
