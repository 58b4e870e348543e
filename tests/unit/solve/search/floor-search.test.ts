import { describe, expect, it } from "vitest";
import { floorLine, s } from "../../../tools/floor-line.js";
import { solveFloor } from "../../../tools/floor-plans.js";
import { paceOf } from "../../../tools/line-of.js";

/**
 * Without rules, some best plan has full stations only: no task that is ready and fits is left for later (J. R. Jackson, A
 * Computing Procedure for a Line Balancing Problem, 1956). Each line here has a rule under which every best plan leaves such a
 * task out of its first station: b is ready there and fits, at 20 + 10 + 30 = 60 s, but c can only be done at the next.
 */
describe("at 60 s a task that is ready and fits is left for a later station", () => {
  const rows = ["a 20", "b 30 a", "c 30 d", "d 10 a"];

  it("on no account of a line without rules", async () => {
    expect(await solveFloor(floorLine(rows))).toEqual(["S1: a b d", "S2: c"]);
  });

  it("where b and c share the one press that there is", async () => {
    // b at the first station would take the press there, and c find none.
    const tasks = { b: { equipment: ["press"] }, c: { equipment: ["press"] } };
    expect(await solveFloor(floorLine(rows, { tasks, equipment: { press: 1 } }))).toEqual([
      "S1: a d",
      "S2: b c",
    ]);
    expect(await solveFloor(floorLine(rows, { tasks, equipment: { press: 2 } }))).toEqual([
      "S1: a b d",
      "S2: c",
    ]);
  });

  it("where b and c need the one person with their skill", async () => {
    const tasks = { b: { skills: ["brakes"] }, c: { skills: ["brakes"] } };
    const one = [{ id: "early-1", skills: ["brakes"] }];
    expect(await solveFloor(floorLine(rows, { tasks, people: one }))).toEqual(["S1: a d", "S2: b c"]);
    const two = [...one, { id: "early-2", skills: ["brakes"] }];
    expect(await solveFloor(floorLine(rows, { tasks, people: two }))).toEqual(["S1: a b d", "S2: c"]);
  });

  it("where b and c are for two people, so that only one station has a crew of two", async () => {
    // b at the first station: 2 + 2 people; b and c together: 1 + 2.
    const tasks = { b: { people: 2 }, c: { people: 2 } };
    expect(await solveFloor(floorLine(rows, { tasks }))).toEqual(["S1: a d", "S2: b c by 2"]);
  });

  it("where b would cost its station a second place", async () => {
    // c and d apart: b beside d is 70 s at two places, and c a third person; b beside c is 60 s, two people in all.
    const longer = ["b 30", "c 30 d", "d 40"];
    expect(await solveFloor(floorLine(longer, { maxPlaces: 2, apart: [["c", "d"]] }))).toEqual([
      "S1: d",
      "S2: b c",
    ]);
    // All three are 100 s, two people at one station.
    expect(await solveFloor(floorLine(longer, { maxPlaces: 2 }))).toEqual(["S1 x2: b d c"]);
  });

  it("where a station worked from both sides would need a second person", async () => {
    const tasks = {
      a: { side: "left" },
      b: { side: "right" },
      c: { side: "right" },
      d: { side: "left" },
    } as const;
    expect(await solveFloor(floorLine(rows, { tasks }))).toEqual([
      "S1: a/left d/left",
      "S2: b/right c/right",
    ]);
  });
});

describe("a position stays empty", () => {
  it("where a wait asks for more stations than there is work for", async () => {
    const line = floorLine(["glue 30", "fit 30 glue", "check 30 fit"], {
      waits: [{ after: "fit", on: "glue", stations: 3 }],
    });
    // Nothing may stand between S1 and S4: everything else comes behind what waits.
    expect(await solveFloor(line)).toEqual(["S1: glue", "S4: fit check"]);
  });

  it("where a task may not stand before a later station", async () => {
    const floor = [{ id: "S1" }, { id: "S2" }, { id: "S3" }];
    const tasks = { a: { notBefore: 1 }, c: { stations: [2] } };
    expect(await solveFloor(floorLine(["a 30", "b 30 a", "c 30 b"], { floor, tasks }))).toEqual([
      "S2: a b",
      "S3: c",
    ]);
  });

  it("where the station behind it holds all of the work, and this one only a part", async () => {
    // a can stand at S2 only; b at S1 would be a second station.
    const floor = [
      { id: "S1", zone: "paint" },
      { id: "S2", zone: "assembly" },
    ];
    const tasks = { a: { zone: "assembly" } };
    expect(await solveFloor(floorLine(["a 30", "b 30"], { floor, tasks }))).toEqual(["S2: a b"]);
  });

  it("only where no other work can be done there", async () => {
    const line = floorLine(["c 60 glue", "fit 30 c", "glue 30"], {
      waits: [{ after: "fit", on: "glue", stations: 2 }],
    });
    expect(await solveFloor(line)).toEqual(["S1: glue", "S2: c", "S3: fit"]);
  });
});

describe("people come before stations", () => {
  it("so that a second place is taken only where no second station is better", async () => {
    // 40 + 40 s: two people at any rate, and one station of two places is fewer than two stations.
    expect(await solveFloor(floorLine(["a 40", "b 40"], { maxPlaces: 2 }))).toEqual(["S1 x2: a b"]);
  });

  it("so that a task longer than the cycle gets two places, and so does what follows", async () => {
    // 36 + 30 + 18 + 12 + 30 = 126 s are 4.2 people at 30 s, so five; two stations of two places have four.
    const line = floorLine(["a 36", "b 30 a", "c 18 b", "d 12 c", "e 30 d"], { maxPlaces: 2 });
    expect(await solveFloor(line, paceOf(30))).toEqual(["S1 x2: a", "S2 x2: b c d", "S3: e"]);
  });
});

it("gives a machine that is too slow for one as many as there are", async () => {
  // a: 8 + 25 = 33 s of a press in 30 s, and b 9 s, so two of them where two units may stand; b uses the same ones at this station only.
  const tasks = { a: { equipment: ["press"], machineTime: s(25) }, b: { equipment: ["press"] } };
  const rows = ["a 8", "b 9", "c 20 a"];
  const solve = (press: number, holds: number) =>
    solveFloor(floorLine(rows, { tasks, equipment: { press }, holds }), paceOf(30));
  expect(await solve(2, 2)).toEqual(["S1: a b", "S2: c"]);
  expect(await solve(1, 2)).toBeNull();
  // The unit stands 33 s.
  expect(await solve(2, 1)).toBeNull();
});

it("needs 3 people for 90 s by hand, however long machines run, where units may stand as long", async () => {
  // At 30 s; 60 s of running are nobody's work.
  const tasks = { a: { machineTime: s(30) }, b: { machineTime: s(30) } };
  expect(await solveFloor(floorLine(["a 30", "b 30", "c 30"], { tasks, holds: 2 }), paceOf(30))).toEqual([
    "S1: a",
    "S2: b",
    "S3: c",
  ]);
});
