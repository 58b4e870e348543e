import { describe, expect, it } from "vitest";
import { levelledSequence } from "../../../../src/plan/models/levelled-sequence.js";
import { planOf } from "../../../../src/plan/plan.js";
import { ratio } from "../../../../src/time/ratio.js";
import { numbersOf, shortLine } from "../../../tools/line-of.js";
import { letters, mixedLine } from "./mixed-line.js";

describe("the sequence proposed for 60 % city and 40 % cargo bikes", () => {
  const line = mixedLine(
    { city: 60, cargo: 40 },
    { frame: { seconds: [50, 50] }, box: { seconds: [null, 90], after: ["frame"] } },
  );

  it("levels the models before there is a plan", () => {
    const { sequence, quantities, levels, totals, exact, note } = levelledSequence(line);
    expect(letters(sequence)).toBe("ABABA");
    expect({ quantities, levels, totals, exact, note }).toEqual({
      quantities: [3, 2],
      levels: "units of models",
      totals: [ratio(3), ratio(2)],
      exact: true,
      note: null,
    });
  });

  it("levels the work of every station of a plan", () => {
    const plan = planOf([numbersOf(line, "frame"), numbersOf(line, "box")]);
    const { sequence, levels, totals, steps } = levelledSequence(line, plan);
    expect(letters(sequence)).toBe("ABABA");
    // 5 frames of 50 s and 2 boxes of 90 s; at place 1 the goals are 50 s and 36 s: A is 36 s off, B 54 s.
    expect({ levels, totals, first: steps[0]!.squaredDistances }).toEqual({
      levels: "work of stations",
      totals: [ratio(250_000_000), ratio(180_000_000)],
      first: [ratio(36_000_000 ** 2), ratio(54_000_000 ** 2)],
    });
  });

  it("shares the work of a station among its places", () => {
    const [station] = planOf([numbersOf(line, "frame", "box")]).stations;
    const { totals } = levelledSequence(line, { stations: [{ ...station!, places: 2 }] });
    expect(totals).toEqual([ratio(215_000_000)]);
  });

  it("is the same for other names of the models", () => {
    const renamed = { ...line, models: line.models.map((each, at) => ({ ...each, id: `model-${9 - at}` })) };
    expect(levelledSequence(renamed)).toEqual(levelledSequence(line));
  });
});

it("pairs the longest with the shortest work rather than spread models that work alike", () => {
  // Average 60 s; A 50, B 60, C 70. B is on the goal at once; then A and C tie, A comes first, and C makes it up.
  const line = mixedLine({ A: 1, B: 1, C: 1 }, { fit: { seconds: [50, 60, 70] } });
  expect(letters(levelledSequence(line, planOf([[0]])).sequence)).toBe("BAC");
});

it("spreads models whose work is the same at every station", () => {
  const line = mixedLine({ red: 3, blue: 2 }, { fit: { seconds: [50, 50] } });
  expect(letters(levelledSequence(line, planOf([[0]])).sequence)).toBe("ABABA");
});

it("says where the sequence is only near the shares", () => {
  const line = mixedLine({ city: 117, cargo: 83, kid: 41 }, { fit: { seconds: [50, 60, 40] } });
  const { exact, note, quantities } = levelledSequence(line, null, 10);
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
  expect(levelledSequence(line, planOf([[0], [1]])).sequence).toEqual([0]);
});
