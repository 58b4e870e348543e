import { describe, expect, it } from "vitest";
import { judgeBlock } from "../../../src/benches/why-not.js";
import { hindranceWords } from "../../../src/report/words/hindrance-words.js";
import { idsOf, lineOf, numbersOf, shortLine } from "../../tools/line-of.js";

const line = shortLine(["frame! 30", "lace 40", "true 55 lace", "fit 20 frame true", "brake 35 fit"]);

function answer(asked = line, ...ids: string[]) {
  const { hindrances, nearest } = judgeBlock(asked, numbersOf(asked, ...ids), false);
  return [hindrances.map((each) => hindranceWords(asked, each)), nearest && idsOf(asked, nearest)];
}

describe("Whether tasks can be built away from a frame on the line", () => {
  it("lacing and truing can", () => {
    expect(answer(line, "lace", "true")).toEqual([[], null]);
  });

  it("truing cannot go alone: it needs lacing, which is on the line; both together can", () => {
    expect(answer(line, "true")).toEqual([
      ["true needs lace, which is on the line (lace -> true)"],
      ["lace", "true"],
    ]);
  });

  it("fitting cannot go: it needs the frame", () => {
    expect(answer(line, "true", "fit")).toEqual([
      [
        "fit needs frame, which is on the base unit (frame -> fit)",
        "true needs lace, which is on the line (lace -> true)",
      ],
      ["lace", "true"],
    ]);
  });

  it("the brake cannot go: it works on the base unit, and nothing near can go", () => {
    expect(answer(line, "brake")).toEqual([
      ["brake works on the base unit: it needs fit, which is on it (frame -> fit -> brake)"],
      null,
    ]);
  });

  it("names the arrow of each reason", () => {
    const { hindrances } = judgeBlock(line, numbersOf(line, "true", "fit"), false);
    const arrows = hindrances.map(({ arrow }) => arrow && idsOf(line, arrow));
    expect(arrows).toEqual([
      ["frame", "fit"],
      ["lace", "true"],
    ]);
  });
});

describe("What joins at several tasks or at none", () => {
  const parts = shortLine(["frame! 9", "cut 5", "cover 2 cut frame", "label 1 cut frame", "note 3"]);

  it("is refused with both arrows", () => {
    expect(answer(parts, "cut")[0]).toEqual(["it joins at 2 tasks (cut -> cover, cut -> label)"]);
    expect(judgeBlock(parts, numbersOf(parts, "cut"), true).hindrances).toEqual([]);
  });

  it("is refused where nothing waits for it", () => {
    expect(answer(parts, "note")[0]).toEqual([
      "nothing on the line waits for it: no precedence says where it joins",
    ]);
  });

  it("joins at one where the arrow to the other follows from others", () => {
    const implied = shortLine([
      "frame! 9",
      "lace 5",
      "true 2 lace",
      "fit 3 frame true lace",
      "brake 4 fit true",
    ]);
    expect(judgeBlock(implied, numbersOf(implied, "lace"), false)).toMatchObject({
      hindrances: [],
      joinsAt: numbersOf(implied, "true"),
    });
    expect(judgeBlock(implied, numbersOf(implied, "lace", "true"), false)).toMatchObject({
      hindrances: [],
      joinsAt: numbersOf(implied, "fit"),
    });
  });
});

describe("Rules of the line", () => {
  const held = lineOf(
    [
      "unit: s",
      "stations: [{id: S1}, {id: S2}]",
      "together: [[seat, bag]]",
      "apart: [[p, q]]",
      "tasks: {frame: {time: 30, on-base: true}, seat: 25, bag: 15, p: 9, q: 9, press: {time: 8, station: S2},",
      "  fit: {time: 10, after: [frame, seat, bag, p, q, press]}}",
      "",
    ].join("\n"),
  );

  it("hold tasks that share a station, that never share one, and that stand at one", () => {
    expect(answer(held, "seat")).toEqual([
      ["seat shares its station with bag, which would stay (together)"],
      ["bag", "seat"],
    ]);
    expect(answer(held, "p", "q")[0]).toEqual(["p and q never share a place (apart)"]);
    expect(answer(held, "press")[0]).toEqual(["press may stand at S2 only (station)"]);
  });
});
