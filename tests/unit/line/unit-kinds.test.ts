import fc from "fast-check";
import { expect, it } from "vitest";
import { unitKinds } from "../../../src/line/unit-kinds.js";
import { add, ratio, ZERO } from "../../../src/time/ratio.js";

/** Shares in lowest terms, by what is due. */
const tell = (everies: readonly number[]) =>
  unitKinds(everies).map(({ share, isDue }) => {
    const due = [...new Set(everies)].filter(isDue).sort((one, two) => one - two);
    return `${share.num}/${share.den}: ${due.join(" ")}`;
  });

it("makes one kind of units where all work is due on each", () => {
  expect(tell([1, 1])).toEqual(["1/1: 1"]);
  expect(tell([])).toEqual(["1/1: "]);
});

it("has work of the same number meet on the same units", () => {
  expect(tell([10, 1, 10])).toEqual(["9/10: 1", "1/10: 1 10"]);
});

it("has work of every 4th unit meet that of every 2nd, and that of every 4th and 6th on every 12th", () => {
  expect(tell([2, 4])).toEqual(["1/2: ", "1/4: 2", "1/4: 2 4"]);
  // Of twelve units 8 have none, the 4th and 8th one, the 6th the other, the last both.
  expect(tell([4, 6])).toEqual(["2/3: ", "1/6: 4", "1/12: 6", "1/12: 4 6"]);
});

it("has as many units of each kind as counting them shows", () => {
  const number = fc.integer({ min: 1, max: 9 });
  fc.assert(
    fc.property(fc.array(number, { maxLength: 3 }), (everies) => {
      const units = everies.reduce((product, each) => product * each, 1);
      const counted = new Map<string, number>();
      for (let unit = 1; unit <= units; unit++) {
        const due = everies.map((every) => unit % every === 0).join();
        counted.set(due, (counted.get(due) ?? 0) + 1);
      }
      const kinds = unitKinds(everies);
      expect(kinds.map(({ share }) => share).reduce(add, ZERO)).toEqual(ratio(1));
      expect(new Map(kinds.map(({ share, isDue }) => [everies.map(isDue).join(), share]))).toEqual(
        new Map([...counted].map(([due, count]) => [due, ratio(count, units)])),
      );
    }),
    { seed: 31, numRuns: 300 },
  );
});
