import type { Line } from "../../../src/line/line.js";
import { readLine } from "../../../src/line/read-line.js";
import { type Plan, planOf } from "../../../src/plan/plan.js";
import { replicationsOf } from "../../../src/simulate/run-again-and-again.js";
import { simulateLine } from "../../../src/simulate/simulate-line.js";
import type { Run } from "../../../src/simulate/watched-line.js";
import { ratio, toNumber } from "../../../src/time/ratio.js";

const HOUR = 3_600_000_000;

/** A line with a task for each of these times in seconds, one after another, and what else its file says. */
export function lineOf(times: readonly number[], also = ""): { line: Line; plan: Plan } {
  const tasks = times.map((time, at) => `  T${at + 1}: {time: ${time}${at === 0 ? "" : `, after: T${at}`}}`);
  const { line, findings } = readLine("line.yaml", `unit: s\n${also}\ntasks:\n${tasks.join("\n")}\n`);
  if (line === null) throw new Error(JSON.stringify(findings));
  return { line, plan: planOf(times.map((_, at) => [at])) };
}

export interface Length {
  readonly seed?: number;
  readonly hours: number;
  readonly warmUp?: number;
  readonly replications?: number;
  readonly lineCycle?: number | null;
}

/** The replications of such a line by themselves. */
export function runsOf({ line, plan }: { line: Line; plan: Plan }, length: Length): Run[] {
  const all = replicationsOf({ line, plan, models: line.sequence ?? [0], ...inMicros(length) });
  return [...all].filter((run) => run !== null);
}

/** Nothing of its length is chosen. */
export const GIVEN = {
  chosen: { units: null, settled: null, isWarmUpGiven: true, areReplicationsGiven: true },
  within: null,
} as const;

const inMicros = ({ seed = 1, hours, warmUp = 0, replications = 1, lineCycle = null }: Length) => ({
  seed,
  replications,
  hours: hours * HOUR,
  warmUp: warmUp * HOUR,
  lineCycle: lineCycle && lineCycle * 1e6,
});

/** Units an hour with half the width of their interval, and the rest of the answer. */
export async function simulated(of: { line: Line; plan: Plan }, length: Length, confidence = ratio(95, 100)) {
  const answer = (await simulateLine(of.line, of.plan, {
    ...inMicros(length),
    ...GIVEN,
    confidence,
    goesOn: async () => true,
  }))!;
  const { mean, halfWidth } = answer.perHour;
  return { answer, mean: toNumber(mean), halfWidth: halfWidth === null ? null : toNumber(halfWidth) };
}
