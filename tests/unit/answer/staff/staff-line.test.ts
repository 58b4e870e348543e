import { describe, expect, it } from "vitest";
import { movesBetween } from "../../../../src/answer/rebalance/match-stations.js";
import { staffLine } from "../../../../src/answer/staff/staff-line.js";
import { ONE_PERSON } from "../../../../src/plan/plan.js";
import { staffStepsText } from "../../../../src/report/terminal/staff-steps-text.js";
import type { Watch } from "../../../../src/solve/watch-times.js";
import { type DemandRange, readDemandRange } from "../../../../src/time/demand-range.js";
import { compare, toNumber } from "../../../../src/time/ratio.js";
import { lineOf } from "../../../tools/line-of.js";

/** Four tasks of 30 s: 30 an hour by one person, 60 by two, 120 by four. */
const line = lineOf("unit: s\ndemand: 60 per hour\ntasks: {a: 30, b: 30, c: 30, d: 30}\n");
const rangeOf = (text: string): DemandRange => {
  const range = readDemandRange(text, "hour");
  if (!range.ok) throw new Error(range.problem);
  return range.value;
};

const answerTo = (text: string, checkpoint: Watch) =>
  staffLine(line, rangeOf(text), {
    nodes: 100_000,
    strictLimit: false,
    checkpoint,
    today: null,
    beside: null,
    costOf: () => null,
  });

async function staff(text: string, checkpoint: Watch) {
  const answer = await answerTo(text, checkpoint);
  const rows = answer.rows.map(({ demand, people }) => [Number(demand.units.num), people?.atATime ?? null]);
  const steps = answer.steps.map(({ people, from, to, outcome }) => [
    people,
    Number(from.num),
    Number(to.num),
    outcome,
  ]);
  return {
    rows,
    steps,
    outcome: answer.outcome,
    isCut: answer.isCut,
    rules: answer.findings.map(({ rule }) => rule),
  };
}

/** Lets so many demands be looked at. */
const stopAfter = (demands: number): Watch => {
  const seen = new Set<unknown>();
  return async ({ what }) => {
    seen.add(typeof what === "object" && "demand" in what ? toNumber(what.demand.units) : what);
    return seen.size > demands ? "interrupted" : null;
  };
};

describe("A staffing that is interrupted", () => {
  it("before its first demand has nothing to show and calls nothing impossible", async () => {
    expect(await staff("20..120/50", stopAfter(0))).toEqual({
      rows: [],
      steps: [],
      outcome: "stopped",
      isCut: true,
      rules: ["demands-left-out"],
    });
  });

  it("shows the demands that it reached, and no change as exact that is not", async () => {
    expect(await staff("20..120/50", stopAfter(2))).toEqual({
      rows: [
        [20, 1],
        [70, 4],
      ],
      steps: [
        [1, 20, 20, "found"],
        [4, 70, 70, "found"],
      ],
      outcome: "found",
      isCut: true,
      rules: ["demands-left-out"],
    });
  });

  it("draws and lists nothing of the demands that it did not reach, and says so", async () => {
    const look = { width: 72, colour: false };
    // Between 1 and 4 people, 2 and 3 were never looked at.
    expect(staffStepsText(await answerTo("20..120/50", stopAfter(2)), look)).toBe(
      [
        "  people  units per hour  20                                         120",
        "       1  20              □",
        "       4  70                                     □",
        "  □ found: fewer people, or the same for more units, are not ruled out",
        "  stopped: demands above 70 per hour were not reached",
        "",
      ].join("\n"),
    );
    expect(staffStepsText(await answerTo("20..120/50", stopAfter(3)), look)).toContain(
      "  stopped: demands between those listed were not all looked at\n",
    );
  });
});

it("A staffing that is let finish has every change exact", async () => {
  expect(await staff("20..120/50", async () => null)).toEqual({
    rows: [
      [20, 1],
      [70, 4],
      [120, 4],
    ],
    steps: [
      [1, 20, 30, "proved"],
      [2, 31, 60, "proved"],
      [4, 61, 120, "proved"],
    ],
    outcome: "proved",
    isCut: false,
    rules: [],
  });
});

