import { describe, expect, it } from "vitest";
import { verifyPlan } from "../../src/plan/verify-plan.js";
import { rankedTasks } from "../../src/solve/balance.js";
import { costOf } from "../../src/solve/cost.js";
import { fillStations } from "../../src/solve/fill-stations.js";
import { BeamsAlongPlans } from "../../src/solve/improve/beams-along-plans.js";
import { layOutWork } from "../../src/solve/lay-out-work.js";
import { rankTasks } from "../../src/solve/rank-tasks.js";
import { RULES } from "../../src/solve/rules/register.js";
import { positionsOf } from "../../src/solve/station/arrange-blocks.js";
import { toPlan } from "../../src/solve/to-plan.js";
import { lineOf, paceOf } from "../tools/line-of.js";
import { type ClassicLine, readClassicLines, readOptima } from "../tools/read-classic-lines.js";

const LINES = ["buxey", "sawyer", "gunther", "kilbridge", "hahn", "warnecke", "tonge"];
const NODES = 20_000;

/** A line of the literature on a floor whose stations have places of their own, so that positions matter. */
function onAFloor({ times, precedence }: ClassicLine): string {
  const before = (task: number) => precedence.filter(([, to]) => to === task + 1).map(([from]) => `t${from}`);
  const tasks = times.map((time, at) => `  t${at + 1}: {time: ${time}, after: [${before(at).join(", ")}]}`);
  const stations = times.map((_, at) => `  - {id: P${at + 1}}`);
  return ["unit: s", "stations:", ...stations, "tasks:", ...tasks, ""].join("\n");
}

describe("beams along the plans of the rules", () => {
  const optima = readOptima().filter(({ line, status }) => LINES.includes(line) && status === "proven");
  const rows = optima.map(({ line: name, limit, stations }) => {
    const line = lineOf(onAFloor(readClassicLines().get(name)!));
    const pace = paceOf(limit);
    const work = layOutWork(line, { pace, strictLimit: false, slowest: null, free: false });
    const plans = RULES.map((rule) => fillStations(work, rankTasks(rule, rankedTasks(line)).order, null)!);
    const start = plans.toSorted((one, two) => costOf(one).people - costOf(two).people)[0]!;
    const least = { people: stations, stations };
    const beams = new BeamsAlongPlans(
      work,
      start,
      plans.map((each) => positionsOf(work, each)),
      least,
      NODES,
    );
    for (const _ of beams.stretches());
    const faults = verifyPlan(line, pace, toPlan(line, work, beams.best), true);
    return { name, limit, stations, start: costOf(start).people, best: costOf(beams.best).people, faults };
  });

  it("keep every rule, and never have fewer stations than is proved possible", () => {
    expect(rows.filter(({ faults, best, stations }) => faults.length > 0 || best < stations)).toEqual([]);
  });

  it("reach the published least number of stations in 61 cases of 70, where the rules do in 45", () => {
    const reached = (of: "start" | "best") => rows.filter((row) => row[of] === row.stations).length;
    expect([rows.length, reached("start"), reached("best")]).toEqual([70, 45, 61]);
  });
});
