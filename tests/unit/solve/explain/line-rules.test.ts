import { isDeepStrictEqual } from "node:util";
import { expect, it } from "vitest";
import { reasonClause } from "../../../../src/report/words/reason-words.js";
import {
  type LineRequirement,
  type LineRule,
  requirementsOf,
} from "../../../../src/solve/explain/line-rules.js";
import { ratio } from "../../../../src/time/ratio.js";
import { floorLine } from "../../../tools/floor-line.js";
import { idsOf } from "../../../tools/line-of.js";

const line = floorLine(["a 10", "b 10 a", "c 10 b", "d 10"], {
  floor: [
    { id: "S1", zone: "paint", equipment: ["crane"] },
    { id: "S2", zone: "paint" },
    { id: "S3", equipment: ["crane"] },
  ],
  tasks: {
    a: { stations: [0, 2], zone: "paint", people: 2, side: "left" },
    b: { notBefore: 1, equipment: ["crane", "press"] },
    c: { notAfter: 1, skills: ["brakes", "wheels"] },
  },
  equipment: { press: 2 },
  together: [["a", "d"]],
  apart: [["a", "b", "c"]],
  waits: [{ after: "c", on: "b", stations: 2 }],
  people: [{ id: "early-1", skills: ["brakes"] }],
  modelOverload: ratio(1, 10),
});

const wordsOf = ({ rule }: LineRequirement) => reasonClause("s", rule);

it("lists all that a line asks for beside the limits of its stations, each with its tasks", () => {
  expect(
    requirementsOf(line).map((each) => `${wordsOf(each)}: ${idsOf(line, each.tasks).join(" ")}`),
  ).toEqual([
    "a is fixed to S1 or S3: a",
    "a needs the zone paint, which only S1, S2 have: a",
    "a needs 2 people at once: a",
    "a is done on the left: a",
    "b may not stand before S2: b",
    "b needs crane, which only S1, S3 have: b",
    "b needs press: b",
    "c may not stand after S2: c",
    "c needs the skill brakes and wheels: c",
    "a and d share a station (together): a d",
    "no two of a, b and c share a station (apart): a b c",
    "c waits for b, so it stands 2 stations later or more: b c",
    "only 2 press exist: b",
    "the people listed have these skills (early-1: brakes); at each task one of its people has all its skills, and nobody is at two places: ",
    "no model may exceed its stated overload: ",
    "a comes before b: a b",
    "b comes before c: b c",
  ]);
});

it("leaves everything else as it is where one of them is taken out", () => {
  const all = requirementsOf(line).map(({ rule }) => rule);
  for (const each of requirementsOf(line)) {
    const { rule } = each;
    const left = requirementsOf(each.without(line)).map((other) => other.rule);
    if (rule.kind === "wait") {
      // A wait keeps its place in the list and asks for no station.
      expect(each.without(line).waits).toEqual([{ ...line.waits[0], stations: 0 }]);
    } else if (rule.kind === "together" || rule.kind === "apart") {
      // So does a group, which is empty then.
      const { together, apart } = each.without(line);
      expect([together, apart]).toEqual(
        rule.kind === "together" ? [[[]], line.apart] : [line.together, [[]]],
      );
    } else if (rule.kind === "counted-equipment") {
      // What is not counted binds nobody.
      const isOfPress = (other: LineRule) => other.kind === "equipment" && other.equipment === "press";
      expect(left).toEqual(without(all, rule).filter((other) => !isOfPress(other)));
    } else if (rule.kind === "people") {
      expect(left).toEqual(without(all, rule).filter(({ kind }) => kind !== "skills"));
    } else {
      expect(left).toEqual(without(all, rule));
    }
  }
});

const without = (all: readonly LineRule[], rule: LineRule) =>
  all.filter((other) => !isDeepStrictEqual(other, rule));

it("asks for nothing where the line only has tasks", () => {
  expect(requirementsOf(floorLine(["a 10", "b 10"]))).toEqual([]);
});
