import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cycleOfPlan, cycleOfPost, slowestPost } from "../../../src/plan/figures/cycle.js";
import {
  balanceDelay,
  efficiencyAtPace,
  efficiencyAtSlowest,
  paidAt,
} from "../../../src/plan/figures/efficiency.js";
import { idlePerUnit } from "../../../src/plan/figures/idle.js";
import { outputPerShift } from "../../../src/plan/figures/output.js";
import { smoothness } from "../../../src/plan/figures/smoothness.js";
import { workContent } from "../../../src/plan/figures/work-content.js";
import { isOverloaded, overload, stationTime, workingTime } from "../../../src/plan/figures/working-time.js";
import type { Post } from "../../../src/plan/post.js";
import {
  add,
  compare,
  divide,
  larger,
  multiply,
  ONE,
  type Ratio,
  ratio,
  subtract,
  ZERO,
} from "../../../src/time/ratio.js";
import { lineOf } from "../../tools/line-of.js";

const SEED = 20_261;
const RUNS = { seed: SEED, numRuns: 400 };

const anyShare = fc
  .tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 9 }))
  .map(([one, two]) => ratio(Math.min(one, two), Math.max(one, two)));

/** Posts at which somebody works, none of whose people works longer than its busiest person. */
const anyPost: fc.Arbitrary<Post> = fc
  .record({
    places: fc.integer({ min: 1, max: 4 }),
    crew: fc.integer({ min: 1, max: 3 }),
    busy: fc.integer({ min: 1, max: 90 }),
    worked: anyShare,
    handling: fc.integer({ min: 0, max: 9 }),
    planTo: anyShare,
    hours: fc.tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 4 })),
    share: anyShare,
    kind: fc.constantFrom("station" as const, "bench" as const, "tables" as const),
    stands: fc.integer({ min: 0, max: 200 }),
    holds: fc.integer({ min: 1, max: 3 }),
    rig: fc.option(
      fc.record({ held: fc.integer({ min: 1, max: 99 }), units: fc.integer({ min: 1, max: 3 }) }),
    ),
  })
  .map(({ busy, worked, handling, hours, stands, rig, ...rest }) => ({
    ...rest,
    id: "",
    tasks: [],
    busy: ratio(busy),
    personTime: multiply(ratio(rest.crew * busy), worked),
    handling: ratio(handling),
    dwell: ratio(busy + stands),
    equipment: rig === null ? [] : [{ name: "rig", held: ratio(rig.held), units: rig.units }],
    hours: ratio(hours[0], hours[1]),
    shifts: null,
  }));

const anyPosts = fc.array(anyPost, { minLength: 1, maxLength: 6 });
const anyCycle = fc
  .tuple(fc.integer({ min: 1, max: 400 }), fc.integer({ min: 1, max: 3 }))
  .map(([num, den]) => ratio(num, den));

/** Each with a line cycle that none of the posts exceeds. */
const anyKept = fc
  .tuple(anyPosts, fc.integer({ min: 0, max: 50 }))
  .map(([posts, spare]) => ({ posts, lineCycle: add(cycleOfPlan(posts), ratio(spare)) }));

const sumOf = (values: readonly Ratio[]): Ratio => values.reduce(add, ZERO);

