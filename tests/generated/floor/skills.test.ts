import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import { whoStandsWhere } from "../../../src/plan/who-stands-where.js";
import { costOf, PEOPLE_FIRST } from "../../../src/solve/cost.js";
import { layOutWork } from "../../../src/solve/lay-out-work.js";
import { runSearchBelow } from "../../../src/solve/search/run-search.js";
import { toPlan } from "../../../src/solve/to-plan.js";
import { CYCLE, type FloorCase, paceWith } from "../../tools/floor-random-line.js";
import { type ScheduleTerms, scheduleCases } from "../../tools/schedule-cases.js";
import { type Cost, EveryFloorPlan } from "./every-floor-plan.js";

const ANY: Cost = { people: Number.MAX_SAFE_INTEGER, stations: Number.MAX_SAFE_INTEGER };
/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 240_000;

const skills = fc.subarray(["brakes", "wheels", "test"], { minLength: 1, maxLength: 2 });
const drawn = fc.record({
  people: fc.array(fc.subarray(["brakes", "wheels", "test"]), { minLength: 2, maxLength: 4 }),
  needs: fc.array(fc.oneof({ weight: 2, arbitrary: skills }, { weight: 1, arbitrary: fc.constant([]) }), {
    minLength: 6,
    maxLength: 6,
  }),
  /** A task that takes two people. */
  ofTwo: fc.integer({ min: 0, max: 3 }),
  /** The first tasks share a station, and there is time for that. */
  areKept: fc.boolean(),
  /** Stations are more than the sum of their times. */
  isScheduled: fc.boolean(),
});

/** Lines with a floor that says nothing of skills, and people who have some: no person has what a task needs on some of them. */
const skilledCases = (terms: ScheduleTerms): fc.Arbitrary<FloorCase> =>
  fc.tuple(scheduleCases(terms), drawn).map(([given, { people, needs, ofTwo, areKept, isScheduled }]) => ({
    ...given,
    ...(areKept && { pace: paceWith(3 * CYCLE) }),
    line: {
      ...given.line,
      ...(areKept && { together: [given.line.tasks.slice(0, 3).map((_, at) => at)], apart: [] }),
      floor: given.line.floor.map((station) => ({ ...station, skills: null })),
      people: people.map((own, at) => ({ id: `person ${at + 1}`, skills: own })),
      tasks: given.line.tasks.map((task, at) => ({
        ...task,
        skills: needs[at]!,
        people: at === ofTwo ? 2 : task.people,
        ...(isScheduled ? {} : { machineTime: 0, equipment: [] }),
      })),
    },
  }));

const problemOf = ({ line, pace, strictLimit }: FloorCase) =>
  layOutWork(line, { pace, strictLimit, slowest: null, free: false });

describe("people with skills", { timeout: LONGEST_TEST }, () => {
  it.each([
    ["who work together", 100, { fewest: 2, most: 4 }],
    [
      "who work together on lines of six tasks",
      12,
      { fewest: 6, most: 6, hasOnePlace: true, isWithoutFloor: true },
    ],
    ["who share a unit", 36, { fewest: 2, most: 3, isShared: true }],
    ["who work from two sides", 36, { fewest: 2, most: 4, isSided: true }],
  ])(
    "%s do each task by somebody who has its skills: no plan that can be staffed has fewer people or stations, and the verifier accepts it",
    async (_, numRuns, terms) => {
      const ways = { plan: 0, none: 0, several: 0 };
      await fc.assert(
        fc.asyncProperty(skilledCases(terms), async (given) => {
          const { line, pace, strictLimit } = given;
          const problem = problemOf(given);
          const limits = { nodes: 1_000_000, memory: 100_000 };
          const found = await runSearchBelow(problem, ANY, PEOPLE_FIRST, limits, () => null);
          expect(found.ended).toBe("proved");
          expect(found.plan && costOf(found.plan)).toEqual(new EveryFloorPlan(given).cheapest());
          ways[found.plan === null ? "none" : "plan"]++;
          if (found.plan === null) return;
          const plan = toPlan(line, problem, found.plan);
          expect(verifyPlan(line, pace, plan, strictLimit)).toEqual([]);
          const who = whoStandsWhere(line, plan.stations)!;
          if (plan.stations.some(({ id, places }) => (who.get(id)?.length ?? 0) > places)) ways.several++;
        }),
        { seed: 171, numRuns },
      );
      expect(Math.min(ways.plan, ways.none)).toBeGreaterThan(numRuns / 12);
      expect(ways.several).toBeGreaterThan(0);
    },
  );
});
