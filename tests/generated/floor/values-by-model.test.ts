import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Line } from "../../../src/line/line.js";
import { workOfLine } from "../../../src/plan/figures/person-time.js";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import { balance } from "../../../src/solve/balance.js";
import {
  add,
  compare,
  divide,
  multiply,
  ONE,
  type Ratio,
  ratio,
  subtract,
  ZERO,
} from "../../../src/time/ratio.js";
import { paceWith } from "../../tools/floor-random-line.js";
import { lineOf } from "../../tools/line-of.js";

/** Shares of the models in tenths, and what each task says of them; null where a model does not have it. */
const MODELS = { city: 6, cargo: 3, kid: 1 } as const;
const NAMES = Object.keys(MODELS) as (keyof typeof MODELS)[];

const taskDraw = fc.record({
  seconds: fc.array(fc.integer({ min: 1, max: 14 }), { minLength: 3, maxLength: 3 }),
  pieces: fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 3, maxLength: 3 }),
  people: fc.array(fc.constantFrom(1, 1, 2, 3), { minLength: 3, maxLength: 3 }),
  isMissing: fc.array(fc.constantFrom(false, false, false, true), { minLength: 3, maxLength: 3 }),
  fails: fc.array(fc.constantFrom<number>(0, 5, 10, 20), { minLength: 3, maxLength: 3 }),
  isTest: fc.boolean(),
  isAfter: fc.boolean(),
});
type Drawn = typeof taskDraw extends fc.Arbitrary<infer T> ? T : never;

const mapOf = (values: readonly (string | number | null)[]): string =>
  `{${NAMES.map((name, at) => `${name}: ${values[at] ?? '"-"'}`).join(", ")}}`;

/** The line file, every value by model. */
function textOf(rows: readonly Drawn[], handling: number): string {
  const tasks = rows.map(({ seconds, pieces, people, isMissing, fails, isTest, isAfter }, at) => {
    const held = <T>(values: readonly T[]) => values.map((each, model) => (isMissing[model] ? null : each));
    const after = at > 0 && isAfter ? `, after: t${at}` : "";
    const shares = fails.map((fail) => (fail === 0 ? null : `${fail} %`));
    const test = isTest ? `, test: {fail: ${mapOf(shares)}, repair: 60, return-to: t${at + 1}}` : "";
    const own = `time: ${mapOf(held(seconds))}, quantity: ${mapOf(held(pieces))}, people: ${mapOf(held(people))}`;
    return `  t${at + 1}: {${own}${after}${test}}`;
  });
  const shares = NAMES.map((name) => `${name}: ${MODELS[name] * 10} %`).join(", ");
  return ["line: x", "unit: s", `handling: ${handling}`, `models: {${shares}}`, "tasks:", ...tasks, ""].join(
    "\n",
  );
}

const lines = fc.record({
  rows: fc.array(taskDraw, { minLength: 1, maxLength: 5 }),
  handling: fc.constantFrom(0, 3),
});

/** A test that sends units back to itself is done 1 / (1 - fail) times for a good unit. */
const often = ({ isTest, fails, isMissing }: Drawn, model: number): Ratio => {
  if (isMissing[model]) return ZERO;
  return isTest ? divide(ONE, subtract(ONE, ratio(fails[model]!, 100))) : ONE;
};

const share = (model: number): Ratio => ratio(MODELS[NAMES[model]!], 10);

const overModels = (value: (model: number) => Ratio): Ratio =>
  NAMES.map((_, model) => multiply(share(model), value(model))).reduce(add, ZERO);

const timeOf = (row: Drawn, model: number): Ratio =>
  multiply(often(row, model), ratio(row.seconds[model]! * row.pieces[model]! * 1_000_000));

const crewOf = ({ people, isMissing }: Drawn): number =>
  Math.max(1, ...people.map((each, model) => (isMissing[model] ? 0 : each)));

