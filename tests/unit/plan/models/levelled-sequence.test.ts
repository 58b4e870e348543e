import { describe, expect, it } from "vitest";
import { brokenStretches } from "../../../../src/line/parts/spacing.js";
import { levelledSequence } from "../../../../src/plan/models/levelled-sequence.js";
import { planOf } from "../../../../src/plan/plan.js";
import { toNumber } from "../../../../src/time/ratio.js";
import { lineOf, numbersOf, paceOf, shortLine } from "../../../tools/line-of.js";
import { letters, mixedLine } from "./mixed-line.js";

describe("the sequence proposed for 60 % city and 40 % cargo bikes", () => {
  const line = mixedLine(
    { city: 60, cargo: 40 },
    { frame: { seconds: [50, 50] }, box: { seconds: [null, 90], after: ["frame"] } },
  );

  const plan = planOf([numbersOf(line, "frame"), numbersOf(line, "box")]);

  it("levels the work of every station of a plan", () => {
    const { sequence, levels, quantities, exact, note, by, isLeast } = levelledSequence(
      line,
      paceOf(90),
      plan,
    );
    expect(letters(sequence)).toBe("ABABA");
    expect({ levels, quantities, exact, note, by, isLeast }).toEqual({
      levels: "work of stations",
      quantities: [3, 2],
      exact: true,
      note: null,
      by: "least-gaps",
      isLeast: true,
    });
  });

  it("is the same for other names of the models", () => {
    const renamed = { ...line, models: line.models.map((each, at) => ({ ...each, id: `model-${9 - at}` })) };
    expect(levelledSequence(renamed, paceOf(90), plan)).toEqual(levelledSequence(line, paceOf(90), plan));
  });
});

it("pairs the longest with the shortest work rather than spread models that work alike", () => {
  // Average 60 s; A 50, B 60, C 70. A is 10 s off its goal, and C makes that up at once; so would C and then A.
  const line = mixedLine({ A: 1, B: 1, C: 1 }, { fit: { seconds: [50, 60, 70] } });
  expect(letters(levelledSequence(line, paceOf(90), planOf([[0]])).sequence)).toBe("ACB");
});

it("spreads models whose work is the same at every station", () => {
  const line = mixedLine({ red: 3, blue: 2 }, { fit: { seconds: [50, 50] } });
  expect(letters(levelledSequence(line, paceOf(90), planOf([[0]])).sequence)).toBe("ABABA");
});

it("says where the sequence is only near the shares", () => {
  const line = mixedLine({ city: 117, cargo: 83, kid: 41 }, { fit: { seconds: [50, 60, 40] } });
  const { exact, note, quantities } = levelledSequence(line, paceOf(60), planOf([[0]]), 10);
  expect({ exact, quantities }).toEqual({ exact: false, quantities: [3, 2, 1] });
  expect(note).toEqual({
    rule: "rounded-mix",
    severity: "note",
    message:
      "the shares of the models come out even only after 241 units; the sequence of 6 units is the nearest: " +
      "3 city (50 % for 48.55 %), 2 cargo (33.33 % for 34.44 %), 1 kid (16.67 % for 17.01 %)",
    file: "line.yaml",
    place: null,
    station: null,
    task: null,
  });
});

it("is one unit on a line without models", () => {
  const line = shortLine(["a 10", "b 20"]);
  expect(levelledSequence(line, paceOf(60), planOf([[0], [1]])).sequence).toEqual([0]);
});

