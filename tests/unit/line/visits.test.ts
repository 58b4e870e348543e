import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { RETESTS, type Test } from "../../../src/line/line.js";
import { scrapOrders } from "../../../src/line/scrap-order.js";
import { repairsPerGoodUnit, visitsOf } from "../../../src/line/visits.js";
import { add, compare, divide, multiply, ONE, ratio, ZERO } from "../../../src/time/ratio.js";
import { lineOf } from "../../tools/line-of.js";
import { solveChain } from "./failure-chain.js";

const SEED = 11;
const MINUTE = 60_000_000;

/** Loads in minutes per good unit, by task in natural order of ids. */
const minutesOf = (text: string) =>
  lineOf(`unit: min\ntasks:\n${text}`).tasks.map((task) => divide(task.load, ratio(MINUTE)));

describe("A quarter of the units does a step of 6 min again", () => {
  const stepOf = (retest: string) =>
    lineOf(
      `unit: min\ntasks:\n  step: {time: 6, test: {fail: 25 %, repair: 1, return-to: step, retest: ${retest}}}\n`,
    );

  test("until it is good: 8 min for each good unit, a third of a repair", () => {
    const line = stepOf("until-good");
    expect(line.tasks[0]).toMatchObject({ visits: ratio(4, 3), load: ratio(8 * MINUTE) });
    expect(repairsPerGoodUnit(line)).toEqual([ratio(1, 3)]);
  });

  test("once, good for certain: 7.5 min, a quarter of a repair", () => {
    const line = stepOf("once");
    expect(line.tasks[0]).toMatchObject({ visits: ratio(5, 4), load: ratio(7.5 * MINUTE) });
    expect(repairsPerGoodUnit(line)).toEqual([ratio(1, 4)]);
  });

  test("and is scrapped when it fails again: 7.5 min for each unit started, of which 93.75 % are good", () => {
    const line = stepOf("scrap");
    const { goodShare } = visitsOf(line.before, [line.tasks[0]!.test])!;
    expect(goodShare).toEqual(ratio(15, 16));
    expect(line.tasks[0]!.load).toEqual(ratio(8 * MINUTE));
    expect(repairsPerGoodUnit(line)).toEqual([ratio(4, 15)]);
  });
});

test("A fifth of the units goes back over the last two of four steps once: 2 and 10 min become 2.4 and 12", () => {
  const steps = [
    "  s1: 8",
    "  s2: {time: 6, after: s1}",
    "  s3: {time: 2, after: s2}",
    "  s4: {time: 10, after: s3, test: {fail: 20 %, repair: 5, return-to: s3, retest: once}}",
  ].join("\n");
  expect(minutesOf(steps)).toEqual([ratio(8), ratio(6), ratio(12, 5), ratio(12)]);
});

test("Where a tenth is scrapped at a test, work up to it is done 1.1111 times for a good unit, later work once", () => {
  const line = lineOf(
    "unit: s\ntasks: {a: 10, b: {time: 5, after: a, test: {scrap: 10 %}}, c: {time: 7, after: b}}",
  );
  expect(line.tasks.map((task) => task.visits)).toEqual([ratio(10, 9), ratio(10, 9), ONE]);
  // At a takt of 67.5 s the work before the test has 60.75 s.
  expect(divide(ratio(67_500_000), line.tasks[0]!.visits)).toEqual(ratio(60_750_000));
});

const SHARES = [ratio(1, 4), ratio(1, 10), ratio(1, 2), ratio(3, 100)];

/** A line of a few tasks whose arrows lead to larger numbers, with tests that repair and that scrap. */
const someLine = fc
  .tuple(fc.integer({ min: 1, max: 6 }), fc.array(fc.nat(99), { minLength: 60, maxLength: 60 }))
  .map(([size, dice]) => {
    let rolled = 0;
    const roll = (sides: number) => dice[rolled++ % dice.length]! % sides;
    const before = Array.from({ length: size }, (_, task) =>
      Array.from({ length: task }, (_, each) => each).filter(() => roll(3) > 0),
    );
    const back = (task: number): number => {
      const earlier = before[task]!;
      return earlier.length === 0 || roll(3) === 0
        ? task
        : roll(2)
          ? back(earlier[roll(earlier.length)]!)
          : earlier[0]!;
    };
    const tests = before.map((_, task): Test | null => {
      const [kind, share] = [roll(5), SHARES[roll(SHARES.length)]!];
      if (kind > 3) return { failures: "scrapped", scrap: share };
      if (kind > 2) return null;
      return { failures: "repaired", fail: share, repair: 1, returnTo: back(task), retest: RETESTS[kind]! };
    });
    return { before, tests };
  });

describe("The visits of any line", () => {
  test("are those of its Markov chain written out state by state", () => {
    fc.assert(
      fc.property(someLine, ({ before, tests }) => {
        const { goodShare, executions, repairs } = solveChain(before, tests);
        const perGood = (each: typeof goodShare) => divide(each, goodShare);
        expect(visitsOf(before, tests)).toEqual({
          goodShare,
          visits: executions.map(perGood),
          repairs: repairs.map((each, task) => (tests[task]?.failures === "repaired" ? perGood(each) : null)),
        });
      }),
      { seed: SEED, numRuns: 120 },
    );
  });

  test("are at least 1, and the good share is what scrap leaves", () => {
    fc.assert(
      fc.property(someLine, ({ before, tests }) => {
        const { visits, goodShare } = visitsOf(before, tests)!;
        expect(visits.every((each) => compare(each, ONE) >= 0)).toBe(true);
        const scraps = tests.some((each) => each?.failures === "scrapped" || each?.retest === "scrap");
        expect(compare(goodShare, ONE) < 0).toBe(scraps);
      }),
      { seed: SEED, numRuns: 300 },
    );
  });
});

test("A chain of tests that each send units back to the start doubles its visits test by test", () => {
  const size = 100;
  const before = Array.from({ length: size }, (_, task) => (task === 0 ? [] : [task - 1]));
  const half = {
    failures: "repaired",
    fail: ratio(1, 2),
    repair: 1,
    returnTo: 0,
    retest: "until-good",
  } as const;
  const { visits } = visitsOf(
    before,
    before.map((_, task) => (task === 0 ? null : half)),
  )!;
  expect(visits[0]).toEqual(ratio(2n ** BigInt(size - 1)));
  expect(visits[size - 1]).toEqual(ratio(2));
});

test("Numbers that would grow for ever are given up at once", () => {
  const before = Array.from({ length: 400 }, (_, task) => (task === 0 ? [] : [task - 1]));
  const third = { failures: "repaired", fail: ratio(1, 3), repair: 1, returnTo: 0, retest: "scrap" } as const;
  expect(
    visitsOf(
      before,
      before.map((_, task) => (task === 0 ? null : third)),
    ),
  ).toBeNull();
});

test("Work that no arrow puts before or after a scrapping test counts as before it, except behind another test", () => {
  const scrap: Test = { failures: "scrapped", scrap: ratio(1, 10) };
  const before = [[], [0], [], [], [3]];
  const tests = [null, scrap, null, scrap, null];
  expect(scrapOrders(before, tests)).toEqual([
    { test: 1, asBefore: [2], asAfter: [3, 4] },
    { test: 3, asBefore: [0, 1, 2], asAfter: [] },
  ]);
  const { visits } = visitsOf(before, tests)!;
  const tenNinths = ratio(10, 9);
  const both = multiply(tenNinths, tenNinths);
  expect(visits).toEqual([both, both, both, tenNinths, add(ZERO, ONE)]);
});
