import { describe, expect, it } from "vitest";
import { type FillingStep, fillByTime, fillStations } from "../../../src/solve/fill-stations.js";
import { loadsInParts } from "../../../src/solve/parts.js";
import { rankTasks } from "../../../src/solve/rank-tasks.js";
import { RULES } from "../../../src/solve/rules/register.js";
import { plainWork } from "../../../src/solve/work.js";
import { idsOf, shortLine } from "../../tools/line-of.js";

/** Eight tasks at 75 s; A starts a fork to B, C and what follows C, H ends it. */
const line = shortLine(["A 50", "B 40", "C 20 A", "D 45 C", "E 20 C", "F 25 D", "G 15 E", "H 35 B F G"]);
const problem = { times: loadsInParts(line), limit: 75e6, before: line.before };

function rank(name: string) {
  const rule = RULES.find((each) => each.name === name)!;
  return rankTasks(rule, { times: loadsInParts(line), before: line.before });
}

const filled = (name: string) =>
  fillByTime(problem, rank(name).order).map((tasks) => idsOf(line, tasks).join(" "));

describe("rankings of a fork of eight tasks", () => {
  it("weigh a task with all its followers, each once", () => {
    const { scores, order } = rank("positional-weight");
    expect(idsOf(line, order)).toEqual(["A", "C", "D", "B", "E", "F", "G", "H"]);
    expect(order.map((task) => scores[task]! / 1e6)).toEqual([210, 160, 105, 75, 70, 60, 50, 35]);
  });

  it("put the longer task first, and of equals the one that comes first in natural order", () => {
    expect(idsOf(line, rank("largest-candidate").order)).toEqual(["A", "D", "B", "H", "F", "C", "E", "G"]);
    const twins = shortLine(["t10 5", "t2 5", "t1 5"]);
    expect(twins.tasks.map(({ id }) => id)).toEqual(["t1", "t2", "t10"]);
  });

  it("go by the earliest column, then by longer time", () => {
    expect(idsOf(line, rank("columns").order)).toEqual(["A", "B", "C", "D", "E", "F", "G", "H"]);
  });

  it("count followers, then go by longer time", () => {
    expect(idsOf(line, rank("most-followers").order)).toEqual(["A", "C", "D", "E", "B", "F", "G", "H"]);
  });
});

describe("filling stations", () => {
  it("takes the highest-ranked available task that still fits", () => {
    expect(filled("positional-weight")).toEqual(["A C", "D E", "B F", "G H"]);
    expect(filled("largest-candidate")).toEqual(["A C", "D F", "B E G", "H"]);
  });

  it("tells every step: what was free, what was passed over, what was left when a station closed", () => {
    const steps: FillingStep[] = [];
    fillStations(plainWork(problem), rank("positional-weight").order, (step) => steps.push(step));
    const [a, c] = [0, 2];
    expect(steps.slice(0, 3)).toEqual([
      { step: "place", station: 0, task: a, freeBefore: 75e6, freeAfter: 25e6, passedOver: [] },
      { step: "place", station: 0, task: c, freeBefore: 25e6, freeAfter: 5e6, passedOver: [] },
      { step: "close", station: 0, free: 5e6, left: [3, 1, 4] },
    ]);
    const second = steps.filter((step) => step.station === 1);
    expect(second[1]).toMatchObject({ step: "place", task: 4, passedOver: [1] });
  });
});
