import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { levelledSequence } from "../../../../src/plan/models/levelled-sequence.js";
import { proposeSequence, type SequenceWanted } from "../../../../src/plan/models/propose-sequence.js";
import { planOf } from "../../../../src/plan/plan.js";
import { ONE, ratio, ZERO } from "../../../../src/time/ratio.js";
import { paceOf } from "../../../tools/line-of.js";
import { letters, mixedLine } from "./mixed-line.js";
import { ordersOf } from "./orders-of.js";

describe("100 s and 240 s, half each, at two places of one station that take units in turn, at 90 s", () => {
  const plan = { stations: planOf([[0]]).stations.map((each) => ({ ...each, places: 2 })) };
  const propose = (sequence: readonly string[] | null) =>
    levelledSequence(mixedLine({ s: 1, l: 1 }, { a: { seconds: [100, 240] } }, sequence), paceOf(90), plan);

  it("stands as given with two of each, which needs 60 s of room at both places", () => {
    // 240 - 180 = 60 s over, made up for by the next unit of the place, which leaves 80 s.
    const { sequence, by, isLeast, longest, given, measure } = propose(["s", "s", "l", "l"]);
    expect({ sequence: letters(sequence), by, isLeast, longest, given }).toEqual({
      sequence: "AABB",
      by: "given",
      isLeast: true,
      longest: 4,
      given: "stands",
    });
    expect(measure).toMatchObject({ endless: 0, drift: 60_000_000n });
  });

  it("is not proposed as one of each, where one place would get every long unit", () => {
    const { sequence, measure, given } = propose(["s", "l"]);
    expect([letters(sequence), given, measure.endless, measure.drift]).toEqual([
      "ABBA",
      "drifts-without-end",
      0,
      60_000_000n,
    ]);
  });

  it("is compared with no sequence of other shares", () => {
    expect(propose(["s", "s", "l"]).given).toBe("other-shares");
  });
});

const anyWanted: fc.Arbitrary<SequenceWanted> = fc.integer({ min: 2, max: 3 }).chain((models) =>
  fc
    .record({
      quantities: fc.array(fc.integer({ min: 1, max: 3 }), { minLength: models, maxLength: models }),
      stations: fc.array(
        fc.record({
          gains: fc.array(
            fc.integer({ min: -30, max: 30 }).map((each) => BigInt(each)),
            { minLength: models, maxLength: models },
          ),
          places: fc.integer({ min: 1, max: 2 }),
          room: fc.constantFrom(null, 5n, 20n),
        }),
        { minLength: 1, maxLength: 2 },
      ),
      shuffle: fc.array(fc.nat({ max: 1000 }), { minLength: 9, maxLength: 9 }),
    })
    .map(({ quantities, stations, shuffle }) => ({
      quantities,
      stations,
      spacings: [],
      uses: quantities.map((_, model) => stations.map(({ gains }) => ratio(gains[model]! + 40n))),
      tieUses: quantities.map((_, model) => quantities.map((_, other) => (other === model ? ONE : ZERO))),
      isLevelFirst: false,
      given: quantities
        .flatMap((units, model) => Array<number>(units).fill(model))
        .map((model, at) => ({ model, key: shuffle[at]! }))
        .sort((one, two) => one.key - two.key)
        .map(({ model }) => model),
    })),
);

/** What stations do when an order is simply run for long, unit by unit: how many go on drifting, how many too far, and how far in all. */
function runOrder({ stations }: SequenceWanted, order: readonly number[]): readonly [number, number, number] {
  const ends = stations.map(({ gains, places, room }) => {
    const far = (rounds: number) => {
      const drifts = Array<number>(places).fill(0);
      let most = 0;
      for (let unit = 0; unit < rounds * order.length; unit++) {
        const drift = drifts[unit % places]! + Number(gains[order[unit % order.length]!]!);
        drifts[unit % places] = Math.max(0, drift);
        most = Math.max(most, drift);
      }
      return most;
    };
    const drift = far(20) === far(40) ? far(20) : null;
    return { drift, isTooFar: room !== null && (drift === null || drift > room) };
  });
  return [
    ends.filter(({ drift }) => drift === null).length,
    ends.filter(({ isTooFar }) => isTooFar).length,
    ends.reduce((sum, { drift }) => sum + (drift ?? 0), 0),
  ];
}

