import { describe, expect, it } from "vitest";
import { findKnown } from "../../../../src/plan/check/check-result.js";
import { type PlanFinding, planFinding } from "../../../../src/plan/check/plan-finding.js";
import { ratio } from "../../../../src/time/ratio.js";

/** "slower-than-pace S1 - 5": rule, station, task and amount; a dash for none. */
function found(row: string, more: Partial<PlanFinding> = {}): PlanFinding {
  const [rule = "", station = "-", task = "-", amount = "-"] = row.split(" ");
  return planFinding({
    rule,
    severity: "error",
    message: row,
    station: station === "-" ? null : station,
    task: task === "-" ? null : task,
    amount: amount === "-" ? null : ratio(Number(amount)),
    ...more,
  });
}

const known = (now: string[], before: string[]) =>
  findKnown(
    now.map((row) => found(row)),
    before.map((row) => found(row)),
  );

describe("A finding is known", () => {
  it("where the same rule found the same station and task before", () => {
    expect(known(["zone S1 a", "zone S1 b", "apart S1 a"], ["zone S1 a", "zone S2 b"])).toEqual([
      true,
      false,
      false,
    ]);
  });

  it("only where it is no larger than before", () => {
    expect(known(["load S1 - 5"], ["load S1 - 5"])).toEqual([true]);
    expect(known(["load S1 - 4"], ["load S1 - 5"])).toEqual([true]);
    expect(known(["load S1 - 6"], ["load S1 - 5"])).toEqual([false]);
  });

  it("only once for each finding of before, the worst first", () => {
    expect(known(["precedence S1 a", "precedence S1 a"], ["precedence S1 a"])).toEqual([true, false]);
    expect(known(["load S1 - 3", "load S1 - 5"], ["load S1 - 5", "load S1 - 3"])).toEqual([true, true]);
    expect(known(["load S1 - 3", "load S1 - 5"], ["load S1 - 4", "load S1 - 4"])).toEqual([true, false]);
  });

  it("not where it was only a warning before, and whatever the words are", () => {
    const [now, before] = [found("load S1"), found("load S1", { severity: "warning" })];
    expect(findKnown([now], [before])).toEqual([false]);
    expect(findKnown([now], [found("load S1", { message: "in other words", station: " S1" })])).toEqual([
      true,
    ]);
  });
});
