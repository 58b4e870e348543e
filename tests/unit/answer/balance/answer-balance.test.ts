import { describe, expect, it } from "vitest";
import { answerBalance } from "../../../../src/answer/balance/answer-balance.js";
import { answerOffLine } from "../../../../src/answer/off-line/answer-off-line.js";
import type { BlockFlag, LongTaskFlag } from "../../../../src/answer/off-line/off-line-flag.js";
import { RANKS } from "../../../../src/answer/off-line/rank-order.js";
import type { Line } from "../../../../src/line/line.js";
import { blockFlagWords } from "../../../../src/report/words/block-flag-words.js";
import { longAnswersWords } from "../../../../src/report/words/long-answer-words.js";
import { paceFromDemand } from "../../../../src/time/pace.js";
import { ratio } from "../../../../src/time/ratio.js";
import { idsOf, lineOf, paceOf, shortLine } from "../../../tools/line-of.js";

const options = {
  method: "best",
  nodes: 10_000,
  strictLimit: false,
  explain: false,
  level: false,
  checkpoint: () => null,
};
const answer = (line: Line, limitSeconds: number, more: Partial<typeof options> = {}) =>
  answerBalance(line, paceOf(limitSeconds), null, { ...options, ...more });

describe("lacing and truing at a bench at 60 s", () => {
  const line = shortLine(["frame! 30", "lace 40", "true 55 lace", "fit 20 frame true", "brake 35 fit"]);

  it("gains nobody: 4 people before, 2 on the line and 2 at the bench after", async () => {
    const { offLine, measures } = await answer(line, 60);
    expect(measures?.stations).toBe(4);
    expect(offLine[0]).toEqual({
      kind: "block",
      tasks: ["lace", "true"],
      joinsAt: "fit",
      stationsBefore: 4,
      stationsAfter: 2,
      peopleBefore: 4,
      peopleAfter: 4,
      outcome: "proved",
      counted: { before: 4, after: 4, isOfDay: false },
      freed: 0,
      // 95 s / (2 x 60 s)
      bench: { work: ratio(95_000_000), places: 2, load: ratio(95, 120) },
      isDoubted: false,
      isGuess: false,
    });
    expect(blockFlagWords(line, offLine[0] as BlockFlag)).toBe(
      "no gain in people: 4 and 4; the line is 2 stations shorter; 95 s of work at 2 bench places (79.2 % of the bench limit). One more buffer stock, between bench and line",
    );
    expect(offLine.filter((flag) => flag.kind !== "block" || flag.freed !== 0)).toEqual([]);
  });

  it("says that a block is a guess where no task is on the base unit", async () => {
    const unmarked = shortLine(["frame 30", "lace 40", "true 55 lace", "fit 20 frame true", "brake 35 fit"]);
    const { offLine } = await answer(unmarked, 60);
    expect(offLine.length).toBeGreaterThan(0);
    expect(offLine.filter((flag) => flag.kind !== "block" || !flag.isGuess)).toEqual([]);
    expect(blockFlagWords(unmarked, offLine[0] as BlockFlag)).toMatch(
      /\. A guess, as no task says `on-base: true`$/,
    );
  });
});

describe("three parts of 40 s that do not share a station of 60 s", () => {
  it("free a person at two bench places: 3 stations before, 1 and 2 people after", async () => {
    // Nothing on the line fits beside a part; 3 x 40 = 120 s fill two places exactly.
    const line = shortLine(["frame! 55", "p 40", "q 40", "r 40", "fit 5 frame p q r"]);
    const { offLine, measures } = await answer(line, 60);
    expect(measures?.stations).toBe(4);
    expect(offLine[0]).toMatchObject({ tasks: ["p", "q", "r"], peopleBefore: 4, peopleAfter: 3, freed: 1 });
  });
});

describe("a task of 0.6 min at a pace of 0.5 min", () => {
  const line = lineOf(
    "line: x\nunit: min\ndemand: 120 per hour\nchains: [[a, b, c, d, e]]\ntasks: {a: 0.6, b: 0.5, c: 0.3, d: 0.2, e: 0.5}\n",
  );

  it("is infeasible, with two places, a split and 100 per hour as answers", async () => {
    const pace = paceFromDemand({ ...line, demand: line.demand! });
    if (!pace.ok) throw new Error(pace.problem);
    const { outcome, offLine, measures, findings } = await answerBalance(line, pace.value, null, options);
    expect([outcome, measures]).toEqual(["infeasible", null]);
    expect(findings.map(({ rule, task }) => [rule, task])).toEqual([["over-working-time", "a"]]);
    // {0.6} x 2, {0.5}, {0.3, 0.2}, {0.5}: 2.1 / (5 x 0.5) = 84 %.
    const [flag] = offLine as [LongTaskFlag];
    expect(flag).toMatchObject({ kind: "over-limit", tasks: ["a"], stationsAfter: 4, peopleAfter: 5 });
    expect(flag.answers).toMatchObject([
      { kind: "places", places: [{ task: "a", places: 2 }], shorter: { stations: 3, maxPlaces: 2 } },
      { kind: "split", parts: 2 },
      { kind: "bench", tasks: ["a"], joinsAt: "b", places: 2, isGuess: true },
      { kind: "slower", lineCycle: ratio(36_000_000), rate: { kind: "demand", units: ratio(100) } },
    ]);
    expect(longAnswersWords(line, flag.answers)).toBe(
      "parallel workplaces: 2, units taken in turn (4 stations and 5 people in all, efficiency 84 % at the pace, or 3 stations with places at every station (`max-places: 2`)); split: 2 parts of at most 0.5 min (5 stations and 5 people in all, efficiency 84 % at the pace); bench: 2 places for a, joining at b (3 stations at the line and 5 people in all; a guess, as no task says `on-base: true`); slower pace: a line cycle of 0.6 min, 100 good units per hour instead of 120 (4 stations and 4 people in all, efficiency 87.5 % at the pace)",
    );
  });
});

