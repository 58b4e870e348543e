import { describe, expect, it } from "vitest";
import { layOutWork } from "../../../src/solve/lay-out-work.js";
import { partsOf } from "../../../src/solve/parts.js";
import { timeHeld } from "../../../src/solve/time-held.js";
import { ratio } from "../../../src/time/ratio.js";
import { type FloorTerms, floorLine, s } from "../../tools/floor-line.js";
import { blocksOf, floorProblemOf } from "../../tools/floor-plans.js";
import { paceWith } from "../../tools/floor-random-line.js";
import { paceOf } from "../../tools/line-of.js";

const problemOf = (rows: readonly string[], terms: FloorTerms = {}, pace = paceOf(60)) =>
  floorProblemOf(floorLine(rows, terms), pace);

describe("loads", () => {
  it("are whole numbers of parts, whatever fractions of a microsecond tests and rare tasks make", () => {
    // A failure in 97 tests: 100/97 visits for a good unit. Every third unit: a third of the time.
    const line = floorLine(["a 30", "b 20", "c 10"], {
      tasks: { a: { visits: ratio(100, 97) }, b: { every: 3 } },
    });
    const problem = floorProblemOf(line);
    expect(partsOf(line)).toBe(291n);
    // 30 s x 100/97 x 291 parts; 20 s / 3 x 291; 10 s x 291.
    expect(problem.loads).toEqual([s(30) * 300, s(20) * 97, s(10) * 291]);
    expect(problem.kinds[0]!.limits).toEqual([s(60) * 291]);
  });

  it("fill a station exactly where fractions add up to it", () => {
    // Three times 60/3 s make 60 s, and not a part more.
    const line = floorLine(["a 60", "b 60", "c 60"], {
      tasks: { a: { every: 3 }, b: { every: 3 }, c: { every: 3 } },
    });
    const problem = floorProblemOf(line);
    expect(problem.loads.reduce((sum, each) => sum + each, 0)).toBe(problem.kinds[0]!.limits[0]);
  });

  it("of blocks are the sums of their tasks, people the most, and work the time of all people", () => {
    const line = floorLine(["a 30", "b 20", "c 10"], {
      together: [["a", "b"]],
      tasks: { b: { people: 2 } },
    });
    const problem = floorProblemOf(line);
    const [first, second] = blocksOf(line, problem, "a", "c");
    expect([problem.loads[first!], problem.people[first!], problem.work[first!]]).toEqual([s(50), 2, s(70)]);
    expect([problem.loads[second!], problem.people[second!], problem.work[second!]]).toEqual([
      s(10),
      1,
      s(10),
    ]);
  });

  it("of models are counted one by one where they are held so", () => {
    const models = [
      { id: "city", share: ratio(3, 4) },
      { id: "cargo", share: ratio(1, 4) },
    ];
    const tasks = { a: { times: [s(30), s(50)], walking: s(2) }, b: { times: [s(20), null], every: 2 } };
    const problem = problemOf(["a 0", "b 0"], { models, tasks, modelOverload: ratio(1, 10) });
    // a: 3/4 x 32 + 1/4 x 52 = 37 s; b: 3/4 x 20 / 2 = 7.5 s; in halves of a microsecond.
    expect(problem.loads).toEqual([s(37) * 2, s(7.5) * 2]);
    expect(problem.modelLoads).toEqual([
      [s(32) * 2, s(10) * 2],
      [s(52) * 2, 0],
    ]);
    expect(problem.kinds[0]!.modelLimits).toEqual([s(66) * 2]);
    expect(problemOf(["a 0", "b 0"], { models, tasks }).modelLoads).toEqual([]);
  });
});

