import { expect, it } from "vitest";
import { type BalancingOptions, balance } from "../../src/solve/balance.js";
import { paceOf, shortLine } from "../tools/line-of.js";
import { readClassicLines, readOptima } from "../tools/read-classic-lines.js";

/** A classic line (Scholl 1993) with its published least stations at a cycle. */
const [name, cycle] = ["roszieg", 16];
const { times, precedence } = readClassicLines().get(name)!;
const line = shortLine(
  times.map((time, task) => {
    const before = precedence.filter(([, to]) => to === task + 1).map(([from]) => `t${from}`);
    return [`t${task + 1} ${time}`, ...before].join(" ");
  }),
);
const { stations: least } = readOptima().find((each) => each.line === name && each.limit === cycle)!;

async function stationsOf(options: Partial<BalancingOptions>) {
  const found = await balance(line, paceOf(cycle), {
    method: "best",
    nodes: 20,
    level: false,
    strictLimit: false,
    explain: false,
    checkpoint: () => null,
    ...options,
  });
  return { plan: found.plan!, stations: found.plan!.stations.length, outcome: found.outcome };
}

it(`${name} at ${cycle} keeps the ${least} stations of a plan to start from, in too few partial plans to find them`, async () => {
  const { plan, stations } = await stationsOf({ nodes: 100_000 });
  expect(stations).toBe(least);
  expect((await stationsOf({})).stations).toBeGreaterThan(least);
  expect(await stationsOf({ from: plan })).toMatchObject({ stations: least, outcome: "proved" });
});
