import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Plan, Station } from "../../../src/plan/plan.js";
import { stationIds } from "../../../src/plan/station-numbers.js";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import { type FloorCase, floorCases } from "../../tools/floor-random-line.js";
import { costOf, EveryFloorPlan, isBelow, type Staffed } from "./every-floor-plan.js";

const ALL_POSITIONS = fc.array(fc.nat(99), { minLength: 5, maxLength: 5 });

/** Positions for the tasks: mostly along the arrows, so that other rules decide. */
function positionsFor(given: FloorCase, drawn: readonly number[], isOrdered: boolean): number[] {
  const { positions } = new EveryFloorPlan(given);
  const all = given.line.tasks.map((_, task) => drawn[task]! % positions);
  return isOrdered ? all.sort((one, two) => one - two) : all;
}

/** The plan with these positions that costs least, or any other where none keeps the rules. */
function planWith(given: FloorCase, positionOf: readonly number[]): { plan: Plan; isSound: boolean } {
  const every = new EveryFloorPlan(given);
  const sound = every.staff(positionOf).sort((one, two) => (isBelow(costOf(one), costOf(two)) ? -1 : 1))[0];
  const used = [...new Set(positionOf)].sort((one, two) => one - two);
  const staffed = sound ?? used.map((position) => staffAnyhow(given, every, position, positionOf));
  const ids = stationIds(
    given.line,
    staffed.map(({ position }) => position),
  );
  const stations = staffed.map(
    ({ tasks, places, crew }, at): Station => ({
      id: ids[at]!,
      tasks,
      places,
      crew,
      sides: null,
      persons: null,
    }),
  );
  return { plan: { stations }, isSound: sound !== undefined };
}

/** The fewest places that the station may have by itself, else the most that there are. */
function staffAnyhow(
  { line }: FloorCase,
  every: EveryFloorPlan,
  position: number,
  positionOf: readonly number[],
): Pick<Staffed, "position" | "tasks" | "places" | "crew"> {
  const tasks = [...line.tasks.keys()].filter((task) => positionOf[task] === position);
  const [choice] = every.choices(position, tasks);
  const places = choice?.places ?? line.floor[position]?.maxPlaces ?? line.maxPlaces;
  return { position, tasks, places, crew: Math.max(...tasks.map((task) => line.tasks[task]!.people)) };
}

/** The plan with each station in the order of work in which the fewest rules are broken: while a machine runs, hands do what comes later. */
function inBestOrder({ line, pace, strictLimit }: FloorCase, plan: Plan): Plan {
  const faultsOf = (stations: readonly Station[]) => verifyPlan(line, pace, { stations }, strictLimit).length;
  return plan.stations.reduce<Plan>(({ stations }, station, at) => {
    const ways = ordersOf(station.tasks).map((tasks) => stations.with(at, { ...station, tasks }));
    return { stations: ways.reduce((one, two) => (faultsOf(two) < faultsOf(one) ? two : one)) };
  }, plan);
}

const ordersOf = (tasks: readonly number[]): number[][] =>
  tasks.length === 0
    ? [[]]
    : tasks.flatMap((task) => ordersOf(tasks.filter((each) => each !== task)).map((rest) => [task, ...rest]));

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 120_000;

describe("the verifier and the plain meaning of the rules", { timeout: LONGEST_TEST }, () => {
  it.each([
    ["", 1500, {}],
    [" where units are handled at each pass", 800, { isHandledAgain: true }],
  ])("take and refuse the same assignments of tasks to stations%s", (_, numRuns, terms) => {
    const seen = { sound: 0, refused: 0 };
    fc.assert(
      fc.property(
        floorCases({ fewest: 1, most: 5, ...terms }),
        ALL_POSITIONS,
        fc.integer({ min: 0, max: 9 }),
        (given, drawn, order) => {
          const { plan, isSound } = planWith(given, positionsFor(given, drawn, order > 0));
          const asDrawn = verifyPlan(given.line, given.pace, plan, given.strictLimit);
          const isTried = isSound && asDrawn.length > 0;
          const best = isTried ? inBestOrder(given, plan) : plan;
          const faults = isTried ? verifyPlan(given.line, given.pace, best, given.strictLimit) : asDrawn;
          expect([faults.length === 0, faults]).toEqual([isSound, faults]);
          seen[isSound ? "sound" : "refused"]++;
        },
      ),
      { seed: 71, numRuns },
    );
    expect(Math.min(seen.sound, seen.refused)).toBeGreaterThan(numRuns / 10);
  });
});