const isWorse = (one: readonly number[], two: readonly number[]): boolean => {
  const at = one.findIndex((each, index) => each !== two[index]);
  return at >= 0 && one[at]! > two[at]!;
};

describe("a proposed sequence", () => {
  it("is never worse than the given one, on a line that is run unit by unit", () => {
    fc.assert(
      fc.property(anyWanted, (wanted) => {
        const { sequence, given } = proposeSequence(wanted);
        const [proposed, asGiven] = [runOrder(wanted, sequence), runOrder(wanted, wanted.given!)];
        expect(isWorse(proposed, asGiven)).toBe(false);
        if (given === "stands") expect(sequence).toEqual(wanted.given);
        else expect(isWorse(asGiven, proposed) || given === "less-level").toBe(true);
      }),
      { seed: 7, numRuns: 150 },
    );
  });

  it("is proved least only where no order of the repeat is better, tried one by one", () => {
    let proved = 0;
    fc.assert(
      fc.property(anyWanted, (wanted) => {
        const { sequence, isLeast } = proposeSequence({ ...wanted, given: null });
        if (!isLeast) return;
        proved++;
        const proposed = runOrder(wanted, sequence);
        for (const order of ordersOf(wanted.quantities))
          expect(isWorse(proposed, runOrder(wanted, order))).toBe(false);
      }),
      { seed: 7, numRuns: 60 },
    );
    expect(proved).toBeGreaterThan(40);
  });
});

const anySpaced = fc.integer({ min: 2, max: 3 }).chain((models) =>
  fc.record({
    quantities: fc.array(fc.integer({ min: 1, max: 3 }), { minLength: models, maxLength: models }),
    spacings: fc.array(
      fc.record({
        name: fc.constant("x"),
        models: fc.subarray([...Array(models).keys()], { minLength: 1, maxLength: 2 }),
        most: fc.integer({ min: 1, max: 2 }),
        of: fc.integer({ min: 3, max: 4 }),
      }),
      { minLength: 1, maxLength: 2 },
    ),
  }),
);

/** By the definition: units of so many in a row, from each unit on, of an order that is built three times and more. */
function keeps(order: readonly number[], spacings: SequenceWanted["spacings"]): boolean {
  const long = Array.from({ length: 8 }, () => order).flat();
  return spacings.every(({ models, most, of }) =>
    order.every(
      (_, from) => long.slice(from, from + of).filter((each) => models.includes(each)).length <= most,
    ),
  );
}

describe("spacing", () => {
  it("is kept where any order of the units keeps it, and said to be impossible where none does, tried one by one", () => {
    const seen = { kept: 0, impossible: 0 };
    fc.assert(
      fc.property(anySpaced, ({ quantities, spacings }) => {
        const uses = quantities.map((units) => [ratio(units)]);
        const wanted = {
          quantities,
          stations: [],
          spacings,
          uses,
          tieUses: uses,
          isLevelFirst: false,
          given: null,
        };
        const { sequence, measure, isImpossible } = proposeSequence(wanted);
        const one = ordersOf(quantities).some((order) => keeps(order, spacings));
        if (one) expect(measure.broken).toBe(0);
        if (isImpossible) expect(one).toBe(false);
        expect(keeps(sequence, spacings)).toBe(measure.broken === 0);
        expect(isImpossible).toBe(measure.broken > 0);
        seen[isImpossible ? "impossible" : "kept"]++;
      }),
      { seed: 7, numRuns: 120 },
    );
    expect(Math.min(seen.kept, seen.impossible)).toBeGreaterThan(15);
  });
});
