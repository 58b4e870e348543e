import { expect, it } from "vitest";
import { nameShortage } from "../../../../src/answer/balance/obstacle.js";
import { shortageWords } from "../../../../src/report/words/shortage-words.js";
import { findShortage } from "../../../../src/solve/explain/find-shortage.js";
import { layOutWork } from "../../../../src/solve/lay-out-work.js";
import { ratio } from "../../../../src/time/ratio.js";
import { type FloorTerms, floorLine, s } from "../../../tools/floor-line.js";
import { paceOf } from "../../../tools/line-of.js";

/** What does not fit at 60 s, in words; null where nothing is known not to fit. */
function wordsOf(rows: readonly string[], terms: FloorTerms): string | null {
  const line = floorLine(rows, terms);
  const work = layOutWork(line, { pace: paceOf(60), strictLimit: false, slowest: null, free: false });
  const shortage = findShortage(line, work);
  return shortage && shortageWords(line.unit, nameShortage(line, shortage));
}

const floor = ["A", "B", "C", "D"].map((id) => ({ id }));

it("work due by a station is held against the stations up to there", () => {
  // 50 + 40 + 30 + 30 + 45 = 195 s; three stations hold 180 s.
  const rows = ["a 50", "b 40 a", "c 30 b", "d 30 a", "e 45 c d", "f 20 e"];
  expect(wordsOf(rows, { floor, tasks: { e: { notAfter: 2 } } })).toBe(
    "5 tasks must be done by C: 195 s of work, 3 stations hold 180 s; e is held there by a rule of its own, the others by what comes before or after them",
  );
  // A fourth station holds it.
  expect(wordsOf(rows, { floor, tasks: { e: { notAfter: 3 } } })).toBeNull();
});

it("work that starts no sooner than a station is held against the stations from there on, where it may not stand behind them", () => {
  const rows = ["a 30", "b 50 a", "c 40 a", "d 40 c"];
  // 30 + 50 + 40 + 40 = 160 s from C on; C and D hold 120 s.
  const tasks = { a: { notBefore: 2 }, b: { notAfter: 3 }, d: { notAfter: 3 } };
  expect(wordsOf(rows, { floor, tasks })).toBe(
    "a, b, c and d cannot be done before C: 160 s of work, 2 stations from there on hold 120 s",
  );
  // Behind the floor there is always room.
  expect(wordsOf(rows, { floor, tasks: { a: { notBefore: 2 } } })).toBeNull();
});

it("the work of a zone is held against its stations", () => {
  const zones = [{ id: "A", zone: "frame" }, { id: "B" }, { id: "C", zone: "frame" }];
  const tasks = Object.fromEntries(["a", "b", "c"].map((id) => [id, { zone: "frame" }]));
  expect(wordsOf(["a 50", "b 50", "c 25"], { floor: zones, tasks })).toBe(
    "a, b and c need the zone frame: 125 s of work, 2 stations of that zone hold 120 s",
  );
  expect(wordsOf(["a 50", "b 50", "c 20"], { floor: zones, tasks })).toBeNull();
});

it("the work with equipment is held against the places that so much of it has", () => {
  const tasks = Object.fromEntries(["a", "b"].map((id) => [id, { equipment: ["rig"] }]));
  expect(wordsOf(["a 40", "b 30"], { tasks, equipment: { rig: 1 } })).toBe(
    "a and b need rig: 70 s of work, 1 x rig holds 60 s",
  );
  expect(wordsOf(["a 40", "b 30"], { tasks, equipment: { rig: 2 } })).toBeNull();
  const machine = {
    a: { equipment: ["rig"], machineTime: s(30) },
    b: { equipment: ["rig"], machineTime: s(5) },
  };
  // 10 + 30 s and 20 + 5 s.
  expect(wordsOf(["a 10", "b 20"], { tasks: machine, equipment: { rig: 1 } })).toBe(
    "a and b keep rig busy: 65 s for a unit, 1 x rig has 60 s",
  );
});

it("tasks of more than half a station are counted", () => {
  const tasks = Object.fromEntries(["a", "b", "c"].map((id) => [id, { notAfter: 1 }]));
  expect(wordsOf(["a 31", "b 31", "c 31"], { floor, tasks })).toBe(
    "a, b and c must be done by B: no two of them fit the 60 s of a station, and there are 2 stations",
  );
});

it("work that must come behind pushes what comes before it to earlier stations", () => {
  // p and q are 80 s, so p must be done by A where q must be done by B; p and r are 70 s.
  const tasks = { q: { notAfter: 1 }, r: { notAfter: 0 } };
  expect(wordsOf(["p 40", "q 40 p", "r 30"], { floor, tasks })).toBe(
    "p and r must be done by A: 70 s of work, 1 station holds 60 s; r is held there by a rule of its own, the others by what comes before or after them; p is held there because that work fills other stations",
  );
});

it("the times of one model count alone where it may not exceed its overload", () => {
  const models = [
    { id: "city", share: ratio(1, 2) },
    { id: "cargo", share: ratio(1, 2) },
  ];
  const both = { times: [s(10), s(40)], stations: [0] };
  expect(
    wordsOf(["a 0", "b 0"], { models, modelOverload: ratio(1, 5), floor, tasks: { a: both, b: both } }),
  ).toBe("cargo alone: a and b must be done by A: 80 s of work, 1 station holds 72 s");
});
