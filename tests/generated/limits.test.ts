import fc from "fast-check";
import { expect, it } from "vitest";
import { cheapestOfAllPlans } from "../tools/cheapest-of-all-plans.js";
import { runLinepoise } from "../tools/run-linepoise.js";

/*
 * Lines of up to five tasks with two limits, against every way to put their tasks at stations: the meaning of limits written down plainly,
 * in whole numbers. Demand is 120 a day in shifts of 8 h and 4 h, so the line cycle is 360 s and the longest shift makes 80 units.
 */
const CYCLE = 360;
const UNITS_IN_LONGEST_SHIFT = 80;
const NAMES = ["shelf", "lifted"] as const;
/** Milliseconds after which a test counts as hung. */
const LONGEST_TEST = 120_000;

interface Limit {
  readonly per: "station" | "person" | "station-and-shift" | "person-and-shift";
  /** In tenths of its unit. */
  readonly most: number;
}

interface Task {
  readonly seconds: number;
  readonly people: number;
  readonly every: number;
  /** In tenths of the unit of each limit. */
  readonly uses: readonly number[];
  readonly after: readonly number[];
}

interface Case {
  readonly tasks: readonly Task[];
  readonly limits: readonly Limit[];
  /** Limits of the first station of the floor in place of those of the line; null without a floor. */
  readonly own: readonly Limit[] | null;
  readonly maxPlaces: number;
}

const limit = fc.oneof(
  fc.record({
    per: fc.constantFrom("station" as const, "person" as const),
    most: fc.integer({ min: 5, max: 30 }),
  }),
  fc.record({
    per: fc.constantFrom("station-and-shift" as const, "person-and-shift" as const),
    most: fc.integer({ min: 400, max: 2400 }),
  }),
);
const limits = fc.tuple(limit, limit);

const cases: fc.Arbitrary<Case> = fc
  .record({
    tasks: fc.array(
      fc.record({
        seconds: fc.integer({ min: 0, max: 240 }),
        people: fc.constantFrom(1, 1, 1, 2),
        every: fc.constantFrom(1, 1, 1, 3),
        uses: fc.tuple(fc.integer({ min: 0, max: 15 }), fc.integer({ min: 0, max: 15 })),
        after: fc.array(fc.integer({ min: 1, max: 4 }), { maxLength: 2 }),
      }),
      { minLength: 1, maxLength: 5 },
    ),
    limits,
    own: fc.option(limits, { freq: 2 }),
    maxPlaces: fc.constantFrom(1, 1, 2),
  })
  .map(({ tasks, ...rest }) => ({
    ...rest,
    tasks: tasks.map((task, at) => ({
      ...task,
      after: [...new Set(task.after.map((back) => at - back).filter((each) => each >= 0))],
    })),
  }));

const limitText = (all: readonly Limit[]) =>
  `{${all.map(({ per, most }, at) => `${NAMES[at]}: {per: ${per}, most: ${(most / 10).toFixed(1)} m}`).join(", ")}}`;

function fileOf({ tasks, limits: all, own, maxPlaces }: Case): string {
  return [
    "unit: s",
    "demand: 120 per day",
    "calendar: {shifts: {early: {length: 8 h}, late: {length: 4 h}}}",
    `max-places: ${maxPlaces}`,
    `limits: ${limitText(all)}`,
    ...(own === null ? [] : [`stations: [{id: S1, limits: ${limitText(own)}}]`]),
    "tasks:",
    ...tasks.map(({ seconds, people, every, uses, after }, at) => {
      const used = uses.map((amount, each) => `${NAMES[each]}: ${(amount / 10).toFixed(1)} m`).join(", ");
      const names = after.map((each) => `t${each}`).join(", ");
      return `  t${at}: {time: ${seconds}, people: ${people}, every: ${every}, uses: {${used}}, after: [${names}]}`;
    }),
    "",
  ].join("\n");
}

/** Whether tasks can share a station with so many places; `most` in tenths, what is taken in 3 x tenths, as work may be done on every 3rd unit. */
function holds(tasks: readonly Task[], all: readonly Limit[], places: number): boolean {
  const load = tasks.reduce((sum, { seconds, every }) => sum + (3 * seconds) / every, 0);
  if (load > 3 * CYCLE * places) return false;
  const crew = Math.max(...tasks.map(({ people }) => people));
  return all.every(({ per, most }, at) => {
    const isShift = per.endsWith("shift");
    const taken = tasks.reduce(
      (sum, { uses, every }) => sum + 3 * uses[at]! * (isShift ? UNITS_IN_LONGEST_SHIFT / every : 1),
      0,
    );
    const shared = (isShift ? places : 1) * (per.startsWith("person") ? crew : 1);
    return taken <= 3 * most * shared;
  });
}

const cheapest = ({ tasks, limits: all, own, maxPlaces }: Case): readonly [number, number] | null =>
  cheapestOfAllPlans(tasks, maxPlaces, (here, position, places) =>
    holds(here, position === 0 && own !== null ? own : all, places),
  );

it(
  "The balance under limits needs as many people and stations as the best of all plans",
  async () => {
    const ways = { plan: 0, none: 0 };
    await fc.assert(
      fc.asyncProperty(cases, async (given) => {
        const run = await runLinepoise({
          args: ["balance", "line.yaml", "--json"],
          files: { "line.yaml": fileOf(given) },
        });
        const { outcome, measures } = JSON.parse(run.stdout);
        const best = cheapest(given);
        ways[best === null ? "none" : "plan"]++;
        const found = measures === null ? null : [measures.operators, measures.stations];
        expect([outcome, found]).toEqual([best === null ? "infeasible" : "proved", best]);
      }),
      { seed: 91, numRuns: 120 },
    );
    expect(Math.min(ways.plan, ways.none)).toBeGreaterThan(12);
  },
  LONGEST_TEST,
);

it(
  "With time to spare, the least stations are those of packing another weight under the same arrows",
  async () => {
    // Time and space assembly line balancing after Bautista and Pereira (2007), from memory: with time not binding, space alone decides.
    const spaces = cases.map(
      (given): Case => ({
        ...given,
        own: null,
        maxPlaces: 1,
        limits: [{ per: "station", most: 15 }],
        tasks: given.tasks.map((task) => ({
          ...task,
          people: 1,
          every: 1,
          seconds: 1,
          uses: [task.uses[0]!],
        })),
      }),
    );
    await fc.assert(
      fc.asyncProperty(spaces, async (given) => {
        const run = await runLinepoise({
          args: ["balance", "line.yaml", "--json"],
          files: { "line.yaml": fileOf(given) },
        });
        expect(JSON.parse(run.stdout).measures.stations).toBe(fewestBySpace(given.tasks));
      }),
      { seed: 92, numRuns: 30 },
    );
  },
  LONGEST_TEST,
);

/** Stations of 15 tenths at the least, by taking every set of ready tasks that fits a station after every set already placed. */
function fewestBySpace(tasks: readonly Task[]): number {
  const all = 2 ** tasks.length - 1;
  let [layer, count] = [new Set([0]), 0];
  for (; !layer.has(all); count++) {
    const next = new Set<number>();
    for (const placed of layer) {
      for (let set = 1; set <= all; set++) {
        if ((set & placed) !== 0) continue;
        const mine = tasks.filter((_, task) => set & (1 << task));
        const isClosed = mine.every(({ after }) => after.every((each) => (set | placed) & (1 << each)));
        if (isClosed && mine.reduce((sum, { uses }) => sum + uses[0]!, 0) <= 15) next.add(set | placed);
      }
    }
    layer = next;
  }
  return count;
}
