import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { driftRoom, settledDrift } from "../../../../src/plan/models/drift-room.js";
import { planOf } from "../../../../src/plan/plan.js";
import { compare, type Ratio, ratio, ZERO } from "../../../../src/time/ratio.js";
import { paceOf, shortLine } from "../../../tools/line-of.js";
import { inSeconds, mixedLine } from "./mixed-line.js";

const numbers = (order: string): number[] => [...order].map((letter) => letter.charCodeAt(0) - 65);

describe("the drift room of 80 s and 40 s, half each, at 60 s", () => {
  const line = mixedLine({ four: 1, two: 1 }, { doors: { seconds: [80, 40] } });
  const plan = planOf([[0]]);

  it.each([
    ["AB", 20],
    ["BA", 20],
    ["AABB", 40],
    ["ABBA", 40],
    ["AAABBB", 60],
    ["BBBAAA", 60],
  ])("is in the order %s %i s", (order, room) => {
    const [drift] = driftRoom(line, paceOf(60), plan, numbers(order));
    expect(drift).toEqual({ room: ratio(room * 1_000_000), grows: null });
  });

  it("has no end where the order holds more of the longer model than its share", () => {
    expect(driftRoom(line, paceOf(60), plan, numbers("AAB"))).toEqual([{ room: null, grows: "order" }]);
  });

  it("has no end where the average does not fit", () => {
    expect(driftRoom(line, paceOf(59), plan, numbers("AB"))).toEqual([{ room: null, grows: "average" }]);
  });

  it("takes off the handling", () => {
    // 70 - 5 = 65 s of working time: 15 s over, 25 s under.
    const pace = { ...paceOf(70), handling: 5_000_000, workingTime: ratio(65_000_000) };
    expect(inSeconds(driftRoom(line, pace, plan, numbers("AB"))[0]!.room!)).toBe(15);
  });
});

describe("the drift room of two places that take units in turn", () => {
  const line = mixedLine({ long: 1, short: 1 }, { press: { seconds: [140, 100] } });
  const plan = { stations: planOf([[0]]).stations.map((station) => ({ ...station, places: 2 })) };

  it("is that of each place: A A B B gives both places A and B by turns", () => {
    // 2 x 60 = 120 s of working time for each unit of a place.
    expect(inSeconds(driftRoom(line, paceOf(60), plan, numbers("AABB"))[0]!.room!)).toBe(20);
  });

  it("has no end where every long unit falls to the same place", () => {
    expect(driftRoom(line, paceOf(60), plan, numbers("AB"))).toEqual([{ room: null, grows: "order" }]);
  });

  it("is no room at all where both models fit", () => {
    expect(driftRoom(line, paceOf(70), plan, numbers("AB"))).toEqual([{ room: ZERO, grows: null }]);
  });
});

it("counts walking, repeated work and rare work on average", () => {
  const line = mixedLine(
    { A: 1, B: 1 },
    {
      test: { seconds: [30, 10], walking: 2, visits: ratio(5, 4) },
      wash: { seconds: [100, null], walking: 10, every: 10 },
    },
  );
  // A: 1.25 x 32 + 11 = 51 s, B: 1.25 x 12 = 15 s; at 40 s A drifts 11 s.
  expect(inSeconds(driftRoom(line, paceOf(40), planOf([[0, 1]]), [0, 1])[0]!.room!)).toBe(11);
});

it("is 0 on a line without models whose stations fit", () => {
  const line = shortLine(["a 10", "b 20"]);
  expect(driftRoom(line, paceOf(20), planOf([[0], [1]]), [0])).toEqual([
    { room: ZERO, grows: null },
    { room: ZERO, grows: null },
  ]);
});

it("refuses a sequence without units", () => {
  expect(() => settledDrift([ratio(1)], ratio(1), 1, [])).toThrow(
    new RangeError("a sequence needs at least one unit"),
  );
});

interface AnyOrder {
  readonly times: readonly number[];
  readonly working: number;
  readonly places: number;
  readonly sequence: readonly number[];
}

const anyOrder: fc.Arbitrary<AnyOrder> = fc
  .array(fc.integer({ min: 0, max: 30 }), { minLength: 1, maxLength: 4 })
  .chain((times) =>
    fc.record({
      times: fc.constant(times),
      working: fc.integer({ min: 1, max: 30 }),
      places: fc.integer({ min: 1, max: 4 }),
      sequence: fc.array(fc.nat({ max: times.length - 1 }), { minLength: 1, maxLength: 9 }),
    }),
  );

const roomOf = ({ times, working, places, sequence }: AnyOrder): Ratio | null =>
  settledDrift(
    times.map((each) => ratio(each)),
    ratio(working),
    places,
    sequence,
  );

/** The largest drift over so many rounds of a line that is simply run, unit by unit. */
function runLine({ times, working, places, sequence }: AnyOrder, rounds: number): number {
  const drifts = Array<number>(places).fill(0);
  let most = 0;
  for (let unit = 0; unit < rounds * sequence.length; unit++) {
    const place = unit % places;
    const own = times[sequence[unit % sequence.length]!]!;
    drifts[place] = Math.max(0, drifts[place]! + own - working);
    most = Math.max(most, drifts[place]!);
  }
  return most;
}

describe("the drift room of any order", () => {
  it("is what a line shows that is run for long, or has no end where that goes on growing", () => {
    fc.assert(
      fc.property(anyOrder, (order) => {
        const room = roomOf(order);
        const [after, later] = [runLine(order, 24), runLine(order, 48)];
        if (room === null) expect(later).toBeGreaterThan(after);
        else expect([ratio(after), ratio(later)]).toEqual([room, room]);
      }),
      { seed: 7 },
    );
  });

  it("is 0 where every unit of the order fits, above 0 where one does not, and never below", () => {
    fc.assert(
      fc.property(anyOrder, (order) => {
        const room = roomOf(order);
        const fits = order.sequence.every((model) => order.times[model]! <= order.working);
        if (fits) expect(room).toEqual(ZERO);
        else expect(room === null || compare(room, ZERO) > 0).toBe(true);
      }),
      { seed: 7 },
    );
  });

  it("does not change with the unit that the round begins with", () => {
    fc.assert(
      fc.property(anyOrder, (order) => {
        const turned = [...order.sequence.slice(1), order.sequence[0]!];
        expect(roomOf({ ...order, sequence: turned })).toEqual(roomOf(order));
      }),
      { seed: 7 },
    );
  });

  it("does not change with the names of the models", () => {
    fc.assert(
      fc.property(anyOrder, (order) => {
        const last = order.times.length - 1;
        const renamed = {
          ...order,
          times: order.times.toReversed(),
          sequence: order.sequence.map((model) => last - model),
        };
        expect(roomOf(renamed)).toEqual(roomOf(order));
      }),
      { seed: 7 },
    );
  });

  it("does not change when the round is written down twice", () => {
    fc.assert(
      fc.property(anyOrder, (order) => {
        expect(roomOf({ ...order, sequence: [...order.sequence, ...order.sequence] })).toEqual(roomOf(order));
      }),
      { seed: 7 },
    );
  });
});