describe("limits", () => {
  it("are (places x line cycle - handling) x plan-to, and without plan-to for a task alone", () => {
    const floor = [{ id: "S1", maxPlaces: 1, planTo: ratio(1, 2) }, { id: "S2" }];
    const { kinds } = problemOf(["a 10"], { floor, maxPlaces: 2 }, paceWith(60, 4, ratio(9, 10)));
    // 60 - 4 = 56 and 120 - 4 = 116 s; half of 56 s, 90 % of 56 and of 116 s.
    const plain = { modelLimits: [], modelDwell: [], holds: 1, maxCrew: 1, atOnce: 1, morePasses: [] };
    expect(kinds).toEqual([
      { ...plain, limits: [s(28)], alone: [s(56)], dwell: [s(56)] },
      { ...plain, limits: [s(50.4), s(104.4)], alone: [s(56), s(116)], dwell: [s(56), s(116)] },
      { ...plain, limits: [s(50.4), s(104.4)], alone: [s(56), s(116)], dwell: [s(56), s(116)] },
    ]);
  });

  it("hold for tasks alone too where they are strict", () => {
    const line = floorLine(["a 10"]);
    const { kinds } = floorProblemOf(line, paceWith(60, 0, ratio(9, 10)), true);
    expect(kinds).toMatchObject([{ limits: [s(54)], alone: [s(54)], modelLimits: [], modelDwell: [] }]);
  });

  it("let units stand for the working time, as often as a place holds some, and are kept by each person of a shared crew", () => {
    const floor = [{ id: "S1", holds: 3, maxCrew: 1 }];
    const line = floorLine(["a 10"], { floor, holds: 2, maxCrew: 3 });
    const { kinds } = floorProblemOf(line, paceWith(60, 4, ratio(9, 10)));
    // 3 x 56 s at S1, 2 x 56 s behind it; hands keep 90 % of 56 s.
    expect(kinds.map(({ dwell, atOnce, limits }) => [dwell, atOnce, limits])).toEqual([
      [[s(168)], 1, [s(50.4)]],
      [[s(112)], 3, [s(50.4)]],
    ]);
  });

  it("are cut at the longest cycle asked for: places x cycle - handling", () => {
    const line = floorLine(["a 10"], { maxPlaces: 2 });
    const limits = { pace: paceWith(60, 4), strictLimit: false, slowest: ratio(s(45)), free: false };
    expect(layOutWork(line, limits).kinds).toMatchObject([
      {
        limits: [s(41), s(86)],
        alone: [s(41), s(86)],
        modelLimits: [],
        modelDwell: [],
        dwell: [s(41), s(86)],
      },
    ]);
  });
});

describe("machines", () => {
  const machine = { equipment: ["press"], machineTime: s(20) };

  it("are held while they are loaded and while they run, by visits and only on every so many units", () => {
    const tasks = { a: { ...machine, visits: ratio(11, 10) }, b: { ...machine, every: 2 } };
    const line = floorLine(["a 10", "b 10", "c 10"], { tasks, equipment: { press: 2 } });
    const [press] = floorProblemOf(line, paceOf(60)).equipment;
    expect(press).toMatchObject({ name: "press", count: 2, needs: [true, true, false] });
    // a: (10 + 20) x 1.1 = 33 s; b: (10 + 20) / 2 = 15 s; two have 2 x 60 s for a unit.
    expect([0, 1, 2].map((task) => timeHeld(line, task))).toEqual([ratio(s(33)), ratio(s(15)), ratio(s(10))]);
    expect(press!.time(2)).toBe(s(120) * Number(partsOf(line)));
  });

  it("run for the models that have the task", () => {
    const models = [
      { id: "city", share: ratio(3, 5) },
      { id: "cargo", share: ratio(2, 5) },
    ];
    const tasks = { a: { ...machine, times: [s(10), null] } };
    const line = floorLine(["a 0"], { models, tasks, equipment: { press: 1 } });
    // Three units of five: 3/5 x (10 + 20) = 18 s.
    expect(timeHeld(line, 0)).toEqual(ratio(s(18)));
  });

  it("are counted exactly at a line cycle of no whole number of microseconds", () => {
    // 100 s in three cycles of 33 1/3 s; the cycle cut to whole microseconds would ask for a fourth machine.
    const pace = { ...paceOf(30), lineCycle: ratio(s(100), 3) };
    const tasks = { a: { equipment: ["press"], machineTime: s(80) } };
    const [press] = problemOf(["a 20"], { tasks, equipment: { press: 3 } }, pace).equipment;
    expect(press!.time(3)).toBe(s(100));
  });
});

describe("skills", () => {
  const tasks = { a: { skills: ["brakes"] }, b: { skills: ["wheels", "brakes"] } };
  const people = [
    { id: "early-1", skills: ["wheels", "first aid"] },
    { id: "early-2", skills: ["brakes", "wheels"] },
  ];

  it("are sets of bits of those that tasks need", () => {
    const { skills } = problemOf(["a 10", "b 10", "c 10"], { tasks, people });
    expect(skills).toMatchObject({ needs: [0b01n, 0b11n, 0n], people: [0b10n, 0b11n] });
  });

  it("of people count for nothing where stations say what they have, or no task needs any", () => {
    const floor = [{ id: "S1", skills: ["brakes", "wheels"] }];
    expect(problemOf(["a 10", "b 10"], { tasks, people, floor }).skills).toBeNull();
    expect(problemOf(["a 10", "b 10"], { people }).skills).toBeNull();
  });
});

it("keeps every arrow from a smaller number of a block to a larger one", () => {
  const line = floorLine(["a 10 c", "b 10 a", "c 10"], { together: [["a", "b"]] });
  const problem = floorProblemOf(line);
  expect(problem.members).toEqual([[2], [0, 1]]);
  expect([problem.before, problem.after]).toEqual([
    [[], [0]],
    [[1], []],
  ]);
});
