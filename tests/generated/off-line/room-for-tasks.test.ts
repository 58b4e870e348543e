import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { RoomForTasks } from "../../../src/answer/long-tasks/room-for-tasks.js";
import type { Line } from "../../../src/line/line.js";
import { withoutTasks } from "../../../src/line/without-tasks.js";
import { balance as solve } from "../../../src/solve/balance.js";
import type { Pace } from "../../../src/time/pace.js";
import { compare, multiply, type Ratio, ratio, subtract, ZERO } from "../../../src/time/ratio.js";
import { floorCases } from "../../tools/floor-random-line.js";

const options = { method: "best", nodes: 5_000, level: false, explain: false, checkpoint: () => null };

/** The first task of a line alone, with what the line says of it. */
const firstOf = (line: Line): Line =>
  withoutTasks(
    line,
    [...line.tasks.keys()].filter((task) => task > 0),
  );

function at(pace: Pace, lineCycle: Ratio): Pace {
  const workingTime = subtract(lineCycle, ratio(pace.handling));
  return { ...pace, lineCycle, workingTime, stationLimit: multiply(workingTime, pace.planTo) };
}

const JUST_BELOW = ratio(999_999, 1_000_000);

describe("The room that a task needs of a station", () => {
  it("is the least that a balance of the task alone can do with: of line cycle, places and equipment", async () => {
    const cases = floorCases({ fewest: 1, most: 2 });
    await fc.assert(
      fc.asyncProperty(cases, async ({ line: drawn, pace, strictLimit }) => {
        const line = { ...firstOf(drawn), people: [] };
        const balance = async (asked: Line, lineCycle: Ratio) =>
          (await solve(asked, at(pace, lineCycle), { ...options, strictLimit })).plan !== null;
        // Where rules alone leave it no station, no room helps.
        if (!(await balance(line, ratio(1_000_000_000_000)))) return;
        const room = new RoomForTasks(line, pace, strictLimit);
        const least = room.lineCycleFor(0);
        if (compare(least, ratio(pace.handling)) <= 0) return;
        expect(await balance(line, least)).toBe(true);
        const below = multiply(least, JUST_BELOW);
        if (compare(subtract(below, ratio(pace.handling)), ZERO) > 0)
          expect(await balance(line, below)).toBe(false);

        const places = room.placesFor(0);
        const needed = room.equipmentFor(0);
        const equipment = new Map(
          [...line.equipment].map(([name, count]) => [name, Math.max(count, needed.get(name) ?? 0)]),
        );
        const roomy = (most: number): Line => ({
          ...line,
          equipment,
          maxPlaces: most,
          floor: line.floor.map((station) => ({ ...station, maxPlaces: most })),
        });
        expect(await balance(roomy(places), pace.lineCycle)).toBe(true);
        if (places > 1) expect(await balance(roomy(places - 1), pace.lineCycle)).toBe(false);
        for (const [name, count] of needed) {
          if (count === 1) continue;
          const fewer = { ...roomy(places), equipment: new Map([...equipment, [name, count - 1]]) };
          expect(await balance(fewer, pace.lineCycle)).toBe(false);
        }
      }),
      { seed: 7, numRuns: 100 },
    );
  });
});
