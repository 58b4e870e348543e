import { expect, it } from "vitest";
import { PEOPLE_FIRST } from "../../../../src/solve/cost.js";
import { runSearchBelow } from "../../../../src/solve/search/run-search.js";
import { ScheduleQuestion } from "../../../../src/solve/station/schedule/fit-schedule.js";
import { scheduleLimits, whoDoes } from "../../../../src/solve/station/schedule/schedule-limits.js";
import { StationTasks } from "../../../../src/solve/station/schedule/station-tasks.js";
import { floorLine, s } from "../../../tools/floor-line.js";
import { floorProblemOf, startWalk } from "../../../tools/floor-plans.js";
import { paceOf } from "../../../tools/line-of.js";

/**
 * 10, 20, ... 100 s are 550 s, twice 275 s: what two people can do by their sum, but multiples of 10 s never end after 275 s at both
 * sides, which only a search over sides and orders says.
 */
const ROWS = Array.from({ length: 10 }, (_, at) => `t${at} ${10 * (at + 1)}`);
const EITHER = Object.fromEntries(ROWS.map((_, at) => [`t${at}`, { side: "either" as const }]));
const PROBLEM = floorProblemOf(floorLine(ROWS, { tasks: EITHER }), paceOf(275));
const ANY = { people: Number.MAX_SAFE_INTEGER, stations: Number.MAX_SAFE_INTEGER };

function question(limit: number): ScheduleQuestion {
  const problem = floorProblemOf(floorLine(ROWS, { tasks: EITHER }), paceOf(limit));
  const tasks = [...ROWS.keys()];
  const station = new StationTasks(problem.schedule!, tasks);
  // Each person alone could do all of it, so that their loads say nothing.
  const manned = { within: problem.kinds[0]!, places: 1, crew: 2, units: null, most: s(550) };
  return new ScheduleQuestion(
    station,
    scheduleLimits(problem, manned),
    whoDoes(problem.schedule!, tasks, 2, false)!,
  );
}

it("a question about sides says in pieces what it says in one go", () => {
  const whole = question(275);
  whole.advance(Number.POSITIVE_INFINITY);
  const pieces = question(275);
  let open = 0;
  while (pieces.fits === null) {
    open++;
    pieces.advance(7);
  }
  expect([pieces.fits, pieces.steps]).toEqual([whole.fits, whole.steps]);
  expect(whole.fits).toBe(false);
  expect(open).toBeGreaterThan(10);
});

it("a question about sides is answered without a search where the sums or a list of the tasks are enough", () => {
  // 280 and 270 s by two; 274 s are less than half of 550 s.
  expect([question(280), question(274)].map(({ fits }) => fits)).toEqual([true, false]);
});

it("what sides take counts towards the steps of a walk, which comes to the same loads in however many stretches", () => {
  const walk = (stretch: number) => {
    const { loads, instance } = startWalk(PROBLEM, []);
    const { station } = instance.rules!;
    const found: string[] = [];
    let pauses = 0;
    for (let most = stretch; ; ) {
      const came = loads.advance(most);
      if (came === "end") return { found, pauses, steps: loads.steps };
      if (came === "load") {
        found.push(loads.load.subarray(0, loads.count).join(" "));
        continue;
      }
      pauses++;
      // 64 tasks put to a side count as one step; a question just begun looks at each of the ten tasks twice.
      expect(loads.steps).toBeGreaterThanOrEqual(most);
      expect(station.orderSteps).toBeLessThan(64 * (most + 1) + 20);
      most += stretch;
    }
  };
  const whole = walk(Number.MAX_SAFE_INTEGER);
  expect(whole.pauses).toBe(0);
  // No load holds all ten, and some hold nine.
  expect(Math.max(...whole.found.map((load) => load.split(" ").length))).toBe(9);
  for (const stretch of [1, 7]) {
    const cut = walk(stretch);
    expect([cut.found, cut.steps]).toEqual([whole.found, whole.steps]);
    expect(cut.pauses).toBeGreaterThan(10);
  }
});

it("a search makes no more steps than its nodes, and claims no proof for a walk that was cut", async () => {
  const search = (nodes: number) =>
    runSearchBelow(PROBLEM, ANY, PEOPLE_FIRST, { nodes, memory: 1_000 }, () => null);
  const whole = await search(1_000_000);
  expect(whole.ended).toBe("proved");
  for (const nodes of [1, 10, 100, whole.nodes - 10]) {
    const cut = await search(nodes);
    expect(cut.ended).toBe("nodes");
    expect(cut.nodes).toBeLessThan(nodes + 3);
  }
});
