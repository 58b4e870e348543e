import { describe, expect, it } from "vitest";
import { answerBalance } from "../../../src/answer/balance/answer-balance.js";
import { answerOffLine } from "../../../src/answer/off-line/answer-off-line.js";
import { statedJobs } from "../../../src/benches/bench-job.js";
import { benchesOfPlan, lineBeside } from "../../../src/benches/bench-of-plan.js";
import { countShares } from "../../../src/benches/count-shares.js";
import { measureBench } from "../../../src/benches/measure-bench.js";
import { cycleOfPlan, cycleOfPost } from "../../../src/plan/figures/cycle.js";
import { manualTime } from "../../../src/plan/figures/kinds-of-time.js";
import { measurePlan } from "../../../src/plan/measure.js";
import type { Plan } from "../../../src/plan/plan.js";
import { postsOf } from "../../../src/plan/post.js";
import { modelTime } from "../../../src/plan/station-schedule.js";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import { workedAgainWords } from "../../../src/plan/worked-again.js";
import { flagJson } from "../../../src/report/json/flag-json.js";
import { type Ratio, toNumber } from "../../../src/time/ratio.js";
import { idsOf, lineOf, numbersOf, paceOf } from "../../tools/line-of.js";
import { asked } from "../answer/compare/compared.js";

const seconds = (value: Ratio) => toNumber(value) / 1e6;
const search = { nodes: 10_000, checkpoint: () => null };

/** 450 units in 27,000 s: a line cycle of 60 s. Lacing, truing and a tyre at a bench of two stations, handed over in 5 s. */
const line = lineOf(
  [
    "unit: s",
    "demand: 450 per day",
    "calendar: {shifts: {early: {length: 7.5 h}}}",
    "benches: {wheels: {tasks: [lace, true, tyre], stations: 2, hand-over: 5, take-over: 4, shifts: 2}}",
    "tasks:",
    "  frame: {time: 30, on-base: true}",
    "  lace: 40",
    "  true: {time: 30, after: lace}",
    "  tyre: {time: 20, after: true}",
    "  fit: {time: 20, after: [frame, tyre]}",
    "",
  ].join("\n"),
);
const { pace } = asked(line);

const planWith = (...entries: [string, ...string[]][]): Plan => ({
  stations: [
    { id: "S1", tasks: numbersOf(line, "frame", "fit"), sides: null, persons: null, places: 1, crew: 1 },
  ],
  benches: entries.map(([id, ...tasks]) => ({
    id,
    tasks: numbersOf(line, ...tasks),
    sides: null,
    persons: null,
    places: 1,
    crew: 1,
  })),
});

describe("Parts built for units that the line scraps later", () => {
  /** A test on the line scraps 20 %: 1 / 0.8 = 1.25 sets of wheels for a good unit, laced, trued and handed over. */
  const scrapping = (terms: string) =>
    lineOf(
      [
        "unit: s",
        "demand: 450 per day",
        "calendar: {shifts: {early: {length: 7.5 h}}}",
        `benches: {wheels: {tasks: [lace, true], ${terms}}}`,
        "tasks:",
        "  frame: {time: 30, on-base: true}",
        "  lace: 24",
        "  true: {time: 18, after: lace, test: {fail: 10 %, repair: 60 s, return-to: true}}",
        "  fit: {time: 20, after: [frame, true], test: {scrap: 20 %}}",
        "",
      ].join("\n"),
    );
  const of = (own: ReturnType<typeof scrapping>): Plan => ({
    ...planWith(["B1", "lace", "true"]),
    stations: [{ ...planWith().stations[0]!, tasks: numbersOf(own, "frame", "fit") }],
  });

  it("are handed over for all of them: (24 + 18 / 0.9 + 5) x 1.25 = 61.25 s, not 55 + 5", async () => {
    const own = scrapping("hand-over: 5");
    const { pace } = asked(own);
    const [bench] = benchesOfPlan(own, pace, of(own));
    expect(seconds(bench!.work)).toBe(61.25);
    const [post] = bench!.posts;
    expect([seconds(post!.personTime), seconds(post!.dwell)]).toEqual([61.25, 61.25]);
    const figures = await measureBench(countShares(own), pace, statedJobs(own)[0]!, search);
    expect([seconds(figures.work), seconds(figures.handOver)]).toEqual([61.25, 6.25]);
  });

  it("are handed over as often by the units that carry them: the same for each of the 40 % that do", async () => {
    const own = scrapping("hand-over: 5, share: 40 %");
    const { pace } = asked(own);
    const figures = await measureBench(countShares(own), pace, statedJobs(own)[0]!, search);
    expect([seconds(figures.work), seconds(figures.handOver)]).toEqual([61.25, 6.25]);
  });
});

