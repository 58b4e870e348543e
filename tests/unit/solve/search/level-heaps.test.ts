import fc from "fast-check";
import { expect, it } from "vitest";
import { LevelHeaps } from "../../../../src/solve/search/level-heaps.js";

const drain = (heaps: LevelHeaps, level: number) => {
  const states: number[] = [];
  for (let state = heaps.pop(level); state >= 0; state = heaps.pop(level)) states.push(state);
  return states;
};

it("gives the smallest key first and the older state among equals, level by level", () => {
  const keys = fc.array(fc.integer({ min: -5, max: 5 }), { maxLength: 200 });
  fc.assert(
    fc.property(keys, keys, (here, there) => {
      const heaps = new LevelHeaps(2);
      for (const [state, key] of here.entries()) heaps.push(0, state, key);
      for (const [state, key] of there.entries()) heaps.push(1, state, key);
      const sorted = (list: number[]) =>
        [...list.keys()].sort((one, two) => list[one]! - list[two]! || one - two);
      expect([drain(heaps, 0), drain(heaps, 1)]).toEqual([sorted(here), sorted(there)]);
    }),
    { seed: 7 },
  );
});

it("has nothing on a level that nobody pushed to", () => {
  expect(new LevelHeaps(3).pop(2)).toBe(-1);
});
