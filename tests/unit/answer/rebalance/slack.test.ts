import { describe, expect, it } from "vitest";
import { type Slack, slackOf } from "../../../../src/answer/rebalance/slack.js";
import type { Line } from "../../../../src/line/line.js";
import type { Plan } from "../../../../src/plan/plan.js";
import { slackText } from "../../../../src/report/terminal/slack-text.js";
import { paceFromDemand } from "../../../../src/time/pace.js";
import { decimal, percentDown } from "../../../../src/time/show-values.js";
import { planFrom } from "../../../tools/floor-line.js";
import { lineOf, numbersOf, paceOf } from "../../../tools/line-of.js";

/** A day of 8 h is 28,800 s: a line cycle of 28,800 s / demand. */
const line = (more: string, tasks: string, demand = "480 per day") =>
  lineOf(
    `unit: s\ndemand: ${demand}\ncalendar: {shifts: {early: {length: 8 h}}}\n${more}\ntasks: ${tasks}\n`,
  );

function slackAt(at: Line, plan: Plan): Slack {
  const pace = paceFromDemand({ ...at, demand: at.demand! });
  if (!pace.ok) throw new Error(pace.problem);
  return slackOf(at, pace.value, plan, false);
}

/** "S1 576 20 % load, 550": highest demand, growth, what gives way, and the highest demand within the station limit. */
const told = ({ stations }: Slack) =>
  stations.map(({ id, kept, keptWithinLimit }) => {
    const demands = [kept, keptWithinLimit].map(({ demand }) => (demand === null ? "-" : decimal(demand, 3)));
    const growth = kept.growth === null ? "-" : percentDown(kept.growth);
    return `${id} ${demands[0]} ${growth} ${kept.givesWay}, ${demands[1]}`;
  });

/** Seconds by which each task may grow, and those within the station limit. */
const toldTasks = (at: Line, { stations }: Slack) =>
  stations.flatMap(({ tasks }) =>
    tasks.map(({ task, growth, growthWithinLimit }) => {
      const [more, within] = [growth, growthWithinLimit].map((each) => each && each / 1e6);
      return `${at.tasks[task]!.id} ${more} ${within}`;
    }),
  );

