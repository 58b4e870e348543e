import fc from "fast-check";
import { moveCost } from "../../src/answer/rebalance/match-stations.js";
import type { Plan } from "../../src/plan/plan.js";
import { stationIds, stationNumbers } from "../../src/plan/station-numbers.js";
import { costOf, EveryFloorPlan } from "../generated/floor/every-floor-plan.js";
import { type FloorCase, floorCases } from "./floor-random-line.js";

/** A line with today's plan: tasks at random positions that keep the arrows, whether or not they keep the other rules. */
export interface RebalanceCase {
  readonly given: FloorCase;
  readonly today: Plan;
}

/** What a plan of the line has, and what it takes to come to it. */
export interface Change {
  readonly people: number;
  readonly stations: number;
  readonly moves: number;
  readonly points: number;
}

export function planAt({ line }: FloorCase, positionOf: readonly number[]): Plan {
  const used = [...new Set(positionOf)].sort((one, two) => one - two);
  const ids = stationIds(line, used);
  return {
    stations: used.map((position, at) => {
      const tasks = [...line.tasks.keys()].filter((task) => positionOf[task] === position);
      const crew = Math.max(...tasks.map((task) => line.tasks[task]!.people));
      return { id: ids[at]!, tasks, sides: null, persons: null, places: 1, crew };
    }),
  };
}

/** Small lines; of some the moves of tasks cost several points. */
export const rebalanceCases = (
  most: number,
  { isSided = false, hasPoints = false }: { readonly isSided?: boolean; readonly hasPoints?: boolean },
): fc.Arbitrary<RebalanceCase> =>
  fc
    .tuple(
      floorCases({ fewest: 2, most, isSided }),
      fc.array(fc.nat(3), { minLength: most, maxLength: most }),
      fc.array(fc.constantFrom(1, 1, 2, 5), { minLength: most, maxLength: most }),
    )
    .map(([drawn, positions, costs]) => {
      const tasks = drawn.line.tasks.map((task, at) => ({
        ...task,
        moveCost: hasPoints ? costs[at]! : null,
      }));
      const given = { ...drawn, line: { ...drawn.line, tasks } };
      const at: number[] = [];
      for (const [task, before] of given.line.before.entries())
        at[task] = Math.max(positions[task]!, 0, ...before.map((each) => at[each]!));
      return { given, today: planAt(given, at) };
    });

/**
 * Every plan with every way to say which station of today each of its stations is: by their ids on a floor, else any that keeps the
 * order of flow. Written from the meaning of a move; for up to 5 tasks.
 */
export function everyChange({ given, today }: RebalanceCase): Change[] {
  const { line } = given;
  const every = new EveryFloorPlan(given);
  const costs = line.tasks.map((task) => moveCost(line, task));
  const known = today.stations.flatMap(({ tasks }) => tasks);
  const found = new Map<string, Change>();
  const tell = (size: ReturnType<typeof costOf>, staying: ReadonlySet<number>) => {
    const moved = known.filter((task) => !staying.has(task));
    const points = moved.reduce((sum, task) => sum + costs[task]!, 0);
    const change = { people: size.people, stations: size.stations, moves: moved.length, points };
    found.set(Object.values(change).join(), change);
  };
  const match = (
    plan: Plan,
    row: number,
    column: number,
    staying: readonly number[],
    size: ReturnType<typeof costOf>,
  ) => {
    tell(size, new Set(staying));
    for (let here = row; here < plan.stations.length; here++) {
      for (let there = column; there < today.stations.length; there++) {
        const same = plan.stations[here]!.tasks.filter((task) => today.stations[there]!.tasks.includes(task));
        if (same.length > 0) match(plan, here + 1, there + 1, [...staying, ...same], size);
      }
    }
  };
  // On a floor, a new station may stand behind the last one of today for every task.
  const behind =
    line.floor.length === 0 ? 0 : Math.max(...stationNumbers(line, today)) + 1 + line.tasks.length;
  const positions = Math.max(every.positions, behind);
  const positionOf: number[] = [];
  const go = (task: number) => {
    if (task < line.tasks.length) {
      const first = Math.max(0, ...line.before[task]!.map((each) => positionOf[each]!));
      for (let at = first; at < positions; at++) {
        positionOf[task] = at;
        go(task + 1);
      }
      positionOf.length = task;
      return;
    }
    const plan = planAt(given, positionOf);
    const sizes = new Map(
      every.staff(positionOf).map((each) => [JSON.stringify(costOf(each)), costOf(each)]),
    );
    for (const size of sizes.values()) {
      if (line.floor.length === 0) {
        match(plan, 0, 0, [], size);
        continue;
      }
      const stays = plan.stations.flatMap(({ id, tasks }) => {
        const same = today.stations.find((each) => each.id === id)?.tasks ?? [];
        return tasks.filter((task) => same.includes(task));
      });
      tell(size, new Set(stays));
    }
  };
  go(0);
  return [...found.values()];
}

/** The fewest people with which something holds, then the fewest points, then the fewest stations; undefined where it never does. */
export function bestOf(
  changes: readonly Change[],
  holds: (change: Change) => boolean,
): Pick<Change, "people" | "points" | "stations"> | undefined {
  return changes
    .filter(holds)
    .toSorted(
      (one, two) => one.people - two.people || one.points - two.points || one.stations - two.stations,
    )[0];
}
