import { describe, expect, it } from "vitest";
import type { Side } from "../../../../src/line/line.js";
import { ONE_PERSON } from "../../../../src/plan/plan.js";
import { dwellAt, taskStarts } from "../../../../src/plan/station-schedule.js";
import { arrangeStation } from "../../../../src/solve/station/arrange-station.js";
import { toNumber } from "../../../../src/time/ratio.js";
import { floorLine } from "../../../tools/floor-line.js";
import { floorProblemOf } from "../../../tools/floor-plans.js";
import { idsOf, paceOf } from "../../../tools/line-of.js";

/** The tasks of a line in order of their names as "a/left 0-30", then how long a unit stands and the crew; null where they do not fit. */
function work(rows: readonly string[], sides: Record<string, Side | "both">, limit: number): string[] | null {
  const terms = (side: Side | "both") =>
    side === "both" ? { side: "either" as const, people: 2 } : { side };
  const tasks = Object.fromEntries(
    rows.map((row) => [row.split(" ")[0]!, terms(sides[row.split(" ")[0]!] ?? "either")]),
  );
  const line = floorLine(rows, { tasks });
  const problem = floorProblemOf(line, paceOf(limit));
  const blocks = [...line.tasks.keys()];
  const station = { position: 0, blocks, places: 1, crew: 1 };
  const [one, two] = [arrangeStation(problem, station), arrangeStation(problem, { ...station, crew: 2 })];
  const order = one ?? two;
  if (order === null) return null;
  const planned = { ...ONE_PERSON, id: "S1", ...order };
  const names = idsOf(line, order.tasks);
  const starts = taskStarts(line, planned).map((start) => toNumber(start) / 1e6);
  const told = order.tasks.map((task, at) => {
    const end = starts[at]! + toNumber(line.tasks[task]!.load) / 1e6;
    return `${names[at]}/${order.sides![at]} ${starts[at]}-${end}`;
  });
  return [...told.sort(), `${toNumber(dwellAt(line, planned)) / 1e6} by ${one === null ? 2 : 1}`];
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
