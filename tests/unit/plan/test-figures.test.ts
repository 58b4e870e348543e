import { describe, expect, it } from "vitest";
import { goodShare, scrapPaces, unevenVisits, unitsToStart } from "../../../src/plan/figures/units-tested.js";
import { ONE, ratio } from "../../../src/time/ratio.js";
import { s } from "../../tools/floor-line.js";
import { lineOf } from "../../tools/line-of.js";

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
