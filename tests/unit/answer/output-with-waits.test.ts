import { describe, expect, it } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";

/*
 * By hand: work of 90 s and 10 s, a wait of 5 min and work of 100 s. The unit stands in two stations all the while: (100 + 300 + 100) s / 2 = 250 s a
 * unit, 115.2 in a shift of 8 h, where the stations alone would make 288.
 */
const LINE = `line: Glued
unit: s
demand: 30 per hour
calendar: {shifts: {day: {length: 8 h}}}
pacing: moving
tasks:
  glue: {time: 90}
  clamp: {time: 10, after: glue}
  press: {time: 100, after: [{task: glue, wait: 5 min}, clamp]}
options:
  later: {demand: 20 per hour}
`;
const PLAN = `format: linepoise-plan/1
stations:
  - {id: S1, tasks: [glue, clamp]}
  - {id: S2, tasks: [press]}
`;

const run = async (...args: readonly string[]) =>
  (await runLinepoise({ args: [...args], files: { "l.yaml": LINE, "p.yaml": PLAN } })).stdout;
const json = async (...args: readonly string[]) => JSON.parse(await run(...args, "--json"));

describe("Where a wait holds up a line that moves together, the output is what the line then makes", () => {
  it("of a balance and a plan that stands", async () => {
    for (const args of [
      ["balance", "l.yaml"],
      ["show", "l.yaml", "p.yaml"],
    ]) {
      const { measures } = await json(...args);
      expect(measures).toMatchObject({
        cycleOfPlanSeconds: 100,
        outputCycleSeconds: 250,
        outputPerShift: 115,
      });
      expect((await run(...args)).replace(/\s+/gu, " ")).toContain(
        "115 good units a shift possible, 240 wanted; waits hold the line to 250 s; slowest S1 (100 s)",
      );
    }
    const proof = (await run("show", "l.yaml", "p.yaml", "--proof")).replace(/\s+/gu, " ");
    expect(proof).toContain("250 s to which waits hold the line");
    expect(proof).toContain("output 115 good units a shift at what waits hold the line to");
  });

  it("of a number of stations", async () => {
    const { measures, rates } = await json("balance", "l.yaml", "--stations", "2");
    expect(measures).toMatchObject({ outputCycleSeconds: 250, outputPerShift: 115 });
    expect(rates).toContainEqual(
      expect.objectContaining({
        stations: 2,
        cycleOfPlanSeconds: 100,
        unitsPerHour: 14.4,
        outputPerShift: 115,
      }),
    );
  });

  it("of options, which then miss their demand", async () => {
    const { options } = await json("compare", "l.yaml");
    expect(options).toMatchObject([
      { figures: { outputPerShift: 115 }, shortfall: { wanted: 240, made: 115 } },
      { figures: { outputPerShift: 115 }, shortfall: { wanted: 160, made: 115 } },
    ]);
    expect(await run("compare", "l.yaml", "--cycle", "120 s")).toContain(
      "misses the line cycle of 120 s (waits hold it to 250 s)",
    );
  });

  it("of today's plan and of steps to another", async () => {
    const { asItIs, plan } = await json("rebalance", "l.yaml", "--from", "p.yaml");
    expect(plan.measures.outputPerShift).toBe(115);
    // 8 h x 250 s / 120 s.
    expect(asItIs).toMatchObject({
      outputPerShift: 115,
      outputCycleSeconds: 250,
      secondsNeededPerShift: 60_000,
    });
    const other = PLAN.replace("[glue, clamp]", "[glue]").replace("[press]", "[clamp, press]");
    const files = { "l.yaml": LINE, "p.yaml": other };
    const args = ["rebalance", "l.yaml", "--from", "p.yaml", "--json", "--demand", "36 per hour"];
    const { stdout } = await runLinepoise({ args, files });
    // 90 s, the wait, and 110 s: 500 s as well.
    expect(JSON.parse(stdout).change).toMatchObject({
      outputBefore: 115,
      outputDuring: 115,
      outputAfter: 115,
    });
  });

  it("of rows of staff, and of units while people learn", async () => {
    const { rows } = await json("staff", "l.yaml", "--demand", "160..240/40 per day");
    expect(rows.map((row: { outputPerShift: number }) => row.outputPerShift)).toEqual([115, 115, 115]);
    // Two shifts ask for a unit every 240 s and fall short, three for one every 360 s.
    const { alternatives: ways } = await json("staff", "l.yaml", "--demand", "160..240/40 per day");
    expect(ways[1]).toMatchObject({ shifts: 2, lineCycleSeconds: 240, outputCycleSeconds: 250 });
    expect(ways[2]).toMatchObject({ shifts: 3, lineCycleSeconds: 360, outputCycleSeconds: 250 });
    const shown = (await run("staff", "l.yaml", "--demand", "160..240/40 per day")).replace(/\s+/gu, " ");
    expect(shown).toContain("240 s 8 h, too slow: waits hold the line to 250 s 3 shifts");
    expect(shown).toContain("360 s 8 h crew");
    const { byUnit, batch, paceMet } = await json("ramp", "l.yaml", "p.yaml", "--units", "10");
    expect(byUnit[0]).toMatchObject({ cycleOfPlanSeconds: 100, outputCycleSeconds: 250 });
    expect([batch.lineSeconds, paceMet]).toEqual([2500, null]);
  });

  it("of a report", async () => {
    expect(await run("report", "l.yaml", "p.yaml")).toContain("115 good units a shift possible");
  });

  it("and of a station that is slower than the pace", async () => {
    const shown = await run("check", "l.yaml", "p.yaml", "--demand", "40 per hour");
    expect(shown).toContain("the line then makes 115 good units a shift instead of 320");
  });
});
