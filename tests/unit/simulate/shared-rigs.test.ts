import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readLine } from "../../../src/line/read-line.js";
import { ONE_PERSON, type Plan } from "../../../src/plan/plan.js";
import { toNumber } from "../../../src/time/ratio.js";
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

  it("wait for none with a unit that needs none: 100 s on the only rig for every second unit make one every 50 s", () => {
    const of = withRigs("a: 10, b: {time: 100, every: 2, equipment: rig, after: a}", 2, 1);
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

/** One station of one place that holds so many units. */
function holding(holds: number, tasks: string, also = "") {
  const { line, findings } = readLine("line.yaml", `unit: s\nholds: ${holds}\n${also}\ntasks: {${tasks}}\n`);
  if (line === null) throw new Error(JSON.stringify(findings));
  return { line, plan: { stations: [{ ...ONE_PERSON, id: "S1", tasks: [...line.tasks.keys()] }] } };
}

describe("Units that stand at one workplace at a time", () => {
  const loaded = "a: {time: 20, machine-time: 90}";

  it.each([
    // A unit stands for 110 s: three of them make three in that time. Six are more than one person can load, who takes 20 s for each.
    [1, 3600 / 110],
    [3, (3 * 3600) / 110],
    [6, 180],
  ])("on machines: %d make %d an hour", (holds, rate) => {
    const [run] = runsOf(holding(holds, loaded), { hours: 110, warmUp: 11 });
    expect(run!.left).toBe(Math.round(110 * rate));
  });

  it("wait for the person who works on another one", () => {
    const tasks = "a: {time: 30, machine-time: 120}, brew: {time: 150, after: a}";
    expect(runsOf(holding(1, tasks), { hours: 8, warmUp: 1 })[0]!.left).toBe(8 * 12);
    /*
     * One comes at 300 s and is loaded until 330, the next at 450 s until 480; they run until 450 + 30 and 600. The person then brews from 600 to 750 s
     * and from 750 to 900 s, as the one before is brewed until 450 + 150: two in each 450 s.
     */
    const [run] = runsOf(holding(2, tasks), { hours: 8, warmUp: 1 });
    expect(run!.left).toBe(8 * 16);
  });

  it("go on together where the line does: each stays for as many cycles as the place holds units", async () => {
    const of = holding(2, loaded, "pacing: indexing");
    const { answer } = await simulated(of, { hours: 10, warmUp: 1, lineCycle: 60 });
    expect(toNumber(answer.perHour.mean)).toBe(60);
    expect(toNumber(answer.passThrough!)).toBe(120e6);
    expect(answer.leftOut).toEqual([]);
  });

  it("are told of where people share the work of one", async () => {
    const { answer } = await simulated(holding(2, loaded, "max-crew: 2"), { hours: 1 });
    expect(answer.leftOut.map(({ message }) => message)).toEqual([
      "station S1: `holds` is not simulated where people share the work of a unit; each workplace holds one unit at a time",
    ]);
  });

  it("lose no moment, on any line", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 4 }),
        fc.integer({ min: 0, max: 100 }),
        fc.constantFrom("buffer: 1", "pacing: indexing"),
        (holds, seed, flow) => {
          const also = `${flow}\nhandling: 3 s\nvariation: {shape: lognormal, cv: 60 %}`;
          const [run] = runsOf(holding(holds, `${loaded}, b: {time: 25, after: a}, c: 10`, also), {
            seed,
            hours: 10,
          });
          const { times } = run!.stations[0]!;
          expect(Object.values(times).reduce((sum, each) => sum + each, 0)).toBe(holds * 10 * 3.6e9);
          expect(run!.unitTime).toBe(run!.passThrough + run!.unfinished);
          // Never more than one person can do: 58 s of work for each unit, on average.
          expect(run!.left).toBeLessThan((36_000 / 58) * 1.2);
        },
      ),
      { numRuns: 15, seed: 3 },
    );
  });
});
