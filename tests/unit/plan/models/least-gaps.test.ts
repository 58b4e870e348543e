import fc from "fast-check";
import { expect, it } from "vitest";
import { goalChasing } from "../../../../src/plan/models/goal-chasing.js";
import { leastGaps, squaredGaps } from "../../../../src/plan/models/least-gaps.js";
import { compare, ratio } from "../../../../src/time/ratio.js";
import { letters } from "./mixed-line.js";
import { ordersOf } from "./orders-of.js";

const rows = (uses: readonly (readonly number[])[]) => uses.map((row) => row.map((use) => ratio(use)));
const none = (models: number) => Array<never[]>(models).fill([]);

const anyMix = fc
  .tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 3 }))
  .chain(([models, parts]) =>
    fc.record({
      quantities: fc
        .array(fc.integer({ min: 0, max: 3 }), { minLength: models, maxLength: models })
        .filter((each) => each.some((units) => units > 0)),
      uses: fc.array(fc.array(fc.integer({ min: 0, max: 9 }), { minLength: parts, maxLength: parts }), {
        minLength: models,
        maxLength: models,
      }),
    }),
  );

/** In whole numbers, by the definition: the sum over places and parts of (k x total - n x used)^2, over n^2. */
function gapsOf(sequence: readonly number[], uses: readonly (readonly number[])[]) {
  const units = sequence.length;
  const used = (upTo: number, part: number) =>
    sequence.slice(0, upTo).reduce((sum, model) => sum + uses[model]![part]!, 0);
  const places = sequence.map((_, at) => at + 1);
  const gaps = places.flatMap((place) =>
    uses[0]!.map((_, part) => (place * used(units, part) - units * used(place, part)) ** 2),
  );
  return ratio(
    gaps.reduce((sum, each) => sum + each, 0),
    units ** 2,
  );
}

it("has the gaps of its definition, and no order of these units has less, tried one by one", () => {
  fc.assert(
    fc.property(anyMix, ({ quantities, uses }) => {
      const least = leastGaps(quantities, rows(uses), none(quantities.length))!;
      expect(quantities.map((_, model) => least.filter((each) => each === model).length)).toEqual(quantities);
      const gaps = squaredGaps(least, rows(uses));
      expect(gaps).toEqual(gapsOf(least, uses));
      for (const order of ordersOf(quantities))
        expect(compare(gaps, gapsOf(order, uses))).toBeLessThanOrEqual(0);
      const chased = goalChasing(quantities, rows(uses)).sequence;
      expect(compare(gaps, squaredGaps(chased, rows(uses)))).toBeLessThanOrEqual(0);
    }),
    { seed: 7, numRuns: 60 },
  );
});

it("spreads models that use the same by the second goal, and else takes the first models first", () => {
  const same = rows([[7], [7]]);
  expect(letters(leastGaps([2, 2], same, none(2))!)).toBe("AABB");
  expect(
    letters(
      leastGaps(
        [3, 2],
        same,
        rows([
          [1, 0],
          [0, 1],
        ]),
      )!,
    ),
  ).toBe("ABABA");
});

it("is left to goal chasing where there are too many counts of units", () => {
  // 100^3 counts.
  expect(leastGaps([99, 99, 99], rows([[1], [2], [3]]), none(3))).toBeNull();
});
