import { describe, expect, it } from "vitest";
import { answerBalance } from "../../../src/answer/balance/answer-balance.js";
import { answerOffLine } from "../../../src/answer/off-line/answer-off-line.js";
import { statedJobs } from "../../../src/benches/bench-job.js";
import { benchesOfPlan, lineBeside } from "../../../src/benches/bench-of-plan.js";
import { countShares } from "../../../src/benches/count-shares.js";
import { measureBench } from "../../../src/benches/measure-bench.js";
import { cycleOfPlan, cycleOfPost } from "../../../src/plan/figures/cycle.js";
import { measurePlan } from "../../../src/plan/measure.js";
import type { Plan } from "../../../src/plan/plan.js";
import { postsOf } from "../../../src/plan/post.js";
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
