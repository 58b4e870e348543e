import { describe, expect, it } from "vitest";
import { leastLimit } from "../../src/solve/search/least-limit.js";
import { readClassicLines, readLeastCycles, toProblem } from "../tools/read-classic-lines.js";
import { citation, readWorkedExamples } from "../tools/read-worked-examples.js";
import { faultsOf } from "./plain-stations.js";

/** Partial plans a search may look at: enough to prove most cases, few enough to run every day. */
const NODES = 40_000;

/** Of the lines whose search takes longest, every so many cases. */
const LARGE = new Map([
  ["arcus-83", 5],
  ["arcus-111", 6],
  ["bartholdi-2", 3],
  ["scholl", 6],
]);

/** Lines with a case that stays open within NODES; of the others every case is proved. */
const HARD = new Set([...LARGE.keys(), "tonge", "warnecke", "wee-magazine", "mukherjee"]);

/** Where nothing is proved, the plan is so close to the best one known. */
const CLOSE = 1.03;

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 120_000;

const lines = readClassicLines();
const cases = readLeastCycles();

/** Source: A. Scholl, Data of Assembly Line Balancing Problems, TH Darmstadt, 1993; intervals as in shared/README.md. */
describe.each([...new Set(cases.map(({ line }) => line))])("the classic line %s", (name) => {
  const rows = cases.filter(({ line }) => line === name).filter((_, at) => at % (LARGE.get(name) ?? 1) === 0);

  it.each(rows)(
    "with $stations stations has its least cycle from $lower to $upper",
    async ({ stations, lower, upper }) => {
      const { times, before } = toProblem(lines.get(name)!, 1);
      const answer = await leastLimit(times, before, stations, { nodes: NODES }, () => null);
      expect(answer.stations.length).toBeLessThanOrEqual(stations);
      expect(faultsOf({ times, before, limit: answer.limit }, answer.stations)).toEqual([]);
      expect(answer.limit).toBeGreaterThanOrEqual(lower);
      expect(answer.limit).toBeLessThanOrEqual(answer.ended === "proved" ? upper : upper * CLOSE);
      expect(answer.bound).toBeLessThanOrEqual(upper);
      if (!HARD.has(name)) expect(answer.ended).toBe("proved");
    },
    LONGEST_TEST,
  );
});

const { balancing } = readWorkedExamples();

describe.each(balancing)("$title", ({ unit, source, tasks, expected }) => {
  const ids = tasks.map(({ id }) => id);
  const scale = unit === "min" ? 60_000_000 : 1_000_000;
  const times = tasks.map(({ time }) => Math.round(time * scale));
  const before = tasks.map(({ after }) => after.map((id) => ids.indexOf(id)));
  const known: (readonly [string, number])[] = [
    [String(expected["least-stations"].value), expected["least-limit"].value],
    ...Object.entries(expected["least-limit-by-stations"]?.of ?? {}),
  ];

  it.each(known)(
    `with %s stations has a least cycle of %s ${unit} (${citation(source)})`,
    async (count, limit) => {
      const answer = await leastLimit(times, before, Number(count), { nodes: NODES }, () => null);
      expect([answer.limit, answer.ended]).toEqual([Math.round(limit * scale), "proved"]);
      expect(faultsOf({ times, before, limit: answer.limit }, answer.stations)).toEqual([]);
    },
  );
});