describe("parts that are to be used evenly", () => {
  // The published example of level scheduling (ROAR-NET problem statements): 4 models, 2, 2, 2 and 4 units, 5 parts; each part is a task's.
  const level = (text: string) =>
    lineOf(
      [
        "unit: s",
        "models: {A: 2, B: 2, C: 2, D: 4}",
        text,
        "tasks:",
        '  t1: {time: {A: 5, B: 5, C: "-", D: "-"}, parts: {p1: 1}}',
        '  t2: {time: {A: "-", B: "-", C: "-", D: 5}, parts: {p2: 1}}',
        '  t3: {time: {A: 5, B: "-", C: "-", D: "-"}, quantity: 2, parts: {p4: 1}}',
        '  t4: {time: {A: "-", B: 5, C: "-", D: "-"}, parts: {p4: 1}}',
        '  t5: {time: {A: 5, B: 5, C: 5, D: "-"}, parts: {p5: 1}}',
        '  t6: {time: {A: 5, B: "-", C: "-", D: "-"}, parts: {p3: 1}}',
        "",
      ].join("\n"),
    );
  const plan = planOf([[0, 1, 2, 3, 4, 5]]);

  it("have the least squared gaps of the published example, 7.2 where its given sequence has 9.6", () => {
    const line = level("level: parts\nsequence: [C, B, D, A, D, C, B, D, A, D]");
    expect(line.levelled.map(({ name, byModel }) => [name, ...byModel.map((use) => toNumber(use))])).toEqual([
      ["p1", 1, 1, 0, 0],
      ["p2", 0, 0, 0, 1],
      ["p3", 1, 0, 0, 0],
      ["p4", 2, 1, 0, 0],
      ["p5", 1, 1, 1, 0],
    ]);
    const { levels, by, isLeast, given, partGaps } = levelledSequence(line, paceOf(60), plan);
    expect({ levels, by, isLeast, given }).toEqual({
      levels: "parts",
      by: "least-gaps",
      isLeast: true,
      given: "less-level",
    });
    expect(partGaps).toMatchObject({ units: 10, isLeast: true });
    expect([partGaps!.proposed, partGaps!.least!, partGaps!.given!].map((each) => toNumber(each))).toEqual([
      7.2, 7.2, 9.6,
    ]);
  });

  it("are of each model its own pieces where a task says so: the same example by one task of every model", () => {
    const line = lineOf(
      [
        "unit: s",
        "models: {A: 2, B: 2, C: 2, D: 4}",
        "level: parts",
        "sequence: [C, B, D, A, D, C, B, D, A, D]",
        "tasks:",
        "  t:",
        "    time: 5",
        "    parts:",
        '      p1: {A: 1, B: 1, C: "-", D: "-"}',
        '      p2: {A: "-", B: "-", C: "-", D: 1}',
        '      p3: {A: 1, B: "-", C: "-", D: "-"}',
        '      p4: {A: 2, B: 1, C: "-", D: "-"}',
        '      p5: {A: 1, B: 1, C: 1, D: "-"}',
        "",
      ].join("\n"),
    );
    expect(line.levelled).toEqual(level("level: parts").levelled);
    const { partGaps } = levelledSequence(line, paceOf(60), planOf([[0]]));
    expect([partGaps!.proposed, partGaps!.least!, partGaps!.given!].map((each) => toNumber(each))).toEqual([
      7.2, 7.2, 9.6,
    ]);
  });

  it("are those of one piece of the task: 3 pieces with 2 and 1 screws are 6 and 3 a unit", () => {
    const line = lineOf(
      "unit: s\nmodels: {A: 1, B: 1}\nlevel: screw\ntasks: {t: {time: 5, quantity: 3, parts: {screw: {A: 2, B: 1}}}}\n",
    );
    expect(line.levelled.map(({ byModel }) => byModel.map((use) => toNumber(use)))).toEqual([[6, 3]]);
  });

  it("are only those that are named, and one of none is not asked for", () => {
    expect(level("level: [p5, ' p2']").levelled.map(({ name }) => name)).toEqual(["p2", "p5"]);
    expect(level("level: p4").levelled.map(({ name }) => name)).toEqual(["p4"]);
    expect(levelledSequence(level(""), paceOf(60), plan)).toMatchObject({
      levels: "work of stations",
      partGaps: null,
    });
  });

  it("keep units with a part apart where spacing names it", () => {
    const line = level("level: parts\nspacing: {p3: 1 in 5, p5: 2 in 3}");
    expect(line.spacings.map(({ name, models }) => [name, models])).toEqual([
      ["p3", [0]],
      ["p5", [0, 1, 2]],
    ]);
    const { sequence, measure } = levelledSequence(line, paceOf(60), plan);
    expect(measure.broken).toBe(0);
    expect(line.spacings.flatMap((each) => brokenStretches(sequence, each))).toEqual([]);
  });
});

it("counts how long units stand while a machine runs: two of 20 + 5 + 90 s in a row are 30 s over the 100 s there are, one is 15 s", () => {
  const oven = (sequence: string) =>
    lineOf(
      `unit: s\nmodels: {city: 50 %, cargo: 50 %}\nsequence: [${sequence}]\ntasks: {a: 20, oven: {time: {city: "-", cargo: 5}, machine-time: 90, after: a}}\n`,
    );
  const keptIn = (sequence: string) => levelledSequence(oven(sequence), paceOf(100), planOf([[0, 1]]));
  const mended = keptIn("city, city, cargo, cargo");
  expect([mended.given, mended.measure.kept]).toEqual([
    "keeps-longer",
    { endless: 0, tooFar: 0, drift: 15_000_000n },
  ]);
  expect(keptIn("cargo, city").given).toBe("stands");
});
