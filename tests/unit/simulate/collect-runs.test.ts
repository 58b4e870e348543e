import { expect, it } from "vitest";
import { collectRuns, type RunsBeside, replicationsOf } from "../../../src/simulate/run-again-and-again.js";
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

/** Threads that answer late, so that parts end out of order. */
const threads = (atATime: number, most = Number.POSITIVE_INFINITY): RunsBeside => ({
  atATime,
  async runs(each, from, to) {
    for (let turn = 0; turn < (from % 3) * 5; turn++) await Promise.resolve();
    return [...replicationsOf(each, from, Math.min(to, from + most))];
  },
});

it("Replications that several threads share are those of one, in order of their numbers", async () => {
  const alone = await collectRuns(asked, null, async () => true);
  expect(alone).toHaveLength(21);
  expect(alone).toEqual([...replicationsOf(asked)]);
  for (const atATime of [2, 3])
    expect(await collectRuns(asked, threads(atATime), async () => true)).toEqual(alone);
});

it("What is there when the work is ended is kept", async () => {
  expect(await collectRuns(asked, null, async () => false)).toEqual([...replicationsOf(asked, 0, 1)]);
  const some = await collectRuns(asked, threads(2, 1), async () => false);
  expect(some.length).toBeGreaterThanOrEqual(2);
  expect(some.length).toBeLessThan(21);
});
