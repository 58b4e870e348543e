import fc from "fast-check";
import { expect, test } from "vitest";
import { nearestNames, nearestWords, nearestWordsAmong } from "../../../src/findings/nearest.js";

const KEYS = ["demand", "calendar", "uptime", "yield", "handling", "plan-to", "chains", "tasks"];

test("A typing slip, another case, an underscore and lost zeros lead to the name that was meant", () => {
  expect(nearestNames("demnad", KEYS)).toEqual(["demand"]);
  expect(nearestNames("Plan_To", KEYS)).toEqual(["plan-to"]);
  expect(nearestNames("7", ["007", "8", "70"])).toEqual(["007", "70"]);
  expect(nearestNames("alowance", ["allowance"])).toEqual(["allowance"]);
});

test("Two letters that changed places are one slip", () => {
  expect(nearestNames("tiem", ["time", "name"])).toEqual(["time"]);
  expect(nearestNames("atler", ["after"])).toEqual([]);
});

test("A name that is part of another leads to it", () => {
  expect(nearestNames("fork", ["fit-fork", "fit-stand"])).toEqual(["fit-fork"]);
});

test("Nothing is near where a name has nothing in common", () => {
  expect(nearestNames("colour", KEYS)).toEqual([]);
  expect(nearestNames("x", ["y"])).toEqual([]);
  expect(nearestWords("colour", KEYS)).toBe("");
});

test("At most three names are given, nearest first, in the same order however they are listed", () => {
  const known = ["bolt-4", "bolt-1", "bolts", "bolt-3", "bolt-2"];
  expect(nearestNames("bolt", known)).toEqual(["bolts", "bolt-1", "bolt-2"]);
  expect(nearestNames("bolt", known.toReversed())).toEqual(["bolts", "bolt-1", "bolt-2"]);
  expect(nearestWords("bolt", known)).toBe("; nearest: bolts, bolt-1, bolt-2");
});

test("Zeros inside a number are part of it", () => {
  expect(nearestNames("t100", ["t10", "t0100"])).toEqual(["t0100", "t10"]);
});

test("A name with one letter more, less or other in it is found, whichever letters it has", () => {
  const name = fc.string({ unit: fc.constantFrom(..."abé37-漢x"), minLength: 3, maxLength: 9 });
  fc.assert(
    fc.property(
      name,
      fc.nat(9),
      fc.constantFrom("", "q", "5", "é"),
      fc.boolean(),
      (known, where, letter, isIn) => {
        const at = Math.min(where, known.length - 1);
        const slipped = known.slice(0, at) + letter + known.slice(isIn ? at : at + 1);
        fc.pre(slipped.length >= 2);
        expect(nearestNames(slipped, [known])).toEqual([known]);
      },
    ),
    { seed: 20260301, numRuns: 500 },
  );
});

test("Ten thousand unknown names among ten thousand are each asked about in no time", () => {
  const known = Array.from({ length: 10_000 }, (_, at) => `t${at}`);
  const nearest = nearestWordsAmong(known);
  const words = known.map((_, at) => nearest(`u${at}`));
  expect([words[0], words[17], words[1234]]).toEqual(["; nearest: t0", "; nearest: t17", "; nearest: t1234"]);
  expect([words[1_999], words[2_000]]).toEqual(["; nearest: t1999", ""]);
});
