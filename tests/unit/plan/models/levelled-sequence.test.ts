import { describe, expect, it } from "vitest";
import { levelledSequence } from "../../../../src/plan/models/levelled-sequence.js";
import { planOf } from "../../../../src/plan/plan.js";
import { numbersOf, paceOf, shortLine } from "../../../tools/line-of.js";
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
