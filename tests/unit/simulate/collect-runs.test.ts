import { expect, it } from "vitest";
import { collectRuns, type RunsBeside, replicationsOf } from "../../../src/simulate/run-again-and-again.js";
import type { Run } from "../../../src/simulate/watched-line.js";
import { lineOf } from "./simulated.js";

const asked = {
  ...lineOf([30, 40], "variation: {shape: lognormal, cv: 50 %}"),
  models: [0],
  lineCycle: null,
  seed: 5,
  replications: 21,
  hours: 3.6e9,
  warmUp: 0,
};

/** Those that are done. */
const allOf = (runs: Iterable<Run | null>): Run[] => [...runs].filter((run) => run !== null);

/** Threads that answer late, so that parts end out of order. */
const threads = (atATime: number, most = Number.POSITIVE_INFINITY): RunsBeside => ({
  atATime,
  async runs(each, from, to) {
    for (let turn = 0; turn < (from % 3) * 5; turn++) await Promise.resolve();
    return allOf(replicationsOf(each, from, Math.min(to, from + most)));
  },
});

it("Replications that several threads share are those of one, in order of their numbers", async () => {
  const alone = await collectRuns(asked, null, async () => true);
  expect(alone).toHaveLength(21);
  expect(alone).toEqual(allOf(replicationsOf(asked)));
  for (const atATime of [2, 3])
    expect(await collectRuns(asked, threads(atATime), async () => true)).toEqual(alone);
});

it("What is there when the work is ended is kept", async () => {
  expect(await collectRuns(asked, null, async () => false)).toEqual(allOf(replicationsOf(asked, 0, 1)));
  const some = await collectRuns(asked, threads(2, 1), async () => false);
  expect(some.length).toBeGreaterThanOrEqual(2);
  expect(some.length).toBeLessThan(21);
});

it("A long replication is ended in its midst, and none of it is kept", async () => {
  const long = { ...asked, hours: 1e13, replications: 2 };
  const told: number[] = [];
  const goesOn = async (replication: number) => told.push(replication) < 2;
  expect(await collectRuns(long, null, goesOn)).toEqual([]);
  expect(told).toEqual([1, 1]);
});
