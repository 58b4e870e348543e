import { benchesOfPlan, lineBeside } from "../../benches/bench-of-plan.js";
import type { Finding } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import { type CheckedPlan, checkPlan } from "../../plan/check/check-plan.js";
import type { CheckedFile } from "../../plan/check/check-result.js";
import { checkSupply } from "../../plan/check/check-supply.js";
import { eachTaskOnce } from "../../plan/check/each-task-once.js";
import { type PlanFinding, planFinding } from "../../plan/check/plan-finding.js";
import type { PlanReading } from "../../plan/file/read-plan.js";
import { fingerprintOf } from "../../plan/fingerprint.js";
import type { Plan } from "../../plan/plan.js";
import type { Watch } from "../../solve/watch-times.js";
import type { Pace } from "../../time/pace.js";
import { type LeastStations, leastStations } from "./least-stations.js";

/** A line at its pace, for plans to be checked against. */
export interface LineToCheck {
  /** As its file has it, for the fingerprint. */
  readonly asRead: Line;
  /** At the pace that is asked for. */
  readonly line: Line;
  readonly pace: Pace;
  /** What reading the file found. */
  readonly findings: readonly Finding[];
}

/** A plan that was read and is one. */
export type ReadPlan = PlanReading & { readonly plan: Plan };

export interface CheckOptions {
  /** Partial plans that the search for the least stations may look at, where the policy asks for it. */
  readonly nodes: number;
  readonly checkpoint: Watch;
}

/** Checks plans against one line; what does not depend on the plan is worked out once. */
export class PlanChecker {
  readonly #fingerprints: readonly string[];
  readonly #least = new Map<string, Promise<LeastStations | null>>();

  constructor(
    private readonly against: LineToCheck,
    private readonly options: CheckOptions,
  ) {
    // A given cycle sets what is planned to at single stations aside, which the fingerprint holds.
    this.#fingerprints = [...new Set([fingerprintOf(against.asRead), fingerprintOf(against.line)])];
  }

  /** What is wrong with the line itself, whatever the plan: the findings of its file, and supplies below the demand. */
  get lineFindings(): PlanFinding[] {
    const { line, pace, findings } = this.against;
    return [...findings.map(planFinding), ...checkSupply(line, pace.takt)];
  }

  /** @param lineFile the line file as seen from the plan file; null where one of them is no file */
  async check(
    reading: ReadPlan,
    lineFile: string | null,
  ): Promise<Omit<CheckedFile, "findings" | "isWrong"> & { readonly checked: CheckedPlan }> {
    const { pace } = this.against;
    const { file } = reading;
    const plan = eachTaskOnce(this.against.line, reading.plan);
    const line = lineBeside(this.against.line, plan);
    const benches = benchesOfPlan(this.against.line, pace, plan);
    const least = line.policy.maxAboveLeast === null ? null : await this.#leastOf(line, plan);
    const fingerprints = this.#fingerprints;
    const checked = checkPlan({ line, pace, plan, reading, benches, least, fingerprints, lineFile });
    return { file, line, plan, benches, checked };
  }

  #leastOf(line: Line, plan: Plan): Promise<LeastStations | null> {
    const taken = (plan.benches ?? []).map(({ tasks }) => [...tasks].sort((one, two) => one - two));
    const key = JSON.stringify(taken);
    const known = this.#least.get(key) ?? leastStations(line, this.against.pace, plan, this.options);
    this.#least.set(key, known);
    return known;
  }
}
