import fc from "fast-check";
import highsModule, { type Highs } from "highs";
import { expect, it } from "vitest";
import { balance } from "../../src/solve/balance.js";
import { type FloorCase, floorCases } from "../tools/floor-random-line.js";
import { type ScheduleTerms, scheduleCases } from "../tools/schedule-cases.js";
import { floorProgramme, PERSON } from "./floor-programme.js";
import { isTold } from "./floor-programme-of-schedules.js";

/** The package is typed as CommonJS but loads as a module whose default export is the loader itself. */
const loadHighs = highsModule as unknown as () => Promise<Highs>;
const highs = await loadHighs();
/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 240_000;

const OPTIONS = { method: "best", nodes: 200_000, level: false, explain: false, checkpoint: () => null };

/** People and stations of both; null where no plan exists. */
async function solveBoth(given: FloorCase) {
  const { line, pace, strictLimit } = given;
  const { plan, outcome } = await balance(line, pace, { ...OPTIONS, strictLimit });
  expect(["proved", "infeasible"]).toContain(outcome);
  const people = plan?.stations.reduce((sum, { places, crew }) => sum + places * crew, 0);
  const ours = plan === null ? null : PERSON * people! + plan.stations.length;
  // A plan with fewer people has no more stations than those, and gaps of waits between them.
  const gaps = line.waits.reduce((sum, each) => sum + each.stations - 1, 0);
  const behind = Math.min(people ?? line.tasks.length, line.tasks.length) + gaps;
  const { Status, ObjectiveValue } = highs.solve(floorProgramme(given, behind), { random_seed: 1 });
  expect(["Optimal", "Infeasible"]).toContain(Status);
  return { ours, theirs: Status === "Optimal" ? Math.round(ObjectiveValue) : null };
}

/** Both find as many on each line, of which many have a plan and some have none. */
async function agreeOn(cases: fc.Arbitrary<FloorCase>, count: number, seed: number): Promise<void> {
  let [withPlan, withoutPlan] = [0, 0];
  const told = cases.filter(({ line }) => isTold(line));
  for (const given of fc.sample(told, { seed, numRuns: count })) {
    const { ours, theirs } = await solveBoth(given);
    expect(ours).toBe(theirs);
    if (theirs === null) withoutPlan++;
    else withPlan++;
  }
  expect(withPlan).toBeGreaterThan(count / 3);
  expect(withoutPlan).toBeGreaterThan(0);
}

it.each([
  ["with stations filled to the working time", 40, 17, { fewest: 6, most: 9, isFull: true }],
  ["where a task alone may exceed the limit", 25, 23, { fewest: 6, most: 9 }],
  [
    "of up to twelve tasks with one place a station",
    20,
    18,
    { fewest: 10, most: 12, ruledTasks: 5, hasOnePlace: true },
  ],
  ["worked from two sides", 30, 17, { fewest: 3, most: 7, isSided: true }],
  ["where units are handled at each pass", 30, 29, { fewest: 5, most: 8, isHandledAgain: true }],
])(
  "an integer programme, solved by another solver, needs as many people and stations on lines with rules %s",
  (_, count, seed, terms) => agreeOn(floorCases(terms), count, seed),
  LONGEST_TEST,
);

it.each<[string, number, number, ScheduleTerms]>([
  ["of people who work together", 85, 19, { fewest: 4, most: 7, isFull: true }],
  ["of crews that share a unit", 60, 20, { fewest: 3, most: 5, isShared: true }],
  ["worked from two sides", 60, 21, { fewest: 3, most: 5, isSided: true }],
])(
  "an integer programme with start times needs as many people and stations where stations are schedules %s",
  (_, count, seed, terms) => agreeOn(scheduleCases(terms), count, seed),
  LONGEST_TEST,
);
