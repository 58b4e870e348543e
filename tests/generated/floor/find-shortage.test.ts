import fc from "fast-check";
import { expect, it } from "vitest";
import { findShortage } from "../../../src/solve/explain/find-shortage.js";
import { layOutWork } from "../../../src/solve/lay-out-work.js";
import { compare } from "../../../src/time/ratio.js";
import { type FloorCase, floorCases } from "../../tools/floor-random-line.js";
import { EveryFloorPlan } from "./every-floor-plan.js";

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 120_000;

const shortageOf = ({ line, pace, strictLimit }: FloorCase) =>
  findShortage(line, layOutWork(line, { pace, strictLimit, slowest: null, free: false }));

interface Found {
  readonly kinds: ReadonlySet<string>;
  /** How often work before or behind tasks, not a rule, held them. */
  readonly squeezed: number;
}

/** Looks at all plans wherever work is said not to fit. */
function checkAll(cases: fc.Arbitrary<FloorCase>, numRuns: number): Found {
  const kinds = new Set<string>();
  let squeezed = 0;
  fc.assert(
    fc.property(cases, (given) => {
      const shortage = shortageOf(given);
      if (shortage === null) return;
      kinds.add(shortage.kind);
      if (shortage.squeezed.length > 0) squeezed++;
      if (shortage.single === null) expect(compare(shortage.work, shortage.capacity)).toBeGreaterThan(0);
      else expect(shortage.tasks.length).toBeGreaterThan(shortage.stations.length);
      kinds.add(shortage.single === null ? "sum" : "single");
      expect([shortage, new EveryFloorPlan(given).cheapest()]).toEqual([shortage, null]);
    }),
    { seed: 141, numRuns },
  );
  return { kinds, squeezed };
}

/** Every task may stand at a few stations of the floor only. */
const crowdedFloors = fc
  .tuple(
    floorCases({ fewest: 4, most: 5, hasOnePlace: true }),
    fc.array(fc.record({ from: fc.integer({ min: 0, max: 2 }), more: fc.integer({ min: 0, max: 3 }) }), {
      minLength: 5,
      maxLength: 5,
    }),
  )
  .filter(([{ line }]) => line.floor.length > 2)
  .map(([given, windows]): FloorCase => {
    const most = given.line.floor.length - 1;
    const tasks = given.line.tasks.map((task, at) => {
      const { from, more } = windows[at]!;
      const notAfter = Math.min(most, from + more);
      return { ...task, stations: null, notBefore: Math.min(from, notAfter), notAfter };
    });
    return { ...given, line: { ...given.line, tasks } };
  });

it.each([
  ["on floors", 1200, floorCases({ fewest: 2, most: 5 }), ["due", "equipment", "machine", "stations", "sum"]],
  [
    "without a floor",
    300,
    floorCases({ fewest: 2, most: 5, isWithoutFloor: true }),
    ["equipment", "machine", "sum"],
  ],
  ["from two sides", 500, floorCases({ fewest: 2, most: 4, isSided: true }), ["due", "machine", "sum"]],
])(
  "where work does not fit what it is held to, none of all plans keeps the rules, %s",
  {
    timeout: LONGEST_TEST,
  },
  (_, numRuns, cases, kinds) => {
    expect([...checkAll(cases, numRuns).kinds]).toEqual(expect.arrayContaining(kinds));
  },
);

it("where tasks crowd each other along a floor, none of all plans keeps the rules", {
  timeout: LONGEST_TEST,
}, () => {
  const { kinds, squeezed } = checkAll(crowdedFloors, 700);
  expect([...kinds]).toEqual(expect.arrayContaining(["between", "due", "from", "single", "stations", "sum"]));
  expect(squeezed).toBeGreaterThan(2);
});