describe("a task of 110 s at a pace of 120 s loaded to 85 %", () => {
  const line = lineOf(
    "line: x\nunit: s\ndemand: 30 per hour\nplan-to: 85 %\ntasks: {a: 110, b: 60, c: 40}\n",
  );
  const pace = paceFromDemand({ ...line, demand: line.demand! });
  if (!pace.ok) throw new Error(pace.problem);

  it("stands alone with a warning that gives both shares", async () => {
    const { outcome, plan, findings } = await answerBalance(line, pace.value, null, options);
    expect(outcome).toBe("proved");
    expect(plan?.stations.map(({ tasks }) => tasks)).toEqual([[0], [1, 2]]);
    expect(findings.map(({ rule, severity, message }) => [rule, severity, message])).toEqual([
      [
        "over-limit",
        "warning",
        "a takes 110 s, 91.7 % of the working time (120 s) and 107.8 % of the station limit (102 s): placed alone",
      ],
    ]);
  });

  it("is refused where the limit is strict, with two places as an answer", async () => {
    const { outcome, offLine } = await answerBalance(line, pace.value, null, {
      ...options,
      strictLimit: true,
    });
    expect(outcome).toBe("infeasible");
    expect(offLine[0]).toMatchObject({ tasks: ["a"], stationsAfter: 2, peopleAfter: 3 });
  });
});

describe("times that were meant in seconds but read in minutes", () => {
  it("are named as a likely slip of the unit", async () => {
    const line = lineOf("line: x\nunit: min\ntasks: {A: 70, B: 60, C: 120, D: 60, E: 240, F: 100, G: 190}\n");
    const { findings } = await answer(line, 300);
    expect(findings[0]).toMatchObject({
      rule: "unit-slip",
      message:
        "7 of 7 tasks are longer than the working time; read in s (60 times shorter) all would fit: was `unit: s` meant in place of `unit: min`?",
    });
  });

  it("are no slip where the one task takes 102 % of the working time, though all would fit in cmin", async () => {
    const { findings } = await answer(lineOf("line: x\nunit: s\ntasks: {A: 61.2}\n"), 60);
    expect(findings.map(({ rule }) => rule)).not.toContain("unit-slip");
  });
});

describe("blocks that may leave a line with rules", () => {
  const rows = (more: string) =>
    `unit: s\n${more}\ntasks:\n  frame: {time: 30, on-base: true}\n  lace: 40\n  true: {time: 55, after: lace}\n  fit: {time: 20, after: [frame, true]}\n  brake: {time: 35, after: fit}\n`;

  /** The blocks that `balance` names, each with its people, and the same of `off-line`. */
  async function bothOf(text: string) {
    const line = lineOf(text);
    const named = (await answer(line, 60)).offLine.map(({ tasks, peopleAfter }) => [tasks, peopleAfter]);
    const search = { nodes: 10_000, strictLimit: false, checkpoint: () => null };
    const more = { ranks: RANKS, benches: 1, joinsAtSeveral: false, asked: null };
    const { blocks } = await answerOffLine(line, paceOf(60), null, { ...search, ...more });
    const rated = blocks!
      .filter(({ plan }) => plan?.plan != null)
      .map(({ bench, plan }) => [idsOf(line, bench.tasks), plan!.people]);
    return { named, rated };
  }

  it.each([
    [
      "nothing holds",
      "max-places: 1",
      [
        [["lace", "true"], 4],
        [["lace"], 4],
      ],
    ],
    ["a station holds one task of", "stations: [{id: A}, {id: B}, {id: C}, {id: D}]", [[["lace"], 4]]],
    ["that stay together with what stays hold", "together: [[true, fit]]", []],
    ["that stay apart do not share a bench", "apart: [[lace, true]]", [[["lace"], 4]]],
    [
      "the places of a bench share one press",
      "equipment: {press: 1}",
      [
        [["lace", "true"], 4],
        [["lace"], 4],
      ],
    ],
  ])("are the same for balance and off-line where %s", async (why, rules, expected) => {
    const at = why.startsWith("a station") ? ", station: B" : "";
    const press = rules.startsWith("equipment") ? ", equipment: press" : "";
    const text = rows(rules).replace("true: {time: 55", `true: {time: 55${at}${press}`);
    const { named, rated } = await bothOf(text);
    expect(named).toEqual(expected);
    for (const each of named) expect(rated).toContainEqual(each);
  });
});
