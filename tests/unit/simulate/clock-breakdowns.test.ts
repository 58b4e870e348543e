import { describe, expect, it } from "vitest";
import { toNumber } from "../../../src/time/ratio.js";
import { lineOf, runsOf, simulated } from "./simulated.js";

const clock = (every: string, lasts: string, stations = ["S1"]) =>
  `breakdowns: {${stations.map((id) => `${id}: {every: ${every}, lasts: ${lasts}, of: clock}`).join(", ")}}`;

describe("Breakdowns by the clock of the line", () => {
  it("take lasts / (every + lasts) of the time in about 95 of 100 intervals", async () => {
    const line = lineOf([360], clock("2 h", "20 min"));
    let covered = 0;
    for (let seed = 1; seed <= 100; seed++) {
      const { mean, halfWidth } = await simulated(line, { seed, hours: 40, warmUp: 3, replications: 8 });
      // Steady-state availability of exponential times, 120 / 140, of 10 units an hour: any text on reliability.
      if (Math.abs(mean - (10 * 120) / 140) <= halfWidth!) covered++;
    }
    // Of 1,000 such hundreds, binomial ones of 95 %, one is below 87.
    expect(covered).toBeGreaterThanOrEqual(87);
  });

  it("come to a place that waits, too, and go by a line that moves together as the product of what is up", async () => {
    const { answer } = await simulated(lineOf([120, 6], clock("50 min", "10 min", ["S2"])), { hours: 3000 });
    expect(toNumber(answer.stations[1]!.shares.down)).toBeCloseTo(1 / 6, 2);
    const line = lineOf([6, 6, 6], `pacing: indexing\n${clock("9 h", "1 h", ["S1", "S2", "S3"])}`);
    const { mean, halfWidth } = await simulated(line, { hours: 400, warmUp: 10, replications: 6 });
    // 0.9 x 0.9 x 0.9; by working time it is 1 / (1 + 3 / 9) = 0.75.
    expect(Math.abs(mean - 600 * 0.729)).toBeLessThan(2 * halfWidth!);
    expect(mean).toBeLessThan(600 * 0.75);
  });

  it("hold up work that goes on afterwards, moment by moment", () => {
    const [run] = runsOf(lineOf([60, 60], clock("20 min", "5 min", ["S1", "S2"])), { hours: 50 });
    for (const { times } of run!.stations)
      expect(Object.values(times).reduce((sum, each) => sum + each, 0)).toBe(50 * 3.6e9);
    // What is done is busy for its 60 s each, the unit at the end in part.
    for (const { times, units } of run!.stations) {
      expect(times.busy).toBeLessThanOrEqual(units * 60e6);
      expect(times.busy).toBeGreaterThan((units - 1) * 60e6);
    }
    expect(run!.unitTime).toBe(run!.passThrough + run!.unfinished);
  });
});
