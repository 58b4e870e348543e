import { describe, expect, it } from "vitest";
import type { Line } from "../../../../src/line/line.js";
import { taskStarts } from "../../../../src/plan/station-schedule.js";
import { fitSides } from "../../../../src/solve/station/sides/fit-sides.js";
import type { SideSchedule, WorkSide } from "../../../../src/solve/station/sides/side-problem.js";
import { toNumber } from "../../../../src/time/ratio.js";
import { idsOf, shortLine } from "../../../tools/line-of.js";

/** The tasks of a line in order of their names as "a/left 0-30", then finish and crew; null where they do not fit. */
function work(rows: readonly string[], sides: Record<string, WorkSide>, limit: number): string[] | null {
  const line = shortLine(rows);
  const loads = line.tasks.map(({ load }) => Number(load.num) / 1e6);
  const problem = {
    sides: line.tasks.map(({ id }) => sides[id] ?? "either"),
    rows: [loads],
    modelOf: [0],
    isBuilt: [true],
    again: [loads.map(() => 0)],
    before: line.before,
  };
  const schedule = fitSides(problem, [...line.tasks.keys()], {
    mean: limit,
    models: [Number.POSITIVE_INFINITY],
  });
  return schedule && tell(line, schedule, loads);
}

function tell(line: Line, schedule: SideSchedule, loads: readonly number[]): string[] {
  const names = idsOf(line, schedule.tasks);
  const starts = taskStarts(line, { id: "S1", places: 1, persons: null, ...schedule })!;
  const rows = schedule.tasks.map((task, at) => {
    const start = toNumber(starts[at]!) / 1e6;
    return `${names[at]}/${schedule.sides[at]} ${start}-${start + loads[task]!}`;
  });
  return [...rows.sort(), `${schedule.finish} by ${schedule.crew}`];
}

describe("30 s on the left and 40 s on the right", () => {
  const sides = { L1: "left", R1: "right" } as const;

  it("end after 70 s where the right waits for the left, though the sides hold 30 and 40 s", () => {
    const rows = ["L1 30", "R1 40 L1"];
    expect(work(rows, sides, 60)).toBeNull();
    expect(work(rows, sides, 69)).toBeNull();
    expect(work(rows, sides, 70)).toEqual(["L1/left 0-30", "R1/right 30-70", "70 by 2"]);
  });

  it("end after 40 s where neither waits", () => {
    expect(work(["L1 30", "R1 40"], sides, 60)).toEqual(["L1/left 0-30", "R1/right 0-40", "40 by 2"]);
  });
});

it("puts all of it at one side where that is enough, as one person is preferred to two", () => {
  expect(work(["a 20", "b 30"], {}, 60)).toEqual(["a/left 0-20", "b/left 20-50", "50 by 1"]);
  expect(work(["a 20", "b 30"], { b: "right" }, 60)).toEqual(["a/right 0-20", "b/right 20-50", "50 by 1"]);
  // 50 s are too much for one: the sides end after 20 and 30 s.
  expect(work(["a 20", "b 30"], {}, 49)).toEqual(["a/left 0-20", "b/right 0-30", "30 by 2"]);
});

it("keeps both sides busy while two people work together", () => {
  // Left 30 and right 20 s, then both 15 s: the right waits 10 s.
  const sides = { a: "left", b: "right", c: "both" } as const;
  expect(work(["a 30", "b 20", "c 15 a b"], sides, 60)).toEqual([
    "a/left 0-30",
    "b/right 0-20",
    "c/both 30-45",
    "45 by 2",
  ]);
  expect(work(["a 30", "b 20", "c 15 a b"], sides, 44)).toBeNull();
});

it("finds the order that an order by length or by name misses", () => {
  // r 30 waits for c 10. With c behind a on the left r ends at 10 + 20 + 30 = 60; with c first at 40, and a at 30.
  const sides = { a: "left", c: "left", r: "right" } as const;
  expect(work(["a 20", "c 10", "r 30 c"], sides, 40)).toEqual([
    "a/left 10-30",
    "c/left 0-10",
    "r/right 10-40",
    "40 by 2",
  ]);
  expect(work(["a 20", "c 10", "r 30 c"], sides, 39)).toBeNull();
});

describe("two models of half the units each, 40 s of each task on the mean", () => {
  // One model takes 60 s for a and 20 s for b, the other 20 s for a and 60 s for b; half of that is their share.
  const rows = [
    [30, 10],
    [10, 30],
  ];
  const end = (
    sides: readonly WorkSide[],
    before: readonly (readonly number[])[],
    mean: number,
    model = Number.POSITIVE_INFINITY,
    isBuilt = [true, true],
  ) => {
    const problem = { sides, rows, modelOf: [0, 1], isBuilt, again: [NOTHING, NOTHING], before };
    const schedule = fitSides(problem, [0, 1], { mean, models: [model / 2, model / 2] });
    return schedule && [schedule.finish, ...schedule.ends.map((each) => 2 * each), schedule.crew];
  };

  it("take 60 s each at both sides, and so 60 s on average, where mean times would end after 40 s", () => {
    expect(end(["either", "either"], [[], []], 80)).toEqual([80, 80, 80, 1]);
    expect(end(["either", "either"], [[], []], 79)).toEqual([60, 60, 60, 2]);
    expect(end(["either", "either"], [[], []], 59)).toBeNull();
  });

  it("are held to what one of them may take", () => {
    expect(end(["either", "either"], [[], []], 80, 79)).toEqual([60, 60, 60, 2]);
    expect(end(["either", "either"], [[], []], 80, 59)).toBeNull();
  });

  it("are held to it even where one is not built now", () => {
    expect(end(["either", "either"], [[], []], 40, 80, [true, false])).toEqual([40, 80, 80, 1]);
    expect(end(["either", "either"], [[], []], 40, 79, [true, false])).toEqual([30, 60, 60, 2]);
    expect(end(["either", "either"], [[], []], 40, 59, [true, false])).toBeNull();
  });

  it("take 80 s where one side waits for the other, each with starts of its own", () => {
    expect(end(["left", "right"], [[], [0]], 80)).toEqual([80, 80, 80, 2]);
    expect(end(["left", "right"], [[], [0]], 79)).toBeNull();
  });
});

const NOTHING = [0, 0];

describe("50 s on the left and 40 on the right, and 20 s more on the right of every 10th unit", () => {
  const problem = {
    sides: ["left", "right", "right"] as const,
    // Of ten units nine, and the tenth.
    rows: [
      [450, 360, 0],
      [50, 40, 20],
    ],
    modelOf: [0, 0],
    isBuilt: [true],
    again: [[0, 0, 0]],
    before: [[], [], []],
  };
  const finish = (again: readonly number[], mean: number, model = Number.POSITIVE_INFINITY) =>
    fitSides({ ...problem, again: [again] }, [0, 1, 2], { mean, models: [model] })?.finish;

  it("are 9 x 50 s and 60 s for ten units", () => {
    expect(finish([0, 0, 0], 510)).toBe(510);
    expect(finish([0, 0, 0], 509)).toBeUndefined();
  });

  it("are held together to what the model may take", () => {
    expect(finish([0, 0, 0], 600, 510)).toBe(510);
    expect(finish([0, 0, 0], 600, 509)).toBeUndefined();
  });

  it("take longer by all that is done again, whichever side it is done at", () => {
    expect(finish([0, 8, 2], 520)).toBe(520);
    expect(finish([0, 8, 2], 519)).toBeUndefined();
    expect(finish([0, 8, 2], 600, 519)).toBeUndefined();
  });
});
