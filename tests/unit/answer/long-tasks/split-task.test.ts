import { expect, it } from "vitest";
import { splitTask } from "../../../../src/answer/long-tasks/split-task.js";
import { ratio } from "../../../../src/time/ratio.js";
import { floorLine } from "../../../tools/floor-line.js";

it("cuts a task into equal parts one after the other, with its rules, and renumbers what comes behind it", () => {
  const line = floorLine(["a 10", "b 90 a", "c 20 b", "d 5 a"], {
    together: [["c", "d"]],
    apart: [["b", "d"]],
    tasks: { b: { notAfter: 2 } },
    floor: [{ id: "S1" }, { id: "S2" }, { id: "S3" }],
  });
  const [a, b, c, d] = ["a", "b", "c", "d"].map((id) => line.tasks.findIndex((task) => task.id === id));
  expect([a, b, c, d]).toEqual([0, 1, 2, 3]);
  const cut = splitTask(line, b!, 3);
  expect(cut.tasks.map(({ id, load, notAfter }) => [id, load, notAfter])).toEqual([
    ["a", ratio(10_000_000), null],
    ["b (part 1)", ratio(30_000_000), 2],
    ["b (part 2)", ratio(30_000_000), 2],
    ["b (part 3)", ratio(30_000_000), 2],
    ["c", ratio(20_000_000), null],
    ["d", ratio(5_000_000), null],
  ]);
  expect(cut.before).toEqual([[], [0], [1], [2], [3], [0]]);
  expect(cut.together).toEqual([[4, 5]]);
  // Each part stays apart from d, and none from another part.
  expect(cut.apart).toEqual([
    [1, 5],
    [2, 5],
    [3, 5],
  ]);
});
