import type { Line } from "../../line/line.js";
import { peopleAtRepairs } from "../../plan/figures/people.js";
import type { Plan } from "../../plan/plan.js";
import { postsOf } from "../../plan/post.js";
import type { Ratio } from "../../time/ratio.js";
import type { TaktSum } from "../../time/takt.js";
import { answerOfPlan } from "../balance/answer-of-plan.js";
import { costPerUnit } from "./figures.js";

/** The cost of a unit by a plan without benches, as in a comparison; null where the file has no rates. */
export function costOfPlan(line: Line, takt: TaktSum, plan: Plan): Ratio | null {
  const { pace } = takt;
  const balance = answerOfPlan(line, pace, takt, plan, { stations: [], measures: null });
  return costPerUnit({
    asked: { name: line.name, line, option: null, pace, takt, today: null, nodes: 0 },
    outcome: "found",
    balance,
    plan,
    posts: postsOf(line, pace, plan),
    benches: [],
    repairPeople: peopleAtRepairs(line, pace),
    pays: null,
    findings: [],
    moves: null,
    isCut: false,
  });
}
