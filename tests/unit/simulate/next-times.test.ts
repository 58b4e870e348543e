import fc from "fast-check";
import { expect, it } from "vitest";
import { NextTimes } from "../../../src/simulate/next-times.js";

it("The place that is done first is that of a search of all, the latest station and its first place where several are", () => {
  const sizes = fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 1, maxLength: 7 });
  const changes = fc.array(
    fc.tuple(fc.nat(), fc.nat(), fc.constantFrom(0, 1, 2, 3, Number.POSITIVE_INFINITY)),
    { minLength: 1, maxLength: 40 },
  );
  fc.assert(
    fc.property(sizes, changes, (places, all) => {
      const next = new NextTimes(places);
      const times = places.map((count) => new Array<number>(count).fill(Number.POSITIVE_INFINITY));
      for (const [anyStation, anyPlace, time] of all) {
        const station = anyStation % places.length;
        const place = anyPlace % places[station]!;
        next.set(station, place, time);
        times[station]![place] = time;
        const soonest = Math.min(...times.flat());
        const latest = times.findLastIndex((each) => each.includes(soonest));
        expect(next.first().time).toBe(soonest);
        expect(next.at(station, place)).toBe(time);
        if (soonest === Number.POSITIVE_INFINITY) continue;
        expect(next.first()).toEqual({
          station: latest,
          place: times[latest]!.indexOf(soonest),
          time: soonest,
        });
      }
    }),
    { seed: 31, numRuns: 200 },
  );
});
