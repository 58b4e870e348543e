import { expect, it } from "vitest";
import { mergeTogether } from "../../../src/solve/merge-together.js";
import { idsOf, numbersOf, shortLine } from "../../tools/line-of.js";

/** Blocks as texts, in order of work. */
function merge(rows: readonly string[], ...groups: string[]): string[] {
  const line = shortLine(rows);
  const merged = mergeTogether(
    line.before,
    groups.map((group) => numbersOf(line, ...group.split(" "))),
  );
  return merged.map((tasks) => idsOf(line, tasks).join(" "));
}

it("takes what lies between two tasks of a group into their station", () => {
  // Y waits for X, and Z for Y: with X and Z at one station, Y can be at no other.
  expect(merge(["X 25", "Y 20 X", "Z 25 Y"], "X Z")).toEqual(["X Y Z"]);
});

it("joins groups that wait for each other, and groups that share a task", () => {
  // b waits for a and c for d: each group is before and behind the other.
  expect(merge(["a 10", "b 10 a", "c 10 d", "d 10"], "a c", "b d")).toEqual(["a b d c"]);
  expect(merge(["a 10", "b 10", "c 10", "d 10"], "a b", "b c")).toEqual(["a b c", "d"]);
});

it("leaves what is only before or behind a group where it is, and orders blocks by the arrows", () => {
  expect(merge(["a 10 z", "b 10", "y 10 a b", "z 10"], "a b")).toEqual(["z", "b a", "y"]);
});

it("gives every task a block of its own where nothing shares a station", () => {
  expect(merge(["a 10 c", "b 10", "c 10 b"])).toEqual(["b", "c", "a"]);
  expect(merge(["a 10 c", "b 10", "c 10 b"], "a")).toEqual(["b", "c", "a"]);
});
