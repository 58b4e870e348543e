import { expect, it } from "vitest";
import type { Line } from "../../../../src/line/line.js";
import { FirstPlans } from "../../../../src/solve/improve/first-plans.js";
import { type FloorTerms, floorLine } from "../../../tools/floor-line.js";
import { blocksOf, floorProblemOf, rowsOfFloor } from "../../../tools/floor-plans.js";
import { idsOf } from "../../../tools/line-of.js";

/** Stations of 60 s. */
function run(
  rows: readonly string[],
  terms: FloorTerms,
  nodes = 5_000,
  startFrom: readonly number[] | null = null,
) {
  const line: Line = floorLine(rows, terms);
  const work = floorProblemOf(line);
  const plans = new FirstPlans(work, { nodes }, startFrom);
  for (const _ of plans.stretches());
  const left = () =>
    idsOf(
      line,
      plans.unfinished.left.map((block) => work.members[block]![0]!),
    );
  return { line, work, plans, rows: rowsOfFloor(line, work, plans.best), left };
}

const FLOOR = [{ id: "S1" }, { id: "S2" }, { id: "S3" }];

it("opens a second place where a task can stand nowhere else", () => {
  // c (40 s) may only stand at S2, and so may d (40 s): 80 s need two places of 60 s there.
  const floor = FLOOR.map((each) => ({ ...each, maxPlaces: each.id === "S2" ? 2 : 1 }));
  const terms = { floor, tasks: { c: { stations: [1] }, d: { stations: [1] } } };
  expect(run(["a 50", "b 30 a", "c 40 a", "d 40 c", "e 60 d"], terms).rows).toEqual([
    "S1: a",
    "S2 x2: b c d",
    "S3: e",
  ]);
});

it("brings the tasks for two people to one station", () => {
  // 4 x 30 s fill two stations of 60 s. With b and d together they take 1 + 2 people, apart they would take 2 + 2.
  const terms = { tasks: { b: { people: 2 }, d: { people: 2 } } };
  expect(run(["a 30", "b 30", "c 30", "d 30"], terms).rows).toHaveLength(2);
  const people = run(["a 30", "b 30", "c 30", "d 30"], terms).plans.best!.map(({ crew }) => crew);
  expect(people.sort()).toEqual([1, 2]);
});

it("closes a station of a given plan", () => {
  // 20 + 40 and 25 + 35 fill two stations; the given plan takes three.
  const { line, work } = run(["a 20", "b 40", "c 25", "d 35"], {});
  const startFrom = work.loads.map(() => 0);
  for (const [at, ids] of [["a", "c"], ["b"], ["d"]].entries())
    for (const block of blocksOf(line, work, ...ids)) startFrom[block] = at;
  expect(run(["a 20", "b 40", "c 25", "d 35"], {}, 5_000, startFrom).rows).toHaveLength(2);
});

it("mends a given plan that breaks a rule, and leaves the rest as it is", () => {
  // b stands before a, which it needs, and c at S3 though it may stand no later than S2.
  const terms = { floor: FLOOR, tasks: { c: { notAfter: 1 } } };
  const rows = ["a 50", "b 50 a", "c 10", "d 50 b"];
  const { line, work } = run(rows, terms);
  const startFrom = work.loads.map(() => 0);
  for (const [id, at] of Object.entries({ a: 1, b: 0, c: 2, d: 2 }))
    startFrom[blocksOf(line, work, id)[0]!] = at;
  const mended = run(rows, terms, 5_000, startFrom);
  expect(mended.rows).toHaveLength(3);
  expect(mended.rows!.at(-1)).toMatch(/^S3: (a|b|d)/);
});

it("tells which tasks find no station where no plan is found", () => {
  // Three tasks of 40 s must be done by S2, and each fills a station of 60 s: one is left over.
  const terms = { floor: FLOOR, tasks: { a: { notAfter: 1 }, b: { notAfter: 1 }, c: { notAfter: 1 } } };
  const { rows, plans, left } = run(["a 40", "b 40", "c 40", "d 20"], terms, 2_000);
  expect(rows).toBeNull();
  expect(left()).toHaveLength(1);
  expect("abc").toContain(left()[0]!);
  // d finds room beside one of the others.
  expect(plans.unfinished.plan.flatMap(({ blocks }) => blocks)).toHaveLength(3);
});

it("takes equipment of which there is one from the station that has it", () => {
  // One press: b and c share a station, though a and b would fill one, and c and d.
  const terms = {
    tasks: { b: { equipment: ["press"] }, c: { equipment: ["press"] } },
    equipment: { press: 1 },
  };
  const { plans, line, work } = run(["a 30", "b 30 a", "c 30 b", "d 30 c"], terms);
  const [b, c] = blocksOf(line, work, "b", "c");
  expect(plans.best!.some(({ blocks }) => blocks.includes(b!) && blocks.includes(c!))).toBe(true);
});

it("stays within nodes when nothing can be placed", () => {
  // 90 s at stations of 60 s.
  const { plans, left } = run(["a 90"], {}, 100);
  expect(plans.best).toBeNull();
  expect(left()).toEqual(["a"]);
  expect(plans.nodes).toBeLessThan(200);
});
