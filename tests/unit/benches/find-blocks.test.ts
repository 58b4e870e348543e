import { describe, expect, it } from "vitest";
import { findBlocks, marksBase, tasksOnBase } from "../../../src/benches/find-blocks.js";
import type { Line } from "../../../src/line/line.js";
import { idsOf, shortLine } from "../../tools/line-of.js";

const blocks = (line: Line) =>
  findBlocks(line).map(
    ({ tasks, joinsAt }) => `${idsOf(line, tasks).join("+")} -> ${line.tasks[joinsAt]!.id}`,
  );

describe("a wheel that is laced and trued before it is fitted to the frame", () => {
  const line = shortLine(["frame! 30", "lace 40", "true 55 lace", "fit 20 frame true", "brake 35 fit"]);

  it("can be laced, or laced and trued, away from the line", () => {
    expect(blocks(line).sort()).toEqual(["lace -> true", "lace+true -> fit"]);
  });

  it("cannot be trued without being laced, nor fitted or braked away from the frame", () => {
    const onBase = tasksOnBase(line);
    expect(
      idsOf(
        line,
        [...line.tasks.keys()].filter((task) => onBase[task]),
      ),
    ).toEqual(["brake", "fit", "frame"]);
  });
});

describe("parts that join at one task", () => {
  it("make one block each and one together", () => {
    const line = shortLine(["frame! 9", "front 5", "rear 6", "fit 1 frame front rear"]);
    expect(blocks(line).sort()).toEqual(["front -> fit", "front+rear -> fit", "rear -> fit"]);
  });

  it("make one block only together where both need a third part", () => {
    const line = shortLine(["frame! 9", "lace 5", "disc 2 lace", "tyre 3 lace", "fit 1 frame disc tyre"]);
    expect(blocks(line)).toEqual(["disc+lace+tyre -> fit"]);
  });

  it("make the blocks that they make without an arrow that others imply", () => {
    const plain = ["frame! 9", "lace 5", "true 2 lace", "fit 1 frame true", "brake 4 fit"];
    const implied = ["frame! 9", "lace 5", "true 2 lace", "fit 1 frame true", "brake 4 fit true lace"];
    expect(blocks(shortLine(implied))).toEqual(blocks(shortLine(plain)));
    expect(blocks(shortLine(implied)).sort()).toEqual(["lace -> true", "lace+true -> fit"]);
  });

  it("make no block where a part is also needed elsewhere on the line", () => {
    const line = shortLine(["frame! 9", "cut 5", "cover 2 cut", "fit 1 frame cover", "label 1 frame cut"]);
    expect(blocks(line)).toEqual([]);
  });
});

describe("a line that never says what its base unit is", () => {
  const line = shortLine(["frame 30", "lace 10", "fit 20 frame lace", "brake 45 fit"]);

  it("has guessed blocks, none of half of the work content or more", () => {
    // 105 s in all: frame+lace+fit takes 60 s, more than half.
    expect(marksBase(line)).toBe(false);
    expect(blocks(line).sort()).toEqual(["frame -> fit", "frame+lace -> fit", "lace -> fit"]);
  });

  it("counts both of two people at a task in that half", () => {
    // 105 s of task time, of which frame takes 30; two people make it 60 s of 135 s, four 120 s of 195 s.
    const shared = (people: number) => ({
      ...line,
      tasks: line.tasks.map((task) => (task.id === "frame" ? { ...task, people } : task)),
    });
    expect(blocks(shared(2)).sort()).toEqual(["frame -> fit", "lace -> fit"]);
    expect(blocks(shared(4))).toEqual(["lace -> fit"]);
  });
});
