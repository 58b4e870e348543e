import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { partedWeightings } from "../../../src/solve/bounds/parted-weightings.js";
import { stationsAfterEach } from "../../../src/solve/bounds/tails.js";
import type { StationProblem } from "../../../src/solve/problem.js";
import { Beam } from "../../../src/solve/search/beam.js";
import { hasTask } from "../../../src/solve/search/bit-sets.js";
import { layOutEnd } from "../../../src/solve/search/instance.js";
import { plainWork } from "../../../src/solve/work.js";
import { smallLines } from "./small-lines.js";

interface PartedLine extends StationProblem {
  /** Tasks that may not share a station. */
  readonly apart: readonly (readonly [number, number])[];
}

const lines: fc.Arbitrary<PartedLine> = smallLines(7).chain((problem) => {
  const task = fc.nat(problem.times.length - 1);
  const pairs = fc.array(fc.tuple(task, task), { maxLength: 8 });
  return pairs.map((all) => ({ ...problem, apart: all.filter(([one, two]) => one !== two) }));
});

const share = fc.constantFrom(0, 0.1, 1);
const worths = fc.option(fc.record({ parted: share, followed: share, long: share }));

function layOut({ apart, ...problem }: PartedLine, fromBack = false) {
  const partners = problem.times.map((_, task) =>
    apart.flatMap(([one, two]) => (one === task ? [two] : two === task ? [one] : [])),
  );
  return layOutEnd({ ...plainWork(problem), apart: partners.map((each) => [...new Set(each)]) }, fromBack);
}

/** Every load that a station may have in some plan, and the fewest stations, trying every load after every set of tasks. */
function everyLoad({ times, limit, before, apart }: PartedLine) {
  const every = 2 ** times.length - 1;
  const sum = (set: number) => times.reduce((all, each, task) => all + ((set >> task) & 1) * each, 0);
  const fits = (load: number) =>
    sum(load) <= limit && apart.every(([one, two]) => ((load >> one) & (load >> two) & 1) === 0);
  const isClosed = (set: number) =>
    before.every((tasks, task) => ((set >> task) & 1) === 0 || tasks.every((each) => (set >> each) & 1));
  const fewest = new Map([[0, 0]]);
  const loads: number[] = [];
  for (let set = 0; set <= every; set++) {
    const own = fewest.get(set);
    if (own === undefined) continue;
    const rest = every & ~set;
    for (let load = rest; load > 0; load = (load - 1) & rest) {
      if (!fits(load) || !isClosed(set | load)) continue;
      loads.push(load);
      fewest.set(set | load, Math.min(fewest.get(set | load) ?? Number.POSITIVE_INFINITY, own + 1));
    }
  }
  return { loads, fewest: fewest.get(every)! };
}

/** The line of some of its tasks alone. */
function lineOf({ times, limit, before, apart }: PartedLine, tasks: readonly number[]): PartedLine {
  const within = (list: readonly number[]) => list.map((task) => tasks.indexOf(task)).filter((at) => at >= 0);
  return {
    limit,
    times: tasks.map((task) => times[task]!),
    before: tasks.map((task) => within(before[task]!)),
    apart: apart.flatMap((pair) => {
      const [one, two] = within(pair);
      return one === undefined || two === undefined ? [] : [[one, two] as const];
    }),
  };
}

describe("tasks that no plan has at one station", () => {
  it("are never both in a load of any plan, and ask for no more stations than brute force, from either end", () => {
    const seen = { parted: 0, notByHand: 0 };
    fc.assert(
      fc.property(lines, fc.boolean(), (line, fromBack) => {
        const instance = layOut(line, fromBack);
        const { parted, original, words } = instance;
        if (parted === null) return;
        const { loads, fewest } = everyLoad(line);
        for (let one = 0; one < instance.size; one++) {
          for (let two = 0; two < instance.size; two++) {
            if (!hasTask(parted, one * words, two)) continue;
            const both = (1 << original[one]!) | (1 << original[two]!);
            expect(loads.some((load) => (load & both) === both)).toBe(false);
            seen.parted++;
            const isAsked = instance.rules!.partedFrom[one]!.includes(two);
            const isLong = instance.times[one]! + instance.times[two]! > instance.limit;
            if (!isAsked && !isLong) seen.notByHand++;
          }
        }
        for (const { total } of partedWeightings(instance, parted)) expect(total).toBeLessThanOrEqual(fewest);
      }),
      { seed: 7, numRuns: 300 },
    );
    expect(seen.parted).toBeGreaterThan(500);
    expect(seen.notByHand).toBeGreaterThan(20);
  });

  it("ask for no more stations after a task than its followers need", () => {
    fc.assert(
      fc.property(lines, (line) => {
        const instance = layOut(line);
        const { size, words, followers, original } = instance;
        for (const [task, stations] of stationsAfterEach(instance).entries()) {
          const tail = [...Array(size).keys()].filter(
            (other) => other === task || hasTask(followers, task * words, other),
          );
          const { fewest } = everyLoad(
            lineOf(
              line,
              tail.map((each) => original[each]!),
            ),
          );
          expect(stations).toBeLessThan(fewest);
        }
      }),
      { seed: 8, numRuns: 200 },
    );
  });

  it("are at different stations in the plan of a beam wide enough for all, which has as few stations as brute force", () => {
    fc.assert(
      fc.property(lines, fc.boolean(), worths, (line, fromBack, worth) => {
        const instance = layOut(line, fromBack);
        const { loads, fewest } = everyLoad(line);
        const send = (count: number) => {
          const beam = new Beam(instance, count, 1000, Number.POSITIVE_INFINITY, worth);
          for (const _ of beam.stretches());
          return beam.plan();
        };
        const plan = send(fewest)!;
        expect(plan).toHaveLength(fewest);
        const sets = plan.map((tasks) => tasks.reduce((set, task) => set | (1 << task), 0));
        expect(sets.filter((set) => !loads.includes(set))).toEqual([]);
        if (fewest > 1) expect(send(fewest - 1)).toBeNull();
      }),
      { seed: 9, numRuns: 100 },
    );
  });
});
