import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { levelledSequence } from "../../../../src/plan/models/levelled-sequence.js";
import { proposeSequence, type SequenceWanted } from "../../../../src/plan/models/propose-sequence.js";
import { planOf } from "../../../../src/plan/plan.js";
import { ONE, ratio, ZERO } from "../../../../src/time/ratio.js";
import { paceOf } from "../../../tools/line-of.js";
import { letters, mixedLine, sharesFrom } from "./mixed-line.js";
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

/**
 * The farthest that work runs past its end when units come by the clock, a cycle apart, and each goes to the next place, which begins it
 * when it has done the one before; null where that is more after twice the time.
 */
function farthestByClock(
  seconds: readonly number[],
  places: number,
  cycle: number,
  order: readonly number[],
) {
  const freeAt = Array<number>(places).fill(0);
  const far = [0, 0];
  const half = 40 * order.length * places;
  for (let unit = 0; unit < 2 * half; unit++) {
    const comes = unit * cycle;
    const ends = Math.max(comes, freeAt[unit % places]!) + seconds[order[unit % order.length]!]!;
    freeAt[unit % places] = ends;
    const past = ends - (comes + places * cycle);
    far[unit < half ? 0 : 1] = Math.max(far[unit < half ? 0 : 1]!, past);
  }
  return far[1]! > far[0]! ? null : far[0]!;
}

describe("at parallel workplaces", () => {
  const stationOf = (places: number) => ({
    stations: planOf([[0]]).stations.map((each) => ({ ...each, places })),
  });

  it.each([
    ["ABAAB", 36],
    ["AAABB", 24],
  ])(
    "three units of 220 s and two of 250 s in the order %s run %i s past the end of two places, at 116 s",
    (order, room) => {
      // A place has 232 s for a unit: 12 s less and 18 s more. A A B B A by turns: 18 + 18; A A B A B: 18 - 12 + 18.
      const line = mixedLine({ A: 3, B: 2 }, { a: { seconds: [220, 250] } }, [...order]);
      const { measure, sequence, given } = levelledSequence(line, paceOf(116), stationOf(2));
      const numbers = [...order].map((each) => "AB".indexOf(each));
      expect(farthestByClock([220, 250], 2, 116, numbers)).toBe(room);
      expect(farthestByClock([220, 250], 2, 116, sequence)).toBe(24);
      expect([measure.drift, given]).toEqual([24_000_000n, room === 24 ? "stands" : "drifts-more"]);
    },
  );

  it("an order is proposed that gives all four places the same units, where every order of the repeat that is tried drifts without end", () => {
    // 5 of 161 s and 7 of 262 s: 219.9 s on average, and a place has 224 s.
    const line = mixedLine({ A: 5, B: 7 }, { a: { seconds: [161, 262] } });
    const { sequence, measure } = levelledSequence(line, paceOf(56), stationOf(4));
    expect(measure.endless).toBe(0);
    expect(farthestByClock([161, 262], 4, 56, sequence)).toBe(Number(measure.drift) / 1_000_000);
  });

  it("an order is proposed that never drifts without end, nor farther than the given one, where the average fits, by the clock", () => {
    let drifting = 0;
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 6 }), { minLength: 2, maxLength: 3 }),
        fc.array(fc.integer({ min: 50, max: 99 }), { minLength: 3, maxLength: 3 }),
        fc.integer({ min: 2, max: 4 }),
        fc.nat({ max: 1000 }),
        (quantities, times, places, turn) => {
          const units = quantities.reduce((sum, each) => sum + each, 0);
          const seconds = quantities.map((_, model) => times[model]! * places);
          const work = quantities.reduce((sum, each, model) => sum + each * seconds[model]!, 0);
          const cycle = Math.ceil(work / units / places);
          const inOrder = quantities.flatMap((each, model) => Array<number>(each).fill(model));
          const given = inOrder.map(
            (_, at) => inOrder[(at * (turn % 2 === 0 ? 1 : units - 1) + turn) % units]!,
          );
          const models = Object.fromEntries(quantities.map((each, at) => [`m${at}`, each]));
          const line = { ...mixedLine(models, { a: { seconds } }), sequence: given };
          const { sequence } = levelledSequence(line, paceOf(cycle), stationOf(places));
          const [proposed, asGiven] = [sequence, given].map((each) =>
            farthestByClock(seconds, places, cycle, each),
          );
          expect(proposed).not.toBeNull();
          expect(proposed).toBeLessThanOrEqual(asGiven ?? Number.POSITIVE_INFINITY);
          if (proposed! > 0) drifting++;
        },
      ),
      { seed: 7, numRuns: 15 },
    );
    expect(drifting).toBeGreaterThan(9);
  });
});

