import { describe, expect, it } from "vitest";
import { cycleOfPost } from "../../../src/plan/figures/cycle.js";
import { measureStations } from "../../../src/plan/measure.js";
import { postsOf } from "../../../src/plan/post.js";
import { dwellAt, equipmentTimes, meanTimeAt, taskStarts } from "../../../src/plan/station-schedule.js";
import { type Ratio, ratio, toNumber } from "../../../src/time/ratio.js";
import { type FloorTerms, floorLine, planFrom, s } from "../../tools/floor-line.js";
import { paceOf } from "../../tools/line-of.js";

const inSeconds = (time: Ratio) => toNumber(time) / 1e6;

/** The first station of a plan in seconds: starts, dwell, station time, what is kept of equipment, cycle of the post at 200 s. */
function stationOf(rows: readonly string[], row: string, terms: FloorTerms = {}, crew = 1) {
  const line = floorLine(rows, terms);
  const plan = planFrom(line, [row], terms.maxCrew === undefined ? { S1: crew } : {});
  const [station] = plan.stations;
  const [post] = postsOf(line, paceOf(200), plan);
  return {
    starts: taskStarts(line, station!).map(inSeconds),
    dwell: inSeconds(dwellAt(line, station!)),
    time: inSeconds(meanTimeAt(line, station!)),
    held: [...equipmentTimes(line, station!)].map(([name, time]) => [name, inSeconds(time)]),
    cycle: inSeconds(cycleOfPost(post!)),
  };
}

const rig = { equipment: ["rig"] };

describe("a station without machines, sides and shared crews", () => {
  it("has each task start when the one before has ended, and a unit stand for the sum of the loads: 30 + 20 + 40 = 90 s", () => {
    expect(stationOf(["a 30", "b 20", "c 40"], "S1: a b c")).toMatchObject({
      starts: [0, 30, 50],
      dwell: 90,
      time: 90,
      cycle: 90,
    });
  });

  it("counts work done again in the dwell as in the load: 30 + 20 x 1.25 = 55 s", () => {
    const tasks = { b: { visits: ratio(5, 4) } };
    expect(stationOf(["a 30", "b 20"], "S1: a b", { tasks })).toMatchObject({ dwell: 55, time: 55 });
  });
});

describe("one rig on which two tasks are loaded for 20 s and run 90 s, and 60 s of other work", () => {
  const rows = ["a 20", "b 20 a", "other 60"];
  const terms = {
    tasks: { a: { ...rig, machineTime: s(90) }, b: { ...rig, machineTime: s(90) } },
    equipment: { rig: 1 },
  };

  it("keep the rig for 20 + 90 + 20 + 90 = 220 s, the other work done meanwhile", () => {
    expect(stationOf(rows, "S1: a other b", terms)).toEqual({
      starts: [0, 20, 110],
      dwell: 220,
      time: 100,
      held: [["rig", 220]],
      cycle: 220,
    });
    // Behind b it is done while that runs: from 130 s to 190 s.
    expect(stationOf(rows, "S1: a b other", terms)).toMatchObject({ starts: [0, 110, 130], dwell: 220 });
  });

  it("go every 110 s where a place has room for two units and there are two rigs", () => {
    const roomy = { ...terms, holds: 2, equipment: { rig: 2 } };
    expect(stationOf(rows, "S1: a other b", roomy)).toMatchObject({ dwell: 220, cycle: 110 });
    // With one rig two units at a place do not help.
    expect(stationOf(rows, "S1: a other b", { ...terms, holds: 2 })).toMatchObject({ cycle: 220 });
  });
});

