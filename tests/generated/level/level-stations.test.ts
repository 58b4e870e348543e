import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { StationProblem, Stations } from "../../../src/solve/problem.js";
import { faultsOf, fillPlainly } from "../../published/plain-stations.js";
import { levelStations } from "../../tools/level-stations.js";
import { oneTaskAStation, smallLines } from "../search/small-lines.js";
import { evenest } from "./every-plan.js";

const level = (problem: StationProblem, plan: Stations, nodes = 1_000_000) =>
  levelStations(problem, plan, { nodes }, () => null);

const loadsOf = ({ times }: StationProblem, plan: Stations) =>
  plan.map((tasks) => tasks.reduce((sum, task) => sum + times[task]!, 0));
const longestOf = (problem: StationProblem, plan: Stations) => Math.max(0, ...loadsOf(problem, plan));
const squares = (loads: readonly number[]) => loads.reduce((sum, load) => sum + load * load, 0);

/** A line with a plan: filled plainly, or with one task a station. */
const plans = (most: number) =>
  fc.record({ problem: smallLines(most), alone: fc.boolean() }).map(({ problem, alone }) => ({
    problem,
    plan: alone ? oneTaskAStation(problem) : fillPlainly(problem),
  }));

describe("a plan evened out", () => {
  it("has the shortest longest station and the smoothest loads of all plans with as many stations", async () => {
    await fc.assert(
      fc.asyncProperty(plans(9), async ({ problem, plan }) => {
        const answer = await level(problem, plan);
        const best = evenest(problem.times, problem.before, plan.length, true);
        expect(faultsOf(problem, answer.stations)).toEqual([]);
        expect([answer.slowest, answer.slowestBound, answer.outcome]).toEqual([
          best.limit,
          best.limit,
          "proved",
        ]);
        const loads = loadsOf(problem, answer.stations);
        expect([squares(loads), answer.smoothness]).toEqual([best.squares, "proved"]);
        const gaps = loads.reduce((sum, load) => sum + (answer.slowest - load) ** 2, 0);
        expect(answer.squaredGaps).toBe(BigInt(gaps));
      }),
      { seed: 7 },
    );
  });

  it("never has more stations, a longer longest station, or more uneven loads at the same longest", async () => {
    await fc.assert(
      fc.asyncProperty(plans(20), fc.integer({ min: 0, max: 300 }), async ({ problem, plan }, nodes) => {
        const answer = await level(problem, plan, nodes);
        expect(faultsOf(problem, answer.stations)).toEqual([]);
        expect(answer.stations).toHaveLength(plan.length);
        const [before, after] = [longestOf(problem, plan), longestOf(problem, answer.stations)];
        expect(answer.slowest).toBe(after);
        expect(after).toBeLessThanOrEqual(before);
        expect(answer.slowestBound).toBeLessThanOrEqual(after);
        if (after === before) {
          const loads = loadsOf(problem, answer.stations);
          expect(squares(loads)).toBeLessThanOrEqual(squares(loadsOf(problem, plan)));
        }
        expect(await level(problem, plan, nodes)).toEqual(answer);
      }),
      { seed: 7 },
    );
  });
});
