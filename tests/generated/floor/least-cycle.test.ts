import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Line } from "../../../src/line/line.js";
import { balance } from "../../../src/solve/balance.js";
import { fixStations } from "../../../src/solve/fix-stations.js";
import { type Pace, paceFromCycle } from "../../../src/time/pace.js";
import { add, compare, ONE, type Ratio, ratio } from "../../../src/time/ratio.js";
import { floorCases } from "../../tools/floor-random-line.js";

const goOn = () => null;
const fix = (line: Line, count: number) => fixStations(line, count, 100_000, goOn);

/** A line whose pace says nothing that its own cycle does not: one place a station, and no reserve. */
const lines = floorCases({ fewest: 2, most: 6, hasOnePlace: true, isFull: true }).map(({ line }) => line);

const at = (line: Line, cycle: Ratio): Pace => {
  const whole = paceFromCycle(1);
  const working = add(cycle, ratio(-line.handling));
  return {
    ...whole,
    lineCycle: cycle,
    handling: line.handling,
    planTo: ONE,
    workingTime: working,
    stationLimit: working,
  };
};

const options = {
  method: "best",
  nodes: 100_000,
  strictLimit: true,
  level: true,
  explain: false,
  checkpoint: goOn,
};

describe("the least cycle under rules of the floor", { timeout: 300_000 }, () => {
  it("never grows with a station more, and balance at it needs no more stations", async () => {
    let plans = 0;
    await fc.assert(
      fc.asyncProperty(lines, fc.integer({ min: 1, max: 4 }), async (line, count) => {
        const [some, more] = [await fix(line, count), await fix(line, count + 1)];
        if (some.plan === null) return;
        plans++;
        expect(more.plan).not.toBeNull();
        expect(some.proved && more.plan !== null && more.proved).toBe(true);
        if (more.plan !== null) expect(compare(more.cycle, some.cycle)).toBeLessThanOrEqual(0);
        const pace = at(line, some.cycle);
        const balanced = await balance(line, pace, options);
        expect(balanced.plan).not.toBeNull();
        expect(compare(balanced.level!.slowest, pace.lineCycle)).toBeLessThanOrEqual(0);
        // Of people one a station, as few stations as people.
        if (line.tasks.every(({ people }) => people === 1))
          expect(balanced.plan!.stations.length).toBeLessThanOrEqual(count);
      }),
      { seed: 29, numRuns: 60 },
    );
    expect(plans).toBeGreaterThan(20);
  });
});