describe("shares that come even only after more units than a repeat has", () => {
  it("let a given sequence stand that holds them, and drifts less than the nearest that is shorter", () => {
    const units = [65, 131, 91];
    const even: number[] = [];
    const built = units.map(() => 0);
    for (let at = 1; at <= 287; at++) {
      const short = units.map((each, model) => each * at - 287 * built[model]!);
      const next = short.indexOf(Math.max(...short));
      built[next]!++;
      even.push(next);
    }
    const line = {
      ...mixedLine({ A: 65, B: 131, C: 91 }, { a: { seconds: [99, 111, 100] } }),
      sequence: even,
    };
    const plan = { stations: planOf([[0]]).stations.map((each) => ({ ...each, places: 2 })) };
    const { sequence, by, given, exact, quantities, note } = levelledSequence(line, paceOf(55), plan);
    expect(sequence).toEqual(even);
    expect({ by, given, exact, quantities, note }).toEqual({
      by: "given",
      given: "stands",
      exact: true,
      quantities: units,
      note: null,
    });
    expect(farthestByClock([99, 111, 100], 2, 55, even)).toBe(6);
  });

  it("are come near by units that the station has time for", () => {
    // 102 x 1.01 s over 100 s, 101 x 1.02 s under: even. 100 and 99 are nearest, and 0.02 s too much.
    const line = mixedLine({ A: 102, B: 101 }, { a: { seconds: [101.01, 98.98] } });
    const { quantities, measure } = levelledSequence(line, paceOf(100), planOf([[0]]));
    expect(quantities[0]! * 101 - quantities[1]! * 102).toBeLessThanOrEqual(0);
    expect(measure.endless).toBe(0);
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
      shares: sharesFrom(quantities),
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

describe("what units keep, places to stand and equipment,", () => {
  const anyKept = anyWanted.chain((wanted) =>
    fc
      .array(
        fc.record({
          gains: fc.array(
            fc.integer({ min: -30, max: 30 }).map((each) => BigInt(each)),
            { minLength: wanted.shares.length, maxLength: wanted.shares.length },
          ),
          places: fc.integer({ min: 1, max: 2 }),
          room: fc.constantFrom(null, 20n),
        }),
        { minLength: 1, maxLength: 2 },
      )
      .map((kept) => ({ ...wanted, kept })),
  );

  it("is never kept longer than in the given sequence, however much less hands drift, run unit by unit", () => {
    let byHands = 0;
    fc.assert(
      fc.property(anyKept, (wanted) => {
        const { sequence } = proposeSequence(wanted);
        const keep = (order: readonly number[]) => runOrder({ ...wanted, stations: wanted.kept }, order);
        expect(isWorse(keep(sequence), keep(wanted.given!))).toBe(false);
        const { sequence: handsOnly } = proposeSequence({ ...wanted, kept: [] });
        if (isWorse(keep(handsOnly), keep(wanted.given!))) byHands++;
      }),
      { seed: 7, numRuns: 40 },
    );
    // Of hands alone it would be, now and then.
    expect(byHands).toBeGreaterThan(0);
  });
});

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
          shares: sharesFrom(quantities),
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
