import { describe, expect, it } from "vitest";
import { exactRate } from "../unit/simulate/markov-chain.js";
import { lineOf, simulated } from "../unit/simulate/simulated.js";

/*
 * Serial lines with exponential times, a unit a minute at each station; the first is never starved, the last never blocked, blocking after
 * service. Two stations: (B + 2) / (B + 3). Lines without buffers: G. C. Hunt, Sequential arrays of waiting lines, Operations Research 4
 * (1956); F. S. Hillier, R. W. Boling, Operations Research 15 (1967), both from memory, and with the Markov chain solved again here. The
 * others were computed with such a chain.
 */
const BALANCED = [
  { stations: 2, buffer: 0, rate: 2 / 3 },
  { stations: 2, buffer: 1, rate: 0.75 },
  { stations: 2, buffer: 4, rate: 0.857143 },
  { stations: 3, buffer: 0, rate: 22 / 39 },
  { stations: 3, buffer: 1, rate: 8529 / 12721 },
  { stations: 3, buffer: 2, rate: 0.734017 },
  { stations: 4, buffer: 0, rate: 4024 / 7817 },
  { stations: 5, buffer: 1, rate: 0.607583 },
];

const LENGTH = { hours: 100, warmUp: 4, replications: 20 };

describe.each(BALANCED)(
  "$stations exponential stations with buffers of $buffer",
  ({ stations, buffer, rate }) => {
    const times = Array.from({ length: stations }, () => 60);

    it("have that rate as a Markov chain", () => {
      expect(
        exactRate(
          times.map(() => 1),
          times.slice(1).map(() => buffer),
        ),
      ).toBeCloseTo(rate, 5);
    });

    it("have it within the interval of a simulation, at 99.9 %", async () => {
      const line = lineOf(times, `variation: {shape: exponential}\nbuffer: ${buffer}`);
      const { mean, halfWidth } = await simulated(line, LENGTH);
      // t of 19 degrees of freedom: 3.883 for 99.9 % against 2.093 for 95 %.
      expect(Math.abs(mean - 60 * rate)).toBeLessThan((halfWidth! * 3.883) / 2.093);
      expect(halfWidth!).toBeLessThan(0.5);
    });
  },
);

/** Times in minutes; all computed with a Markov chain. The first is the bowl (Hillier and Boling 1966, from memory), its times rounded. */
const UNEVEN = [
  { times: [1.0855, 0.8289, 1.0855], buffers: [0, 0], rate: 0.567182 },
  { times: [1, 0.8], buffers: [2], rate: 0.878153 },
  { times: [1, 1.25, 1], buffers: [1, 1], rate: 0.606277 },
  { times: [1, 1, 1], buffers: [2, 0], rate: 0.637363 },
  { times: [1, 1, 1], buffers: [0, 2], rate: 0.637363 },
];

it.each(UNEVEN)(
  "Stations of $times with buffers of $buffers make $rate",
  async ({ times, buffers, rate }) => {
    expect(
      exactRate(
        times.map((time) => 1 / time),
        buffers,
      ),
    ).toBeCloseTo(rate, 4);
    const sizes = buffers.map((size, at) => `after S${at + 1}: ${size}`).join(", ");
    const line = lineOf(
      times.map((time) => Number((60 * time).toFixed(3))),
      `variation: {shape: exponential}\nbuffers: {${sizes}}`,
    );
    const { mean, halfWidth } = await simulated(line, LENGTH);
    expect(Math.abs(mean - 60 * rate)).toBeLessThan((halfWidth! * 3.883) / 2.093);
  },
);

/*
 * Stations that move together make one unit in the longest of their times: mean x (1 + 1/2 + ... + 1/N) for exponential ones, and mean +
 * deviation x the expected largest of N standard normal numbers for normal ones (D. Teichroew, Annals of Mathematical Statistics 27, 1956).
 * Two stations without a buffer do the same.
 */
const TOGETHER = [
  { stations: 2, variation: "{shape: exponential}", pacing: "indexing", rate: 0.666667 },
  { stations: 4, variation: "{shape: exponential}", pacing: "indexing", rate: 0.48 },
  { stations: 5, variation: "{shape: normal, cv: 10 %}", pacing: "indexing", rate: 0.895819 },
  { stations: 10, variation: "{shape: normal, cv: 20 %}", pacing: "indexing", rate: 0.764672 },
  { stations: 2, variation: "{shape: normal, cv: 10 %}", pacing: "unpaced", rate: 0.946594 },
  { stations: 2, variation: "{shape: normal, cv: 20 %}", pacing: "unpaced", rate: 0.898603 },
];

it.each(TOGETHER)(
  "$stations stations, $pacing, $variation make $rate",
  async ({ stations, variation, pacing, rate }) => {
    const line = lineOf(
      Array.from({ length: stations }, () => 60),
      `variation: ${variation}\npacing: ${pacing}`,
    );
    const { mean, halfWidth } = await simulated(line, LENGTH);
    expect(Math.abs(mean - 60 * rate)).toBeLessThan((halfWidth! * 3.883) / 2.093);
  },
);

it("95 % intervals cover the exact value in about 95 of 100 seeds", async () => {
  const line = lineOf([60, 60], "variation: {shape: exponential}");
  let covered = 0;
  for (let seed = 1; seed <= 100; seed++) {
    const { mean, halfWidth } = await simulated(line, { seed, hours: 40, warmUp: 2, replications: 10 });
    if (Math.abs(mean - 40) <= halfWidth!) covered++;
  }
  // Of 1,000 such hundreds, binomial ones of 95 %, one is below 87 and six are 100.
  expect(covered).toBeGreaterThanOrEqual(87);
  expect(covered).toBeLessThan(100);
});

/*
 * Two machines with a time of 1 min that fail while they work and are repaired, with room for N units between them: the rates of the
 * chain in discrete time with chances of 0.01 and 0.1 a cycle, computed; the model is that of S. B. Gershwin (1994), from memory. Times of
 * working and of repair are exponential here, which makes less than half a percent.
 */
it.each([
  [10, 0.856175],
  [20, 0.870541],
  [100, 0.896937],
])("Two machines that fail, with room for %d units, make %d of a unit a cycle", async (room, rate) => {
  const failing = "{every: 100 min, lasts: 10 min}";
  const line = lineOf([60, 60], `buffer: ${room}\nbreakdowns: {S1: ${failing}, S2: ${failing}}`);
  const { mean, halfWidth } = await simulated(line, { hours: 1500, warmUp: 50, replications: 10 });
  expect(Math.abs(mean - 60 * rate)).toBeLessThan(2 * halfWidth! + 0.005 * 60 * rate);
});