describe("Parts taken over in 12 s at a task of 20 s, a test there that half of the units fail", () => {
  /** Until they are good, 1 / 0.5 = 2 tests for each; what is done again is done on a unit that has its parts. */
  const taking = (fit: string, more = "") =>
    lineOf(
      `unit: s\n${more}benches: {w: {tasks: lace, take-over: 12}}\ntasks:\n  frame: {time: 30, on-base: true}\n  lace: 40\n  fit: {after: [frame, lace], ${fit}}\n`,
    );
  const FAILS = "test: {fail: 50 %, repair: 60 s, return-to: fit}";
  const at = (own: ReturnType<typeof taking>): Plan => {
    const station = planWith().stations[0]!;
    return {
      stations: [
        { ...station, tasks: numbersOf(own, "frame") },
        { ...station, id: "S2", tasks: numbersOf(own, "fit") },
      ],
      benches: [{ ...station, id: "B1", tasks: numbersOf(own, "lace") }],
    };
  };
  /** What S2 takes for a good unit by hands, its dwell, the person-time and the kinds of time. */
  const figuresAt = (own: ReturnType<typeof taking>) => {
    const line = lineBeside(own, at(own));
    const [, post] = postsOf(line, paceOf(60), at(own));
    const station = at(own).stations[1]!;
    return [post!.busy, post!.personTime, post!.dwell, manualTime(line, station)].map(seconds);
  };

  it("take 20 x 2 + 12 = 52 s in every figure, not (20 + 12) x 2 = 64 s", () => {
    expect(figuresAt(taking(`time: 20, ${FAILS}`))).toEqual([52, 52, 52, 52]);
  });

  it("keep to 52 s by hand beside a machine of 5 s, which runs twice: the unit stands 20 + 12 + 5 + 20 + 5 = 62 s", () => {
    const own = taking(`time: 20, machine-time: 5, ${FAILS}`);
    expect(figuresAt(own)).toEqual([52, 52, 62, 52]);
    const line = lineBeside(own, at(own));
    expect(verifyPlan(line, paceOf(62), at(own), true)).toEqual([]);
    expect(verifyPlan(line, paceOf(61.9), at(own), true).map(({ rule }) => rule)).toEqual(["dwell"]);
  });

  it("come anew with each set that the bench builds again: 40 x 2 s of lacing there, (20 + 12) x 2 s at the line", () => {
    const own = taking("time: 20, test: {fail: 50 %, repair: 60 s, return-to: lace}");
    expect(figuresAt(own)).toEqual([64, 64, 64, 64]);
  });

  it("are taken over for units that are scrapped later as well: 1 / 0.8 = 1.25 sets, (20 + 12) x 1.25 = 40 s", () => {
    expect(figuresAt(taking("time: 20, test: {scrap: 20 %}"))).toEqual([40, 40, 40, 40]);
  });

  it("are taken over by the model that has them, half of the units: 20 x 2 + 12 x 50 % = 46 s", () => {
    const text = `time: 20, ${FAILS}`;
    const own = lineOf(
      `unit: s\nmodels: {plain: 50 %, sport: 50 %}\nbenches: {w: {tasks: lace, take-over: 12}}\ntasks:\n  frame: {time: 30, on-base: true}\n  lace: {time: {plain: "-", sport: 40}}\n  fit: {after: [frame, lace], ${text}}\n`,
    );
    expect(figuresAt(own).slice(0, 2)).toEqual([46, 46]);
    const line = lineBeside(own, at(own));
    const station = at(own).stations[1]!;
    expect([0, 1].map((model) => seconds(modelTime(line, station, model)))).toEqual([40, 52]);
  });

  it("are told in the sum of the station", () => {
    const own = taking(`time: 20, ${FAILS}`);
    const line = lineBeside(own, at(own));
    expect(workedAgainWords(line, numbersOf(line, "fit"))).toBe(
      " (20 s x 2 times per good unit + 12 s to take parts over)",
    );
  });
});

const shown = (plan: Plan) =>
  benchesOfPlan(line, pace, plan).flatMap(({ posts }) =>
    posts.map((post) => [
      post.id,
      idsOf(line, post.tasks),
      seconds(post.busy),
      seconds(cycleOfPost(post)),
      post.shifts,
    ]),
  );

