import { expect, it } from "vitest";
import { readLine } from "../../src/line/read-line.js";
import { balance } from "../../src/solve/balance.js";
import { paceFromCycle } from "../../src/time/pace.js";
import { type ClassicLine, readClassicLines } from "../tools/read-classic-lines.js";

/*
 * Least stations where a station must stay within the cycle with a given chance: mean + z x root of the summed variances, each deviation
 * being cv x task time, normal and independent times (the model of Kottas & Lau 1973 and Sphicas & Silverman 1976, from memory). The lines are
 * those of the literature (A. Scholl, 1993); their least stations were worked out by enumeration, null: some
 * task alone does not fit.
 */
const lines = readClassicLines();
const CHANCES = [90, 95, 99] as const;

const LEAST: readonly [string, number, Readonly<Record<string, readonly (number | null)[]>>][] = [
  ["jackson", 10, { "10": [6, 7, 7], "20": [7, 8, null], "30": [8, null, null] }],
  ["jackson", 13, { "10": [4, 5, 5], "20": [5, 5, 6], "30": [5, 6, 7] }],
  ["jackson", 21, { "10": [3, 3, 3], "20": [3, 3, 3], "30": [3, 3, 4] }],
  ["mertens", 10, { "10": [4, 5, 5], "20": [5, 5, 5], "30": [5, 5, null] }],
  ["mertens", 15, { "10": [3, 3, 3], "20": [3, 3, 3], "30": [3, 3, 4] }],
  ["bowman", 25, { "10": [4, 4, 5], "20": [5, 5, 5], "30": [5, null, null] }],
  ["mitchell", 21, { "10": [6, 6, 6], "20": [6, 7, 8], "30": [7, 8, null] }],
  ["mitchell", 35, { "10": [4, 4, 4], "20": [4, 4, 4], "30": [4, 4, 5] }],
  ["mansoor", 62, { "10": [4, 4, 4], "20": [4, 4, null] }],
  ["mansoor", 94, { "10": [3, 3, 3], "20": [3, 3, 3], "30": [3, 3, 3] }],
];

function fileOf({ times, precedence }: ClassicLine, chance: number, cv: string): string {
  const rows = times.map((time, at) => {
    const after = precedence.flatMap(([first, then]) => (then === at + 1 ? [first] : []));
    return `  ${at + 1}: {time: ${time}, after: [${after.join(", ")}]}`;
  });
  const spread = `variation: {shape: normal, cv: ${cv} %}`;
  return ["unit: s", `keep-pace: ${chance} %`, spread, "tasks:", ...rows, ""].join("\n");
}

const OPTIONS = {
  method: "best",
  strictLimit: false,
  level: false,
  explain: false,
  nodes: 100_000,
  checkpoint: () => null,
} as const;

it.each(LEAST)("%s at %d has its least stations at every chance and variation", async (name, cycle, byCv) => {
  for (const [cv, all] of Object.entries(byCv))
    for (const [at, least] of all.entries()) {
      const { line } = readLine("line.yaml", fileOf(lines.get(name)!, CHANCES[at]!, cv));
      const { outcome, plan } = await balance(line!, paceFromCycle(cycle * 1_000_000), OPTIONS);
      const wanted = [cv, CHANCES[at], least === null ? "infeasible" : "proved", least];
      expect([cv, CHANCES[at], outcome, plan?.stations.length ?? null]).toEqual(wanted);
    }
});
