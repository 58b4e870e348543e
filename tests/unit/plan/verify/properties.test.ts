import fc from "fast-check";
import { expect, it } from "vitest";
import { manualTime, walkingTime } from "../../../../src/plan/figures/kinds-of-time.js";
import type { StationSide } from "../../../../src/plan/plan.js";
import { planOf } from "../../../../src/plan/plan.js";
import { dwellAt, meanTimeAt } from "../../../../src/plan/station-schedule.js";
import { findShortages } from "../../../../src/plan/verify/match-people.js";
import { verifyPlan } from "../../../../src/plan/verify-plan.js";
import { add, compare, ratio } from "../../../../src/time/ratio.js";
import { anyLine, lineFile } from "../../../generated/lines/any-line.js";
import { floorLine, s } from "../../../tools/floor-line.js";
import { lineOf, paceOf } from "../../../tools/line-of.js";

it("finds nothing in a plan that fills stations in an order of work, on a line without rules", () => {
  fc.assert(
    fc.property(anyLine, (generated) => {
      const line = lineOf(lineFile(generated));
      const [stations, room] = [[[]] as number[][], { left: generated.cycle }];
      // Arrows of generated lines run from earlier to later rows, and step-10 sorts behind step-9.
      for (const [task, { seconds }] of generated.tasks.entries()) {
        if (seconds > room.left) {
          stations.push([]);
          room.left = generated.cycle;
        }
        stations.at(-1)!.push(task);
        room.left -= seconds;
      }
      expect(verifyPlan(line, paceOf(generated.cycle), planOf(stations), true)).toEqual([]);
    }),
    { seed: 41, numRuns: 200 },
  );
});

const side = fc.constantFrom<StationSide>("left", "right", "both");
const sidedTask = fc.record({
  seconds: fc.integer({ min: 0, max: 30 }),
  side,
  waits: fc.integer({ min: 0, max: 7 }),
});

it("lets a station with sides stand exactly where its latest end, worked out apart, is within the limit", () => {
  fc.assert(
    fc.property(
      fc.array(sidedTask, { minLength: 1, maxLength: 7 }),
      fc.integer({ min: 1, max: 120 }),
      (rows, limit) => {
        const line = floorLine(
          rows.map(({ seconds, waits }, at) => `t${at} ${seconds}${waits < at ? ` t${waits}` : ""}`),
          {
            tasks: Object.fromEntries(
              rows.map(({ side: worked }, at) => [
                `t${at}`,
                worked === "both" ? { people: 2, side: "either" } : { side: worked },
              ]),
            ),
          },
        );
        const sides = rows.map(({ side: worked }) => worked);
        const used = new Set(sides.flatMap((each) => (each === "both" ? ["left", "right"] : [each])));
        const station = {
          id: "S1",
          tasks: rows.map((_, at) => at),
          sides,
          persons: null,
          places: 1,
          crew: used.size,
        };
        const rules = verifyPlan(line, paceOf(limit), { stations: [station] }, true).map(({ rule }) => rule);
        const isTooLong = compare(dwellAt(line, station), ratio(s(limit))) > 0;
        expect(rules.length > 0).toBe(isTooLong);
        expect(rules.every((rule) => rule === "load" || rule === "dwell")).toBe(true);
      },
    ),
    { seed: 42, numRuns: 300 },
  );
});

/** Whether some order of people takes every place. */
function canSeat(
  asked: readonly (readonly string[])[],
  people: readonly { skills: readonly string[] }[],
): boolean {
  const [first, ...others] = asked;
  if (first === undefined) return true;
  return people.some(
    (person, at) =>
      first.every((skill) => person.skills.includes(skill)) &&
      canSeat(
        others,
        people.filter((_, other) => other !== at),
      ),
  );
}

it("finds a shortage exactly where no order of people takes every place, and names too few people for its places", () => {
  const skills = fc.subarray(["brakes", "press", "wheels"]);
  fc.assert(
    fc.property(fc.array(skills, { maxLength: 5 }), fc.array(skills, { maxLength: 5 }), (asked, able) => {
      const people = able.map((has, at) => ({ id: `p${at}`, skills: has }));
      const found = findShortages(asked, people);
      expect(found.length === 0).toBe(canSeat(asked, people));
      for (const shortage of found) {
        const suited = people.flatMap((person, at) =>
          shortage.places.some((place) => asked[place]!.every((skill) => person.skills.includes(skill)))
            ? [at]
            : [],
        );
        expect(shortage.people).toEqual(suited);
        expect(suited.length).toBeLessThan(shortage.places.length);
      }
      const named = found.flatMap(({ places }) => places);
      expect(new Set(named).size).toBe(named.length);
    }),
    { seed: 43, numRuns: 300 },
  );
});

it("splits every load into hand work and walking without a rest", () => {
  const time = fc.option(fc.integer({ min: 0, max: 90 }), { nil: null });
  const task = fc.record({
    city: time,
    cargo: time,
    walking: fc.integer({ min: 0, max: 9 }),
    every: fc.integer({ min: 1, max: 7 }),
    visits: fc.integer({ min: 100, max: 150 }),
  });
  fc.assert(
    fc.property(
      fc.array(task, { minLength: 1, maxLength: 5 }),
      fc.integer({ min: 1, max: 99 }),
      (rows, share) => {
        const line = floorLine(
          rows.map((_, at) => `t${at} 0`),
          {
            models: [
              { id: "city", share: ratio(share, 100) },
              { id: "cargo", share: ratio(100 - share, 100) },
            ],
            tasks: Object.fromEntries(
              rows.map(({ city, cargo, walking, every, visits }, at) => [
                `t${at}`,
                {
                  times: [city, cargo].map((each) => (each === null ? null : s(each))),
                  walking: s(walking),
                  every,
                  visits: ratio(visits, 100),
                },
              ]),
            ),
          },
        );
        const [station] = planOf([rows.map((_, at) => at)]).stations;
        const parts = add(manualTime(line, station!), walkingTime(line, station!));
        expect(parts).toEqual(meanTimeAt(line, station!));
      },
    ),
    { seed: 44, numRuns: 200 },
  );
});
