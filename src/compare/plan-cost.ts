import type { Line } from "../line/line.js";
import { repairsPerGoodUnit } from "../line/visits.js";
import { answerOfPlan } from "../off-line/answer-of-plan.js";
import type { Plan } from "../plan/plan.js";
import { repairPeople } from "../plan/repair-figures.js";
import { personTime, stationTime } from "../plan/station-figures.js";
import { ONE, type Ratio } from "../time/ratio.js";
import type { TaktSum } from "../time/takt.js";
import { costPerUnit } from "./figures.js";
import type { Post } from "./post.js";

/** The cost of a unit by a plan without benches, as in a comparison; null where the file has no rates. */
export function costOfPlan(line: Line, takt: TaktSum, plan: Plan): Ratio | null {
  const { pace } = takt;
  const posts = plan.stations.map(
    (station): Post => ({
      ...station,
      kind: "station",
      busy: stationTime(line, station),
      personTime: personTime(line, station),
      hours: ONE,
      shifts: line.calendar?.shifts.length ?? null,
      share: ONE,
    }),
  );
  const balance = answerOfPlan(line, pace, takt, plan, { stations: [], measures: null });
  return costPerUnit({
    asked: { name: line.name, line, option: null, pace, takt, today: null, nodes: 0 },
    outcome: "found",
    balance,
    plan,
    posts,
    benches: [],
    repairPeople: Math.max(0, repairPeople(line, pace, repairsPerGoodUnit(line)) ?? 0),
    pays: null,
    findings: [],
    moves: null,
    isCut: false,
  });
}
