import { describe, expect, it } from "vitest";
import { passesOf } from "../../../src/line/passes.js";
import { cycleOfPost } from "../../../src/plan/figures/cycle.js";
import { outputPerShift } from "../../../src/plan/figures/output.js";
import { goodShare, scrapPaces, unevenVisits, unitsToStart } from "../../../src/plan/figures/units-tested.js";
import { isOverloaded, workingTime } from "../../../src/plan/figures/working-time.js";
import { postOf } from "../../../src/plan/post.js";
import { ONE, ratio } from "../../../src/time/ratio.js";
import { planFrom, s } from "../../tools/floor-line.js";
import { paceWith } from "../../tools/floor-random-line.js";
import { lineOf } from "../../tools/line-of.js";
import { faultsOf } from "./verify/faults-of.js";

const line = (test: string) =>
  lineOf(
    `line: boards\nunit: s\ntasks:\n  a: 50\n  b: {time: 20, after: a, test: ${test}}\n  c: {time: 60, after: b}\n`,
  );

describe("a tenth scrapped at a test, 400 good units wanted", () => {
  const scraps = line("{scrap: 10 %}");

  it("takes 444.4 units to start: 400 / 0.9", () => {
    expect(goodShare(scraps)).toEqual(ratio(9, 10));
    expect(unitsToStart(scraps, ratio(400))).toEqual(ratio(4000, 9));
  });

  it("brings a unit every 60.75 s to the test and one every 67.5 s from it", () => {
    expect(scrapPaces(scraps, ratio(s(67.5)))).toEqual([
      { test: 1, scrap: ratio(1, 10), before: ratio(s(60.75)), after: ratio(s(67.5)) },
    ]);
  });

  it("makes 10/9 visits of the tasks up to the test", () => {
    expect(unevenVisits(scraps)).toEqual([
      { task: 0, visits: ratio(10, 9) },
      { task: 1, visits: ratio(10, 9) },
    ]);
  });
});

describe("a quarter repaired at a test", () => {
  const repairs = line("{fail: 25 %, repair: 60 s, return-to: b, retest: once}");

  it("scraps nothing: as many units start as good ones are wanted, and no pace changes", () => {
    expect(goodShare(repairs)).toEqual(ONE);
    expect(unitsToStart(repairs, ratio(400))).toEqual(ratio(400));
    expect(scrapPaces(repairs, ratio(s(60)))).toEqual([]);
  });

  it("repeats the test itself for a quarter of the units", () => {
    expect(unevenVisits(repairs)).toEqual([{ task: 1, visits: ratio(5, 4) }]);
  });
});

describe("two tests in a row that scrap 15 % and 5 %", () => {
  it("take 60 / 0.8075 units to start for 60 good ones", () => {
    const both = lineOf(
      "line: x\nunit: s\ntasks:\n  a: {time: 1, test: {scrap: 15 %}}\n  b: {time: 1, after: a, test: {scrap: 5 %}}\n",
    );
    expect(unitsToStart(both, ratio(60))).toEqual(ratio(600000, 8075));
    const [first, second] = scrapPaces(both, ratio(s(60)));
    expect(second!.after).toEqual(ratio(s(60)));
    expect(first!.after).toEqual(second!.before);
  });
});

describe("a line without tests", () => {
  it("has no good share; a line-wide yield alone sets how many units start", () => {
    const plain = lineOf("line: x\nunit: s\nyield: 80 %\ntasks: {a: 1}\n");
    expect(goodShare(plain)).toBeNull();
    expect(unitsToStart(plain, ratio(60))).toEqual(ratio(75));
  });
});

describe("63 s with a fifth scrapped, 20 s of handling at each pass", () => {
  const scraps = lineOf(
    "line: x\nunit: s\nhandling: 20 s\ncalendar: {shifts: {day: {length: 10 h}}}\ntasks:\n  a: {time: 63, test: {scrap: 20 %}}\n  b: {time: 5, after: a}\n",
  );
  const pace = paceWith(100, 20);
  const post = (task: number) => postOf(scraps, pace, planFrom(scraps, [`S1: ${"ab"[task]}`]).stations[0]!);

  // 1.25 units come for each good one: every 80 s of a line cycle of 100 s, and each takes 83 s.
  it("take 103.75 s for a good unit, which a line cycle of 100 s does not have", () => {
    expect(passesOf(scraps, [0])).toEqual(ratio(5, 4));
    expect(workingTime(post(0), pace.lineCycle)).toEqual(ratio(s(75)));
    expect(cycleOfPost(post(0))).toEqual(ratio(s(103.75)));
    expect(isOverloaded([post(0)], pace.lineCycle)).toBe(true);
    expect(faultsOf(scraps, ["S1: a", "S2: b"], {}, pace)).toEqual([
      "load: S1 holds 78.75 s, more than the working time of 75 s",
    ]);
  });

  it("leave floor(36,000 / 83 x 0.8) = 346 good units of 10 h", () => {
    expect(outputPerShift(scraps, cycleOfPost(post(0)))).toBe(346);
  });

  it("change nothing at a station whose tasks a good unit meets once", () => {
    expect(passesOf(scraps, [1])).toEqual(ONE);
    expect(workingTime(post(1), pace.lineCycle)).toEqual(ratio(s(80)));
    expect(passesOf(scraps, [0, 1])).toEqual(ratio(5, 4));
  });

  it("are divided by the share of the units that come to a bench at all", () => {
    expect(passesOf(scraps, [0], ratio(1, 2))).toEqual(ratio(5, 2));
  });
});
