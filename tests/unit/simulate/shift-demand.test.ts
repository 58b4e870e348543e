import { describe, expect, it } from "vitest";
import { readLine } from "../../../src/line/read-line.js";
import { planOf } from "../../../src/plan/plan.js";
import { replicationsOf } from "../../../src/simulate/run-again-and-again.js";
import { shiftDemandOf, shiftOfRun, wilsonInterval } from "../../../src/simulate/shift-demand.js";
import { normalShare } from "../../../src/time/normal-share.js";
import { ratio, toNumber } from "../../../src/time/ratio.js";

describe("The interval of a share by Wilson (1927)", () => {
  // R. G. Newcombe, Statistics in Medicine 17 (1998), table I, method 3, from memory: 81 of 263, 15 of 148, 0 of 20, 1 of 29.
  it.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])("of %d of %d is %d to %d", (seen, count, low, high) => {
    const [from, to] = wilsonInterval(seen, count, ratio(95, 100)).map((each) => toNumber(each));
    expect(from).toBeCloseTo(low, 4);
    expect(to).toBeCloseTo(high, 4);
  });
});

/** A line of one station with a demand per day of two shifts of 8 h less half an hour. */
function ofDemand(perDay: number, also = "", shifts = "{early: {length: 8 h}, late: {length: 8 h}}") {
  const { line, findings } = readLine(
    "line.yaml",
    `unit: s\ndemand: ${perDay} per day\ncalendar: {shifts: ${shifts}}\n${also}\ntasks: {work: 57.6}\n`,
  );
  if (line === null) throw new Error(JSON.stringify(findings));
  const plan = planOf([[0]]);
  // Two shifts of 8 h are 57,600 s.
  const shift = shiftOfRun(line, ratio(57_600_000_000n, BigInt(perDay)))!;
  const asked = { line, plan, models: [0], lineCycle: null, seed: 1, shift: shift.length };
  const met = (replications: number, hours: number) => {
    const all = replicationsOf({ ...asked, replications, hours: hours * 3.6e9, warmUp: 3.6e9 });
    return shiftDemandOf(
      [...all].filter((run) => run !== null),
      shift,
      ratio(95, 100),
      line.tasks[0]!.variation !== null,
    );
  };
  return { shift, met };
}

describe("Of the shifts that are simulated", () => {
  it("every one makes a demand that fits it exactly, and none one unit more", () => {
    // 28,800 s / 57.6 s = 500 units a shift.
    expect(ofDemand(1000).shift).toMatchObject({ each: "shift", needed: 500, wanted: ratio(500) });
    expect(ofDemand(1000).met(1, 81)).toMatchObject({ count: 10, met: 10, share: ratio(1), interval: null });
    expect(ofDemand(1002).met(1, 81)).toMatchObject({ count: 10, met: 0, share: ratio(0), interval: null });
  });

  it("a line that never stops makes the demand with the chance of a sum of normal times, within the interval", () => {
    const { met } = ofDemand(998, "variation: {shape: normal, cv: 15 %}");
    const found = met(60, 80)!;
    // Of a shift of 500 mean times: what is left of a unit, (1 + cv^2) / 2 of a time on average, and 498 more (D. R. Cox, Renewal Theory, 1962, from memory).
    const score = (500 - 498 - (1 + 0.15 ** 2) / 2) / Math.sqrt(498 * 0.15 ** 2 + 1 / 12);
    const chance = toNumber(normalShare(ratio(Math.round(1000 * score), 1000)));
    const [low, high] = found.interval!.map((each) => toNumber(each)) as [number, number];
    expect(found.count).toBe(600);
    expect(chance).toBeGreaterThan(low);
    expect(chance).toBeLessThan(high);
  });

  it("days are counted where shifts differ, and nothing where none was watched whole", () => {
    const { shift, met } = ofDemand(1000, "", "{early: {length: 8 h}, late: {length: 6 h}}");
    expect(shift).toMatchObject({ each: "day", length: 14 * 3.6e9 });
    expect(met(1, 13)).toBeNull();
  });
});