describe("A bench of two stations in a plan", () => {
  it("is two posts where the plan has two entries, each working the two shifts of the bench, the last handing over", () => {
    // On two shifts for one of the line each has 120 s a unit: 40 / 2 and (50 + 5) / 2.
    expect(shown(planWith(["wheels-1", "lace"], ["wheels-2", "true", "tyre"]))).toEqual([
      ["wheels-1", ["lace"], 40, 20, 2],
      ["wheels-2", ["true", "tyre"], 55, 27.5, 2],
    ]);
  });

  it("is cut in the order of its tasks where the plan has one, so that the longest is the shortest", () => {
    expect(shown(planWith(["wheels", "lace", "true", "tyre"]))).toEqual([
      ["wheels, station 1", ["lace"], 40, 20, 2],
      ["wheels, station 2", ["true", "tyre"], 55, 27.5, 2],
    ]);
  });

  it("works as the file says only with all of its tasks", () => {
    expect(shown(planWith(["B1", "lace"]))).toEqual([["B1", ["lace"], 40, 40, 1]]);
  });

  it("takes its parts over once, however many entries it has", () => {
    const taken = (plan: Plan) => lineBeside(line, plan).tasks.map(({ load }) => seconds(load));
    const [one, two] = [
      planWith(["wheels", "lace", "true", "tyre"]),
      planWith(["wheels-1", "lace"], ["wheels-2", "true", "tyre"]),
    ];
    expect(taken(one)).toEqual(taken(two));
    expect(taken(one)[numbersOf(line, "fit")[0]!]).toBe(24);
  });

  it("has the people and the cycle of the bench that off-line measures", async () => {
    const bench = await measureBench(countShares(line), pace, statedJobs(line)[0]!, search);
    const [ofPlan] = benchesOfPlan(line, pace, planWith(["wheels", "lace", "true", "tyre"]));
    expect(ofPlan!.people).toBe(bench.people);
    expect(cycleOfPlan(ofPlan!.posts)).toEqual(cycleOfPlan(bench.posts));
  });

  it("counts in the cycle of the plan, at which the stations are smoothed as well", () => {
    // The line takes 54 s, a slow bench of 90 s on one shift: smoothness is the gap of the one station.
    const slow = lineOf(
      "unit: s\nbenches: {b: {tasks: weave}}\ntasks: {frame: {time: 54, on-base: true}, weave: 90, fit: {time: 0, after: [frame, weave]}}\n",
    );
    const plan: Plan = {
      stations: [
        { id: "S1", tasks: numbersOf(slow, "frame", "fit"), sides: null, persons: null, places: 1, crew: 1 },
      ],
      benches: [
        { id: "B1", tasks: numbersOf(slow, "weave"), sides: null, persons: null, places: 1, crew: 1 },
      ],
    };
    const posts = benchesOfPlan(slow, paceOf(60), plan).flatMap((bench) => bench.posts);
    const measures = measurePlan(slow, paceOf(60), plan, posts);
    expect([seconds(measures.cycleOfPlan), measures.slowestStation, measures.smoothness / 1e6]).toEqual([
      90,
      "B1",
      36,
    ]);
    expect(seconds(cycleOfPlan(postsOf(slow, paceOf(60), plan)))).toBe(54);
  });
});

describe("A basket of 130 s that 40 % of the units have", () => {
  const basket = lineOf(
    [
      "unit: s",
      "demand: 450 per day",
      "calendar: {shifts: {day: {length: 7.5 h}}}",
      "benches: {baskets: {tasks: basket, share: 40 %}}",
      "tasks:",
      "  frame: {time: 55, on-base: true}",
      "  basket: 130",
      "  fit: {time: 50, after: [frame, basket]}",
      "",
    ].join("\n"),
  );

  it("takes one place of a bench, 86.7 % loaded, in balance as in off-line, which tells how it counts on the line", async () => {
    const at = asked(basket);
    const options = {
      method: "best",
      nodes: 1_000,
      strictLimit: false,
      level: true,
      explain: false,
      checkpoint: () => null,
    };
    const { offLine, findings } = await answerBalance(basket, at.pace, at.takt, options);
    const reasons = offLine.map((flag) => flagJson(basket, flag).reason);
    // 130 s x 40 % / 60 s
    expect(reasons.find((each) => each.includes("bench: "))).toContain("bench: 1 place for basket");
    expect(reasons.find((each) => each.includes("of the bench limit"))).toContain(
      "at 1 bench place (86.7 % of the bench limit)",
    );
    expect(findings.map(({ rule }) => rule)).toContain("share-on-the-line");
    const { stated } = await answerOffLine(basket, at.pace, at.takt, {
      ranks: ["people"],
      benches: 1,
      joinsAtSeveral: false,
      asked: null,
      nodes: 1_000,
      strictLimit: false,
      checkpoint: async () => null,
    });
    const { bench } = stated![0]!.rated!;
    expect([bench.places, toNumber(bench.load)]).toEqual([1, 0.866667]);
  });
});
