import { expect } from "vitest";
import { findPace } from "../../src/commands/find-pace.js";
import { readPlan } from "../../src/plan/file/read-plan.js";
import { crewOf } from "../../src/plan/plan.js";
import { verifyPlan } from "../../src/plan/verify-plan.js";
import { lineOf } from "./line-of.js";
import { runLinepoise } from "./run-linepoise.js";

/** The texts of a line file and of a plan that was drawn before it. */
export interface Planted {
  readonly line: string;
  readonly plan: string;
}

/**
 * Runs `balance` on a line that has a planted plan, and expects a plan that the verifier passes, with no more people on the line than the
 * planted one. The verifier passes that one, too.
 *
 * @param options further words of the command line, such as a limit of partial plans
 */
export async function expectPlantedOrBetter(planted: Planted, options: readonly string[]): Promise<void> {
  const line = lineOf(planted.line);
  const found = findPace(line, {});
  if (!found.ok) throw new Error(found.fault.message);
  const peopleOf = (text: string): number => {
    const { plan, findings } = readPlan("plan.yaml", text, line);
    if (plan === null) throw new Error(findings.map(({ message }) => message).join("; "));
    expect(verifyPlan(line, found.pace, plan, false)).toEqual([]);
    return plan.stations.reduce((sum, station) => sum + station.places * crewOf(line, station), 0);
  };
  const most = peopleOf(planted.plan);
  const run = await runLinepoise({
    args: ["balance", "line.yaml", ...options, "--write", "plan.yaml", "--json"],
    files: { "line.yaml": planted.line },
  });
  expect(run.status, `${run.stderr}${(JSON.parse(run.stdout) as { outcome: string }).outcome}`).toBe(0);
  expect(peopleOf(run.files["plan.yaml"]!), "people on the line").toBeLessThanOrEqual(most);
}
