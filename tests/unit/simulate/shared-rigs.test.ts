import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readLine } from "../../../src/line/read-line.js";
import { ONE_PERSON, type Plan } from "../../../src/plan/plan.js";
import { runsOf, simulated } from "./simulated.js";

/** One station of so many places whose tasks use a counted rig. */
function withRigs(tasks: string, places: number, rigs: number, also = "") {
  const { line, findings } = readLine(
    "line.yaml",
    `unit: s\nequipment: {rig: ${rigs}}\n${also}\ntasks: {${tasks}}\n`,
  );
  if (line === null) throw new Error(JSON.stringify(findings));
  const plan: Plan = { stations: [{ ...ONE_PERSON, id: "S1", places, tasks: [...line.tasks.keys()] }] };
  return { line, plan };
}

describe("Workplaces that share rigs", () => {
  it("make a unit in the time that one holds the only rig", () => {
    // Each holds it for 20 + 90 s, a hundred and ten; other work is done meanwhile.
    const of = withRigs("a: {time: 20, machine-time: 90, equipment: rig}, b: 60", 2, 1);
    const [run] = runsOf(of, { hours: 8 });
    expect(run!.left).toBe(Math.floor(28_800 / 110));
    // All but the first of them stand 110 s without it: of the two places one always waits.
    expect(run!.stations[0]!.times.waiting).toBe(28_800 * 1e6);
    const [enough] = runsOf(withRigs("a: {time: 20, machine-time: 90, equipment: rig}, b: 60", 2, 2), {
      hours: 11,
      warmUp: 11,
    });
    expect(enough!.left).toBe(2 * 360);
    expect(enough!.stations[0]!.times.waiting).toBe(0);
  });

  it("find their turns: three places with 50 s before and 100 s on one of two rigs make a unit every 50 s", () => {
    const of = withRigs("a: 50, b: {time: 100, equipment: rig, after: a}", 3, 2);
    expect(runsOf(of, { hours: 10, warmUp: 1 })[0]!.left).toBe(720);
  });

  it("hold a rig from the first to the last task on it that follow each other, and not between two holds", () => {
    // Hook up 40, test 35 + 150, unhook 20 on one rig: 245 s each.
    const chain =
      "a: {time: 40, equipment: rig}, b: {time: 35, machine-time: 150, equipment: rig, after: a}, c: {time: 20, equipment: rig, after: b}";
    expect(runsOf(withRigs(chain, 2, 1), { hours: 49, warmUp: 1 })[0]!.left).toBe(720);
    /*
     * Two holds of 30 s with 60 s of other work between them: the other place has the rig meanwhile. The second comes 30 s behind the first, so
     * each later one asks for the rig just as the other takes it, and loses 30 s: two units in 150 s. One hold of 120 s would make one in 120 s.
     */
    const apart = "a: {time: 30, equipment: rig}, b: 60, c: {time: 30, equipment: rig}";
    expect(runsOf(withRigs(apart, 2, 1), { hours: 10, warmUp: 1 })[0]!.left).toBe(480);
  });

  it("are one server where all work is on the one rig, however many places there are", async () => {
    const of = withRigs("a: {time: 60, equipment: rig}", 3, 1, "variation: {shape: exponential}");
    const { mean, halfWidth, answer } = await simulated(of, { hours: 100, warmUp: 2, replications: 10 });
    expect(Math.abs(mean - 60)).toBeLessThan(2 * halfWidth!);
    expect(answer.canWait).toBe(true);
    expect(answer.leftOut).toEqual([]);
  });

  it("lose no moment, on any line", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 4 }),
        fc.integer({ min: 1, max: 3 }),
        fc.constantFrom("unpaced", "indexing"),
        fc.integer({ min: 0, max: 1000 }),
        (places, rigs, pacing, seed) => {
          const also = `variation: {shape: lognormal, cv: 60 %}\npacing: ${pacing}\nbreakdowns: {S1: {every: 1 h, lasts: 4 min}}`;
          const tasks =
            "a: {time: 30, equipment: rig}, b: 20, c: {time: 15, machine-time: 40, equipment: rig}";
          const [run] = runsOf(withRigs(tasks, places, rigs, also), { hours: 4, seed });
          const all = Object.values(run!.stations[0]!.times).reduce((sum, each) => sum + each, 0);
          expect(all).toBe(places * 4 * 3.6e9);
          expect(run!.unitTime).toBe(run!.passThrough + run!.unfinished);
          // No rig is held for longer than there is time.
          expect(run!.left * 0.4 * 60e6).toBeLessThan(rigs * 4 * 3.6e9);
        },
      ),
      { numRuns: 25, seed: 4 },
    );
  });
});
