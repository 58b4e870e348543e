import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { movesBetween } from "../../../src/answer/rebalance/match-stations.js";
import { type RebalanceAnswer, rebalanceLine } from "../../../src/answer/rebalance/rebalance-line.js";
import { peopleOf } from "../../../src/plan/figures/people.js";
import type { Plan } from "../../../src/plan/plan.js";
import { stationIds } from "../../../src/plan/station-numbers.js";
import { type FloorCase, floorCases } from "../../tools/floor-random-line.js";
import { costOf, EveryFloorPlan, isBelow } from "../floor/every-floor-plan.js";

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 240_000;

/** A line with today's plan: tasks at random positions that keep the arrows, whether or not they keep the other rules. */
interface RebalanceCase {
  readonly given: FloorCase;
  readonly today: Plan;
  readonly positions: number;
}

function planAt({ line }: FloorCase, positionOf: readonly number[]): Plan {
  const used = [...new Set(positionOf)].sort((one, two) => one - two);
  const ids = stationIds(line, used);
  return {
    stations: used.map((position, at) => {
      const tasks = [...line.tasks.keys()].filter((task) => positionOf[task] === position);
      const crew = Math.max(...tasks.map((task) => line.tasks[task]!.people));
      return { id: ids[at]!, tasks, sides: null, places: 1, crew };
    }),
  };
}

const rebalanceCases = (most: number, isSided: boolean): fc.Arbitrary<RebalanceCase> =>
  fc
    .tuple(
      floorCases({ fewest: 2, most, isSided }),
      fc.array(fc.nat(3), { minLength: most, maxLength: most }),
    )
    .map(([given, drawn]) => {
      const at: number[] = [];
      for (const [task, before] of given.line.before.entries())
        at[task] = Math.max(drawn[task]!, 0, ...before.map((each) => at[each]!));
      return { given, today: planAt(given, at), positions: new EveryFloorPlan(given).positions };
    });

/** By people the fewest moves of any plan with no more of them, and the fewest people and stations, over all plans. */
function everyTradeOff({ given, today, positions }: RebalanceCase) {
  const every = new EveryFloorPlan(given);
  const least = new Map<number, number>();
  let best: ReturnType<typeof costOf> | null = null;
  const positionOf: number[] = [];
  const go = (task: number) => {
    if (task < given.line.tasks.length) {
      const first = Math.max(0, ...given.line.before[task]!.map((each) => positionOf[each]!));
      for (let at = first; at < positions; at++) {
        positionOf[task] = at;
        go(task + 1);
      }
      positionOf.length = task;
      return;
    }
    for (const staffed of every.staff(positionOf)) {
      const cost = costOf(staffed);
      if (best === null || isBelow(cost, best)) best = cost;
      const moves = movesBetween(given.line, today, planAt(given, positionOf)).length;
      least.set(cost.people, Math.min(least.get(cost.people) ?? Number.POSITIVE_INFINITY, moves));
    }
  };
  go(0);
  const front: [people: number, moves: number][] = [];
  for (const [people, moves] of [...least].sort(([one], [two]) => one - two))
    if (front.length === 0 || moves < front.at(-1)![1]) front.push([people, moves]);
  return { best: best as ReturnType<typeof costOf> | null, front };
}

function rebalance({ given, today }: RebalanceCase, maxMoves: number | null): Promise<RebalanceAnswer> {
  const { line, pace, strictLimit } = given;
  const options = { nodes: 1_000_000, strictLimit, maxMoves, keep: [], checkpoint: () => null };
  return rebalanceLine(line, pace, null, today, options);
}

describe("moves against people on lines with rules of the floor", { timeout: LONGEST_TEST }, () => {
  it.each([
    ["of up to four tasks", 200, 4, false],
    ["worked from two sides", 100, 3, true],
  ])("are those of the best of all plans on lines %s", async (_, numRuns, most, isSided) => {
    const sizes = new Set<number>();
    await fc.assert(
      fc.asyncProperty(rebalanceCases(most, isSided), async (each) => {
        const { best, front } = everyTradeOff(each);
        const { tradeOffs, balance } = await rebalance(each, null);
        expect(tradeOffs.length > 0).toBe(best !== null);
        if (best === null) return;
        const [first] = tradeOffs;
        expect([first!.people, first!.stations]).toEqual([best.people, best.stations]);
        expect([balance.outcome, peopleOf(balance.plan!)]).toEqual(["proved", best.people]);
        const ofPeople = tradeOffs.filter(({ people }, at) => people !== tradeOffs[at + 1]?.people);
        expect(ofPeople.map(({ people, cost }) => [people, cost])).toEqual(front);
        for (const [at, row] of tradeOffs.entries()) {
          const next = tradeOffs[at + 1];
          expect(row.outcome).toBe("proved");
          expect(next === undefined || (isBelow(row, next) && row.cost > next.cost)).toBe(true);
        }
        sizes.add(front.length);
      }),
      { seed: 71, numRuns },
    );
    expect(sizes.size).toBeGreaterThan(1);
  });

  it("give the fewest people that the moves allowed leave, and prove that no fewer are possible", async () => {
    let withMore = 0;
    await fc.assert(
      fc.asyncProperty(rebalanceCases(4, false), fc.nat(2), async (each, maxMoves) => {
        const { best, front } = everyTradeOff(each);
        const { chosen, allowed, balance } = await rebalance(each, maxMoves);
        const fewest = front.find(([, moves]) => moves <= maxMoves);
        expect(chosen?.people).toBe(fewest?.[0]);
        if (chosen === null) return;
        expect(chosen.cost).toBeLessThanOrEqual(maxMoves);
        expect(balance.outcome).toBe("proved");
        if (chosen.people === best!.people) return;
        expect(allowed!.isRuledOut).toBe(true);
        // The dearest that is claimed of fewer people is what the best plan with fewer really takes.
        expect(allowed!.leastCostOfFewer).toBe(front.filter(([people]) => people < chosen.people).at(-1)![1]);
        withMore++;
      }),
      { seed: 72, numRuns: 200 },
    );
    expect(withMore).toBeGreaterThan(10);
  });
});