describe("Figures over any posts", () => {
  it("have an efficiency at the pace of at most 1, or none where a post is overloaded", () => {
    fc.assert(
      fc.property(anyPosts, anyCycle, (posts, lineCycle) => {
        const efficiency = efficiencyAtPace(posts, lineCycle);
        expect(efficiency === null).toBe(isOverloaded(posts, lineCycle));
        if (efficiency !== null) expect(compare(efficiency, ONE)).toBeLessThanOrEqual(0);
      }),
      RUNS,
    );
  });

  it("have a delay of 1 - efficiency, and idle per unit is the delay at the pace x what is paid where nothing is overloaded", () => {
    fc.assert(
      fc.property(anyKept, ({ posts, lineCycle }) => {
        const efficiency = efficiencyAtPace(posts, lineCycle);
        const delay = balanceDelay(efficiency)!;
        expect(add(delay, efficiency!)).toEqual(ONE);
        const paid = sumOf(posts.map((post) => paidAt(post, lineCycle)));
        expect(idlePerUnit(posts, lineCycle)).toEqual(multiply(delay, paid));
        expect(idlePerUnit(posts, lineCycle)).toEqual(subtract(paid, workContent(posts)));
      }),
      RUNS,
    );
    expect(balanceDelay(null)).toBeNull();
  });

  it("have the largest cycle over posts as cycle of the plan, and are overloaded exactly where it exceeds the line cycle", () => {
    fc.assert(
      fc.property(anyPosts, anyCycle, (posts, lineCycle) => {
        const cycle = cycleOfPlan(posts);
        expect(posts.map(cycleOfPost).every((each) => compare(each, cycle) <= 0)).toBe(true);
        expect(cycleOfPost(slowestPost(posts))).toEqual(cycle);
        expect(isOverloaded(posts, lineCycle)).toBe(compare(cycle, lineCycle) > 0);
        for (const post of posts) {
          // By hand and standing what does not fit the working time, on equipment what does not fit the line cycle.
          const [rig] = post.equipment;
          const places = multiply(ratio(post.places), post.hours);
          const byHand = subtract(stationTime(post), workingTime(post, lineCycle));
          const held =
            rig === undefined
              ? ZERO
              : divide(multiply(rig.held, post.share), multiply(ratio(rig.units), post.hours));
          const onRig = multiply(places, subtract(held, lineCycle));
          const standing = divide(multiply(post.dwell, post.share), ratio(post.holds));
          const byDwell = subtract(standing, workingTime(post, lineCycle));
          expect(overload(post, lineCycle)).toEqual([byHand, byDwell, onRig].reduce(larger, ZERO));
        }
      }),
      RUNS,
    );
  });

  it("are most efficient at the cycle of the plan, the fastest that all of them keep", () => {
    fc.assert(
      fc.property(anyKept, ({ posts, lineCycle }) => {
        const atSlowest = efficiencyAtSlowest(posts)!;
        expect(compare(atSlowest, ONE)).toBeLessThanOrEqual(0);
        expect(compare(atSlowest, efficiencyAtPace(posts, lineCycle)!)).toBeGreaterThanOrEqual(0);
      }),
      RUNS,
    );
  });

  it("are the same in any order, and smooth to 0 exactly where all posts have one cycle", () => {
    fc.assert(
      fc.property(anyPosts, anyCycle, (posts, lineCycle) => {
        const turned = posts.toReversed();
        expect(efficiencyAtPace(turned, lineCycle)).toEqual(efficiencyAtPace(posts, lineCycle));
        expect(idlePerUnit(turned, lineCycle)).toEqual(idlePerUnit(posts, lineCycle));
        const cycle = cycleOfPlan(posts);
        const isAlike = posts.every((post) => compare(cycleOfPost(post), cycle) === 0);
        // The root is taken of whole units, so a gap of less than one may vanish in it.
        if (isAlike) expect(smoothness(posts, cycle)).toBe(0);
        const widest = posts.map((post) => subtract(cycle, cycleOfPost(post))).reduce(larger, ZERO);
        if (compare(widest, ONE) >= 0) expect(smoothness(posts, cycle)).toBeGreaterThanOrEqual(1);
      }),
      RUNS,
    );
  });

  it("make as many whole units in a shift as fit it at their cycle, and not one more", () => {
    const line = lineOf(
      "unit: s\ncalendar: {shifts: {day: {length: 1 min}}}\nuptime: 90 %\nyield: 95 %\ntasks: {a: 1}\n",
    );
    const running = multiply(ratio(60_000_000), multiply(line.uptime, line.yield));
    fc.assert(
      fc.property(anyPosts, (posts) => {
        const cycle = multiply(cycleOfPlan(posts), ratio(10_000));
        const units = outputPerShift(line, cycle)!;
        expect(compare(multiply(ratio(units), cycle), running)).toBeLessThanOrEqual(0);
        expect(compare(multiply(ratio(units + 1), cycle), running)).toBeGreaterThan(0);
      }),
      RUNS,
    );
  });
});