/** The fewest people, then stations, over every way to put tasks in order of their numbers into stations, each with the arrows kept. */
function fewest(rows: readonly Drawn[], cycle: Ratio, handling: Ratio) {
  const loads = rows.map((row) => overModels((model) => timeOf(row, model)));
  const visits = rows.map((row) => overModels((model) => often(row, model)));
  let best: readonly [people: number, stations: number] | null = null;
  const at: number[] = [];
  const judge = () => {
    const stations = [...new Set(at)].map((station) => [...at.keys()].filter((task) => at[task] === station));
    const fits = stations.every((tasks) => {
      const passes = tasks
        .map((task) => visits[task]!)
        .reduce((one, two) => (compare(two, one) > 0 ? two : one), ONE);
      const takes = tasks.map((task) => loads[task]!).reduce(add, multiply(handling, passes));
      return compare(takes, cycle) <= 0;
    });
    if (!fits) return;
    const people = stations.reduce(
      (sum, tasks) => sum + Math.max(...tasks.map((task) => crewOf(rows[task]!))),
      0,
    );
    if (best === null || people < best[0] || (people === best[0] && stations.length < best[1]))
      best = [people, stations.length];
  };
  const go = (task: number) => {
    if (task === rows.length) return judge();
    const first = task > 0 && rows[task]!.isAfter ? at[task - 1]! : 0;
    for (let station = first; station < rows.length; station++) {
      at[task] = station;
      go(task + 1);
    }
    at.length = task;
  };
  go(0);
  return best;
}

const OPTIONS = {
  method: "best",
  nodes: 100_000,
  strictLimit: true,
  level: false,
  explain: false,
  checkpoint: () => null,
};

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 120_000;

describe("quantities, people and failures by model", { timeout: LONGEST_TEST }, () => {
  it("load stations by what each model takes, and fill as many people and stations as the best of all plans", async () => {
    const seen = { plan: 0, none: 0 };
    await fc.assert(
      fc.asyncProperty(lines, async ({ rows, handling }) => {
        const line = lineOf(textOf(rows, handling));
        expect(line.tasks.map(({ load }) => load)).toEqual(
          rows.map((row) => overModels((model) => timeOf(row, model))),
        );
        const pace = paceWith(30, handling);
        const { plan, outcome } = await balance(line, pace, OPTIONS);
        expect(["proved", "infeasible"]).toContain(outcome);
        const people = plan?.stations.reduce((sum, { crew, places }) => sum + crew * places, 0);
        const found = plan === null ? null : [people, plan.stations.length];
        expect(found).toEqual(fewest(rows, ratio(30_000_000), ratio(handling * 1_000_000)));
        seen[plan === null ? "none" : "plan"]++;
        if (plan !== null) expect(verifyPlan(line, pace, plan, true)).toEqual([]);
      }),
      { seed: 14, numRuns: 150 },
    );
    expect(Math.min(seen.plan, seen.none)).toBeGreaterThan(15);
  });

  it("count the person-time of the people that each model takes", () => {
    fc.assert(
      fc.property(lines, ({ rows, handling }) => {
        const line = lineOf(textOf(rows, handling));
        const work = rows
          .map((row) => overModels((model) => multiply(timeOf(row, model), ratio(row.people[model]!))))
          .reduce(add, ZERO);
        expect(workOfLine(line)).toEqual(work);
        expect(line.tasks.map(({ people }) => people)).toEqual(rows.map(crewOf));
      }),
      { seed: 15, numRuns: 200 },
    );
  });

  it("that are alike for every model are those of one value", () => {
    fc.assert(
      fc.property(lines, ({ rows, handling }) => {
        const alike = rows.map((row) => {
          const same = <T>([first]: readonly T[]): T[] => [first!, first!, first!];
          return {
            ...row,
            pieces: same(row.pieces),
            people: same(row.people),
            isMissing: [false, false, false],
            fails: same(row.fails.map((each) => each + 1)),
          };
        });
        const maps = lineOf(textOf(alike, handling));
        const plain = lineOf(
          textOf(alike, handling).replace(/(quantity|people|fail): \{city: ([^,]+), [^}]+\}/gu, "$1: $2"),
        );
        const withoutMaps = ({ tasks }: Line) =>
          tasks.map(({ quantityByModel, peopleByModel, test, place, ...task }) => {
            const { failByModel, ...own } = { failByModel: null, ...test };
            return [task, own, [quantityByModel, peopleByModel, place, failByModel].length];
          });
        expect(withoutMaps(maps)).toEqual(withoutMaps(plain));
        expect(workOfLine(maps)).toEqual(workOfLine(plain));
      }),
      { seed: 16, numRuns: 100 },
    );
  });
});