describe("equipment", () => {
  const hold = { tasks: { hook: rig, test: { ...rig, machineTime: s(150) }, unhook: rig } };

  it("is kept from hook to unhook: 40 + 35 + 150 + 20 = 245 s", () => {
    expect(
      stationOf(["hook 40", "test 35 hook", "unhook 20 test"], "S1: hook test unhook", hold),
    ).toMatchObject({
      starts: [0, 40, 225],
      dwell: 245,
      held: [["rig", 245]],
    });
  });

  it("is kept through work in between along the arrows, 20 + 70 + 20 = 110 s, and let go without them, 20 + 20 = 40 s", () => {
    const tasks = { hook: rig, unhook: rig };
    const linked = stationOf(["hook 20", "look 70 hook", "unhook 20 look"], "S1: hook look unhook", {
      tasks,
    });
    expect(linked.held).toEqual([["rig", 110]]);
    const loose = stationOf(["hook 20", "look 70", "unhook 20"], "S1: hook look unhook", { tasks });
    expect(loose.held).toEqual([["rig", 40]]);
  });

  it("is taken by somebody else only when the unit is done with it: the other starts after 20 + 20 = 40 s", () => {
    const tasks = { one: rig, two: rig, other: rig };
    const terms = { tasks, maxCrew: 2 };
    const rows = ["one 20", "two 20 one", "other 30"];
    expect(stationOf(rows, "S1: one/1 two/1 other/2", terms)).toMatchObject({
      starts: [0, 20, 40],
      dwell: 70,
    });
    expect(stationOf(rows, "S1: one/1 other/2 two/1", terms)).toMatchObject({
      starts: [0, 40, 20],
      dwell: 70,
    });
  });

  it("that exists twice goes to the station that keeps it longest: 150 / 2 = 75 s before 90 s", () => {
    const line = floorLine(["a 90", "b 150"], {
      tasks: { a: rig, b: rig },
      equipment: { rig: 3 },
      maxPlaces: 2,
    });
    const posts = postsOf(line, paceOf(80), planFrom(line, ["S1 x2: a", "S2 x2: b"]));
    expect(posts.map(({ equipment }) => equipment.map(({ units }) => units))).toEqual([[1], [2]]);
    expect(posts.map(cycleOfPost).map(inSeconds)).toEqual([90, 75]);
  });

  it("that is left over goes to a place where a second unit would wait for it: max(60, 67 / 2) = 60 s, and nowhere else", () => {
    const line = floorLine(["a 50", "d 42 a", "c 22", "e 38"], {
      tasks: { d: rig, c: { ...rig, machineTime: s(45) } },
      equipment: { rig: 3 },
      holds: 2,
    });
    const posts = postsOf(line, paceOf(95), planFrom(line, ["S1: a d", "S2: c e"]));
    expect(posts.map(({ equipment }) => equipment.map(({ units }) => units))).toEqual([[1], [1]]);
    const uneven = floorLine(["a 50", "c 22", "e 38"], {
      tasks: { a: rig, c: { ...rig, machineTime: s(45) } },
      equipment: { rig: 3 },
      holds: 2,
    });
    const others = postsOf(uneven, paceOf(87), planFrom(uneven, ["S1: a", "S2: c e"]));
    expect(others.map(({ equipment }) => equipment.map(({ units }) => units))).toEqual([[1], [2]]);
    expect(others.map(cycleOfPost).map(inSeconds)).toEqual([50, 60]);
  });
});

describe("people who share a unit", () => {
  it("are each busy with their own tasks: max(30 + 20, 40) = 50 s, both at the lift from 40 s on", () => {
    const terms = { tasks: { lift: { people: 2 } }, maxCrew: 2 };
    const found = stationOf(["a 30", "b 40", "lift 10", "c 10"], "S1: a/1 b/2 lift/1+2 c/1", terms);
    expect(found).toMatchObject({ starts: [0, 0, 40, 50], dwell: 60, time: 50, cycle: 60 });
  });

  it("wait for each other along arrows: 30 + 40 = 70 s for 40 s of work of the busier", () => {
    const found = stationOf(["a 30", "b 40 a"], "S1: a/1 b/2", { maxCrew: 2 });
    expect(found).toMatchObject({ starts: [0, 30], dwell: 70, time: 40, cycle: 70 });
    expect(stationOf(["a 30", "b 40 a"], "S1: a/1 b/2", { maxCrew: 2, holds: 2 })).toMatchObject({
      cycle: 40,
    });
  });

  it("idle for what is left of their working time: 2 x 200 - (30 + 40 + 2 x 10) = 310 s", () => {
    const line = floorLine(["a 30", "b 40", "lift 10"], { tasks: { lift: { people: 2 } }, maxCrew: 2 });
    const [station] = measureStations(line, paceOf(200), planFrom(line, ["S1: a/1 b/2 lift/1+2"]));
    expect([inSeconds(station!.idle), inSeconds(station!.waitingTime), station!.operators]).toEqual([
      310, 0, 2,
    ]);
  });
});

describe("starts on average", () => {
  it("count a task that half of the units have as one of no time for the others: (20 + 0) / 2 = 10 s", () => {
    const models = [
      { id: "city", share: ratio(1, 2) },
      { id: "cargo", share: ratio(1, 2) },
    ];
    const tasks = { a: { times: [s(20), null] }, b: { times: [s(30), s(30)] } };
    expect(stationOf(["a 20", "b 30"], "S1: a b", { models, tasks }).starts).toEqual([0, 10]);
  });

  it("and one of every 4th unit as a quarter: 20 / 4 = 5 s", () => {
    expect(stationOf(["a 20", "b 30"], "S1: a b", { tasks: { a: { every: 4 } } }).starts).toEqual([0, 5]);
  });
});
