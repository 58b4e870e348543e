import { describe, expect, it } from "vitest";
import { type Plan, planOf } from "../../../src/plan/plan.js";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import { paceFromDemand } from "../../../src/time/pace.js";
import { planFrom } from "../../tools/floor-line.js";
import { lineOf, paceOf, shortLine } from "../../tools/line-of.js";

const faults = (plan: Plan, strict = false, pace = paceOf(60)) =>
  verifyPlan(shortLine(["a 30", "b 20 a", "c 40 b"]), pace, plan, strict).map(
    ({ rule, message }) => `${rule}: ${message}`,
  );

describe("the verifier", () => {
  it("passes a plan in which every task stands once, in order and within the limit", () => {
    expect(faults(planOf([[0, 1], [2]]))).toEqual([]);
  });

  it("names a missing task and a task at two stations", () => {
    expect(faults(planOf([[0, 1], [0]]))).toEqual([
      "task-once: task a is at S1 and S2",
      "task-once: task c is at no station",
    ]);
  });

  it("names a task number that the line does not have", () => {
    expect(
      faults(
        planOf([
          [0, 1],
          [2, 7],
        ]),
      ),
    ).toEqual(["task-once: task number 7 is not on this line"]);
  });

  it("names a task done before one that it needs, at an earlier station and within one", () => {
    expect(faults(planOf([[1], [0], [2]]))).toEqual([
      "precedence: a is in S2 but b, which needs it, is in S1",
    ]);
    expect(faults(planOf([[1, 0], [2]]))).toEqual(["precedence: S1 lists b before a, which b needs"]);
  });

  it("names a station over the working time", () => {
    expect(faults(planOf([[0], [1, 2]]), false, paceOf(59))).toEqual([
      "load: S2 holds 60 s, more than the working time of 59 s",
    ]);
  });

  it("takes a station that is full to the microsecond and refuses one microsecond more", () => {
    expect(faults(planOf([[0], [1, 2]]), false, paceOf(60))).toEqual([]);
    expect(faults(planOf([[0], [1, 2]]), false, paceOf(59.999999))).toEqual([
      "load: S2 holds 60 s, more than the working time of 59.999999 s",
    ]);
  });

  it("lets one task stand alone between the station limit and the working time unless that is strict", () => {
    const line = lineOf(
      "line: x\nunit: s\ndemand: 60 per hour\nplan-to: 50 %\ntasks: {a: 40, b: 10, gate: 0}\n",
    );
    const pace = paceFromDemand({ ...line, demand: line.demand! });
    if (!pace.ok) throw new Error(pace.problem);
    const rules = (stations: number[][], strict: boolean) =>
      verifyPlan(line, pace.value, planOf(stations), strict).map(({ message }) => message);
    expect(rules([[0, 2], [1]], false)).toEqual([]);
    expect(rules([[0, 2], [1]], true)).toEqual(["S1 holds 40 s, more than the station limit of 30 s"]);
    expect(rules([[0, 1], [2]], false)).toEqual(["S1 holds 50 s, more than the station limit of 30 s"]);
  });

  it("takes handling off once from all places of a station", () => {
    const line = lineOf(
      "line: x\nunit: s\ndemand: 60 per hour\nhandling: 4 s\ntasks: {a: 116, b: 56, c: 1}\n",
    );
    const pace = paceFromDemand({ ...line, demand: line.demand! });
    if (!pace.ok) throw new Error(pace.problem);
    const doubled = (...rows: string[]) =>
      verifyPlan({ ...line, maxPlaces: 2 }, pace.value, planFrom(line, rows), false).map(
        ({ message }) => message,
      );
    expect(doubled("S1 x2: a", "S2: b", "S3: c")).toEqual([]);
    expect(doubled("S1 x2: a c", "S2: b")).toEqual(["S1 holds 117 s, more than the working time of 116 s"]);
    expect(doubled("S1 x2: a", "S2: b c")).toEqual(["S2 holds 57 s, more than the working time of 56 s"]);
  });
});