describe("slack of a plan", () => {
  it("is the demand whose line cycle is the station time, rounded down to whole units", () => {
    // 28,800 / 50 = 576 exactly; 28,800 / 47 = 612.8; 60 s a unit are 480.
    const at = line("", "{a: 20, b: 30, c: 47, d: 60}");
    const slack = slackAt(at, planFrom(at, ["S1: a b", "S2: c", "S3: d"]));
    expect(told(slack)).toEqual(["S1 576 20 % load, 576", "S2 612 27.5 % load, 612", "S3 480 0 % load, 480"]);
    expect(toldTasks(at, slack)).toEqual(["a 10 10", "b 10 10", "c 13 13", "d 0 0"]);
    expect(slack.tightest.map(({ id }) => id)).toEqual(["S3", "S1", "S2"]);
  });

  it("is told of every station, the one that gives way first in front", () => {
    const at = line("", "{a: 50, b: 55, c: 47, d: 60, e: 40}");
    const slack = slackAt(at, planFrom(at, ["S1: a", "S2: b", "S3: c", "S4: d", "S5: e"]));
    const text = slackText(slack, { colour: false, width: 100 });
    expect(
      [...text.matchAll(/^ {2}(S\d) .* (\d+) per day/gmu)].map(([, id, kept]) => `${id} ${kept}`),
    ).toEqual(["S4 480", "S2 523", "S1 576", "S3 612", "S5 720"]);
    expect(text).not.toContain("--json");
  });

  it("is below nothing where the station overflows: the demand it keeps, and how much shorter one task must be", () => {
    // 28,800 / 70 = 411.4; 70 s are 10 s more than 60 s: b may not take more than 20 s, and a of 9 s is too short to help.
    const at = line("", "{a: 9, b: 61}");
    const slack = slackAt(at, planFrom(at, ["S1: a b"]));
    expect(told(slack)).toEqual(["S1 411 -14.4 % load, 411"]);
    expect(toldTasks(at, slack)).toEqual(["a null null", "b -10 -10"]);
    expect(slack.stations[0]!.tightest?.task).toBe(numbersOf(at, "b")[0]);
  });

  it("has steps as fine as the demand is written", () => {
    // 28,800 s / 47 s = 612.76...; the demand of 480.5 has tenths.
    const at = line("", "{c: 47}", "480.5 per day");
    expect(told(slackAt(at, planFrom(at, ["S1: c"])))).toEqual(["S1 612.7 27.5 % load, 612.7"]);
  });

  it("counts handling, places and what is planned to a share", () => {
    // Two places: 2 x cycle - 4 s must hold 86 s: 45 s, 640 a day. 90 %: 86 / 0.9 = 95.56 s, 49.78 s, 578.6 a day.
    const at = line("handling: 4 s\nplan-to: 90 %\nmax-places: 2", "{a: 40, b: 46}");
    const slack = slackAt(at, planFrom(at, ["S1 x2: a b"]));
    expect(told(slack)).toEqual(["S1 640 33.3 % load, 578"]);
    // At 60 s: 116 s, of which 104.4 s are planned.
    expect(toldTasks(at, slack)).toEqual(["a 30 18.4", "b 30 18.4"]);
  });

  it("gives a task that stands alone the whole working time, as balance does", () => {
    const at = line("plan-to: 90 %", "{a: 50, b: 57}");
    const slack = slackAt(at, planFrom(at, ["S1: a", "S2: b"]));
    // 28,800 / 50 = 576 and 28,800 / 57 = 505.3, though 57 s are more than 54 s.
    expect(told(slack)).toEqual(["S1 576 20 % load, 576", "S2 505 5.2 % load, 505"]);
    // At 505 a day the station limit is 51.3 s, at 576 it is 45 s.
    const textOf = (shown: Slack) => slackText(shown, { colour: false, width: 200 }).replaceAll(/\s+/gu, " ");
    expect(textOf(slack)).toContain(
      "that keeps to the station limit as well (a task alone, as at S2 and S1, may take all of the working time).",
    );
    const inCompany = slackAt(at, planFrom(at, ["S1: a b"]));
    expect(textOf(inCompany)).toContain("that keeps to the station limit as well.");
  });

  it("stops where the policy does, at a share of the working time", () => {
    // 45 s / 0.9 = 50 s: 576 a day.
    const at = line("policy: {max-load: 90 %}", "{a: 45}");
    expect(told(slackAt(at, planFrom(at, ["S1: a"])))[0]).toMatch(/^S1 576 /u);
  });

  it("counts how often a task is done", () => {
    // Each third unit: 30 s are 10 s a unit. 28,800 / 50 = 576; 10 s more a unit are 30 s more of the task.
    const at = line("", "{a: 40, b: {time: 30, every: 3}}");
    const slack = slackAt(at, planFrom(at, ["S1: a b"]));
    expect(told(slack)).toEqual(["S1 576 20 % load, 576"]);
    expect(toldTasks(at, slack)).toEqual(["a 10 10", "b 30 30"]);
  });

  it("ends where a limit per shift does, before the time does", () => {
    // 2 kg a unit, no more than 1,100 kg a shift: 550 units.
    const at = line(
      "limits: {lifted: {per: person-and-shift, most: 1100 kg}}",
      "{a: {time: 30, uses: {lifted: 2 kg}}}",
    );
    expect(told(slackAt(at, planFrom(at, ["S1: a"])))).toEqual(["S1 550 14.5 % limit, 550"]);
  });

  it("is none where a limit is broken at any demand", () => {
    const at = line("limits: {lifted: {per: person, most: 1 kg}}", "{a: {time: 30, uses: {lifted: 2 kg}}}");
    const slack = slackAt(at, planFrom(at, ["S1: a"]));
    expect(told(slack)).toEqual(["S1 - - limit, -"]);
    expect(toldTasks(at, slack)).toEqual(["a null null"]);
  });

  it("ends where a machine does that other stations need as well", () => {
    // Loaded 10 s and running 40 s, each of two presses has a line cycle for a unit: 50 s, 576 a day; people could go on to 10 s.
    const at = line(
      "equipment: {press: 2}\nholds: 2",
      "{a: {time: 10, machine-time: 40, equipment: press}, b: {time: 10, machine-time: 20, equipment: press, after: a}}",
    );
    const slack = slackAt(at, planFrom(at, ["S1: a", "S2: b"]));
    expect(told(slack)).toEqual(["S1 576 20 % machine, 576", "S2 576 20 % machine, 576"]);
    // One more would be needed at S1 after 10 s, at S2 after 30 s.
    expect(toldTasks(at, slack)).toEqual(["a 10 10", "b 30 30"]);
  });

  it("ends where one model is too long, whatever the mean", () => {
    // The mean is 30 s; the longer model takes 50 s and may take a fifth more than the line cycle: 41.67 s, 691.2 a day.
    const at = line(
      "models: {city: 50 %, cargo: 50 %}\nmodel-overload: 20 %",
      "{a: {time: {city: 10, cargo: 50}}}",
    );
    const slack = slackAt(at, planFrom(at, ["S1: a"]));
    expect(told(slack)).toEqual(["S1 691 43.9 % model-overload, 691"]);
    // 72 s less 50 s; the mean would allow 30 s.
    expect(toldTasks(at, slack)).toEqual(["a 22 22"]);
  });

  it("counts the side that waits for the other", () => {
    // b waits for a, so the right ends at 50 s although it holds 30 s.
    const at = line(
      "",
      "{a: {time: 20, side: left}, b: {time: 30, side: right, after: a}, c: {time: 5, side: left}}",
    );
    const slack = slackAt(at, planFrom(at, ["S1: a/left b/right c/left"], { S1: 2 }));
    expect(told(slack)).toEqual(["S1 576 20 % dwell, 576"]);
    // c may follow a up to 60 s.
    expect(toldTasks(at, slack)).toEqual(["a 10 10", "b 10 10", "c 35 35"]);
  });

  it("is without end where nothing is to be done, and ends with the handling where there is some", () => {
    const plain = line("", "{a: 0}");
    expect(told(slackAt(plain, planFrom(plain, ["S1: a"])))).toEqual(["S1 - - null, -"]);
    // A line cycle of 4 s would leave nothing: 7,200 a day; 7,199 do.
    const handled = line("handling: 4 s", "{a: 0}");
    expect(told(slackAt(handled, planFrom(handled, ["S1: a"])))).toEqual(["S1 7,199 1,399.7 % pace, 7,199"]);
  });

  it("is a line cycle to the microsecond where the line cycle is given", () => {
    const at = lineOf("unit: s\ntasks: {a: 20, b: {time: 30, every: 7}}\n");
    const { stations } = slackOf(at, paceOf(60), planFrom(at, ["S1: a b"]), false);
    // 20 + 30 / 7 = 24.285714... s
    expect(stations[0]!.kept).toMatchObject({ demand: null, lineCycle: { num: 24_285_715n, den: 1n } });
  });

  it("tells of benches as check does, with hours of their own", () => {
    // The bench works two shifts where the line works one: 28,800 x 2 / 90 = 640.
    const at = lineOf(
      `unit: s
demand: 480 per day
calendar: {shifts: {early: {length: 8 h}}}
benches: {wheels: {tasks: [lace], shifts: 2}}
tasks: {lace: 90, fit: {time: 50, after: lace}}
`,
    );
    const plan = { ...planFrom(at, ["S1: fit"]), benches: planFrom(at, ["wheels: lace"]).stations };
    const slack = slackAt(at, plan);
    expect(told(slack)).toEqual(["S1 576 20 % load, 576", "wheels 640 33.3 % load, 640"]);
    expect(toldTasks(at, slack)).toEqual(["fit 10 10", "lace 30 30"]);
  });
});