it("Changes are looked for in tenths where the range has tenths", async () => {
  const { steps } = await staff("29.5..30.5/0.5", async () => null);
  expect(steps.map(([people, , , outcome]) => [people, outcome])).toEqual([
    [1, "proved"],
    [2, "proved"],
  ]);
  const tenths = await staffLine(line, rangeOf("29.5..30.5/0.5"), {
    nodes: 1_000,
    strictLimit: false,
    checkpoint: async () => null,
    today: null,
    beside: null,
    costOf: () => null,
  });
  expect(tenths.steps.map(({ from, to }) => [from, to])).toEqual([
    [
      { num: 59n, den: 2n },
      { num: 30n, den: 1n },
    ],
    [
      { num: 301n, den: 10n },
      { num: 61n, den: 2n },
    ],
  ]);
});

describe("The output of a row", () => {
  // b1 and a1, b3 and b2, b4, a2 and b5, b6 and b7: 72 s of work and 2 s of handling at most, 27000 s / 74 s = 364.8.
  const bikes = lineOf(`unit: s
demand: 450 per shift
calendar: {shifts: {e: {length: 8 h, breaks: 30 min}}}
handling: 2
tasks:
  b1: {time: 30, on-base: true}
  b2: {time: 22, after: b1}
  b3: {time: 45, after: b1}
  b4: {time: 18, quantity: 2, after: [b2, b3]}
  a1: 25
  a2: {time: 20, after: a1}
  b5: {time: 16, after: [a2, b4]}
  b6: {time: 40, after: b5}
  b7: {time: 28, after: b6}
`);
  const outputs = async (from: number, to: number, step: number) => {
    const range = readDemandRange(`${from}..${to}/${step} per shift`, "shift");
    if (!range.ok) throw new Error(range.problem);
    const answer = await staffLine(bikes, range.value, {
      nodes: 100_000,
      strictLimit: false,
      checkpoint: async () => null,
      today: null,
      beside: null,
      costOf: () => null,
    });
    return {
      rows: answer.rows.map(({ people, measures }) => [people?.atATime, measures?.outputPerShift]),
      steps: answer.steps.map(({ people, to: last }) => [people, Number(last.num)]),
    };
  };

  it("is what its people make at most, whatever they are asked for, and where the step of those people ends", async () => {
    expect(await outputs(300, 400, 50)).toEqual({
      rows: [
        [4, 364],
        [4, 364],
        [5, 402],
      ],
      steps: [
        [4, 364],
        [5, 400],
      ],
    });
  });

  it("is the same where one demand alone is asked for", async () => {
    expect((await outputs(300, 300, 1)).rows).toEqual([[4, 364]]);
  });
});

it("A row from today's plan moves no more than the balance of its demand, and of equal moves its cycle is no longer", async () => {
  const bike = lineOf(
    "unit: s\ndemand: 60 per hour\ntasks: {a: 20, b: 25, c: {time: 10, after: a}, d: {time: 30, after: b}, e: {time: 15, after: [c, d]}, f: {time: 35, after: e}, g: {time: 20, after: e}, h: {time: 25, after: [f, g]}}\n",
  );
  const stations = [
    [0, 1],
    [2, 3],
    [4, 5],
    [6, 7],
  ].map((tasks, at) => ({ ...ONE_PERSON, id: `S${at + 1}`, tasks }));
  const today = { stations };
  const asked = {
    nodes: 100_000,
    strictLimit: false,
    checkpoint: async () => null,
    beside: null,
    costOf: () => null,
  };
  const range = rangeOf("40..100/5");
  const [moved, alone] = [
    await staffLine(bike, range, { ...asked, today }),
    await staffLine(bike, range, { ...asked, today: null }),
  ];
  let equal = 0;
  for (const [at, { moves, measures, people }] of moved.rows.entries()) {
    const own = alone.rows[at]!;
    expect(people?.atATime).toBe(own.people?.atATime);
    const needed = movesBetween(bike, today, own.plan!).length;
    expect(moves!.count).toBeLessThanOrEqual(needed);
    if (moves!.count < needed) continue;
    equal++;
    expect(compare(measures!.cycleOfPlan, own.measures!.cycleOfPlan)).toBeLessThanOrEqual(0);
  }
  expect(equal).toBeGreaterThan(0);
});
