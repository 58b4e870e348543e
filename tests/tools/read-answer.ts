import { expect } from "vitest";
import { runLinepoise } from "./run-linepoise.js";

/** The answer of `balance --json`, as the documentation fixes it; seconds, and shares from 0 to 1. */
export interface BalanceAnswer {
  readonly format: string;
  readonly command: string;
  readonly line: string;
  readonly outcome: "proved" | "found" | "infeasible" | "stopped" | "refused";
  readonly pace: {
    readonly taktSeconds: number | null;
    readonly lineCycleSeconds: number;
    readonly handlingSeconds: number | null;
    readonly planTo: number | null;
    readonly stationLimitSeconds: number;
  };
  readonly stations: readonly AnswerStation[];
  readonly bound: {
    readonly stations: number | null;
    readonly cycleSeconds: number | null;
    readonly kind: string;
    readonly reason: string;
  };
  readonly measures: AnswerMeasures;
  readonly methods: readonly { readonly method: string; readonly stations: number | null }[];
  readonly offLine: readonly AnswerOffLine[];
  readonly search: {
    readonly nodes: number;
    readonly nodeLimit: number | null;
    readonly secondsLimit: number | null;
  };
  readonly findings: readonly AnswerFinding[];
}

export interface AnswerStation {
  readonly id: string;
  readonly tasks: readonly string[];
  readonly seconds: number;
  readonly limitSeconds: number;
  readonly idleSeconds: number;
  readonly overloadSeconds: number;
  readonly places: number;
  readonly crew: number;
  readonly operators: number;
}

export interface AnswerMeasures {
  readonly stations: number;
  readonly operators: number;
  readonly workContentSeconds: number;
  readonly cycleOfPlanSeconds: number;
  readonly slowestStation: string;
  readonly efficiencyAtPace: number | null;
  readonly efficiencyAtSlowest: number;
  readonly balanceDelayAtPace: number | null;
  readonly balanceDelayAtSlowest: number;
  readonly smoothnessSeconds: number;
  readonly idleSecondsPerUnit: number;
  readonly idleSecondsPerShift: number | null;
  readonly outputPerShift: number | null;
}

export interface AnswerOffLine {
  readonly kind: string;
  readonly tasks: readonly string[];
  readonly joinsAt: string | null;
  readonly stationsBefore: number;
  readonly stationsAfter: number | null;
  readonly peopleBefore: number;
  readonly peopleAfter: number | null;
  readonly outcome: string;
  readonly reason: string;
}

export interface AnswerFinding {
  readonly rule: string;
  readonly severity: "error" | "warning" | "note";
  readonly message: string;
  readonly file: string | null;
  readonly line: number | null;
  readonly column: number | null;
  readonly station: string | null;
  readonly task: string | null;
}

/** Runs `balance line.yaml --json` with further options on a line file's text and reads the answer. */
export async function readAnswer(
  line: string,
  options: readonly string[],
  status = 0,
): Promise<BalanceAnswer> {
  const run = await runLinepoise({
    args: ["balance", "line.yaml", ...options, "--json"],
    files: { "line.yaml": line },
  });
  expect(run.status, `${run.stderr}${run.stdout}`).toBe(status);
  return JSON.parse(run.stdout) as BalanceAnswer;
}
