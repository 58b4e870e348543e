import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { benchesOfPlan, lineBeside } from "../../../../src/benches/bench-of-plan.js";
import type { Line } from "../../../../src/line/line.js";
import { checkPlan } from "../../../../src/plan/check/check-plan.js";
import { CHECK_RULES } from "../../../../src/plan/check/check-rules.js";
import type { KnownLeast } from "../../../../src/plan/check/check-subject.js";
import { readPlan } from "../../../../src/plan/file/read-plan.js";
import { fingerprintOf } from "../../../../src/plan/fingerprint.js";
import { verifyPlan } from "../../../../src/plan/verify-plan.js";
import { ONE, ratio } from "../../../../src/time/ratio.js";
import { lineOf, paceOf } from "../../../tools/line-of.js";

/** What a check finds of a plan text, as "rule station: message", at a line cycle in seconds. */
function check(line: Line, text: string, seconds: number, least: KnownLeast | null = null) {
  const reading = readPlan("p.yaml", `format: linepoise-plan/1\n${text}`, line);
  if (reading.plan === null) throw new Error(reading.findings.map((each) => each.message).join("; "));
  const { plan } = reading;
  const pace = paceOf(seconds);
  return checkPlan({
    line: lineBeside(line, plan),
    pace,
    plan,
    reading,
    benches: benchesOfPlan(line, pace, plan),
    least,
    fingerprints: [fingerprintOf(line)],
    lineFile: null,
  });
}

const told = (...given: Parameters<typeof check>) =>
  check(...given)
    .findings.filter(({ rule }) => rule !== "made-for")
    .map(({ rule, severity, message }) => `${severity} ${rule}: ${message}`);

const three = (policy = "") =>
  lineOf(`unit: s\n${policy}\ntasks: {a: 30, b: {time: 30, after: a}, c: {time: 30, after: b}}\n`);
const s = (seconds: number) => ratio(seconds * 1_000_000);
const APART = "stations: [{tasks: [a]}, {tasks: [b]}, {tasks: [c]}]";

describe("A task that a plan lists twice", () => {
  const twice = "stations: [{tasks: [a]}, {tasks: [b, a]}, {tasks: [c, c]}]";

  it("is told, and counts once, at its first place", () => {
    // b and a would take 60 s, c twice as well: above 50 s. Each station has 30 s of work.
    expect(told(three(), twice, 50)).toEqual([
      "error task-twice: task a is at S1 and S2",
      "error task-twice: task c is twice at S3",
    ]);
    const { stations, measures } = check(three(), twice, 50);
    expect(stations.map(({ stationTime }) => stationTime)).toEqual([30, 30, 30].map((each) => s(each)));
    expect(measures?.workContent).toEqual(s(90));
  });

  it("is told once, and nothing of what thousands of it would break", () => {
    const many = Array(9_000).fill("a").join(", ");
    const held = lineOf("unit: s\nmax-places: 2\ntasks: {a: {time: 30, machine-time: 58}}\n");
    expect(told(held, `stations: [{places: 2, tasks: [${many}]}]`, 50)).toEqual([
      "error task-twice: task a is 9000 times at S1",
    ]);
  });

  it("leaves no station without tasks where it is listed at one more", () => {
    expect(told(three(), "stations: [{tasks: [a, b]}, {tasks: [a]}, {tasks: [c]}]", 60)).toEqual([
      "error task-twice: task a is at S1 and S2",
    ]);
  });
});

describe("The efficiency that the policy asks for", () => {
  it("says that those who repair beside the line are not among its people", () => {
    // 10 % fail: 1/9 repair of 60 s for each good unit, the work of one person; a is done 10/9 times: 33.333 s and 30 s of 2 x 60 s.
    const tested = (test: string) =>
      lineOf(
        `unit: s\npolicy: {min-efficiency: 90 %}\ntasks: {a: {time: 30${test}}, b: {time: 30, after: a}}\n`,
      );
    const plan = "stations: [{tasks: [a]}, {tasks: [b]}]";
    expect(told(tested(", test: {fail: 10 %, repair: 60, return-to: a}"), plan, 60)).toEqual([
      "error min-efficiency: the efficiency at the pace is 52.8 %, over all 2 people, those for repairs not among them; the policy asks for 90 %",
    ]);
    expect(told(tested(""), plan, 60)).toEqual([
      "error min-efficiency: the efficiency at the pace is 50 %, over all 2 people; the policy asks for 90 %",
    ]);
  });
});

describe("Stations above the proved least", () => {
  const allowed = (count: number) => three(`policy: {max-above-least: ${count}}`);

  it("are told where the policy allows fewer", () => {
    expect(told(allowed(0), APART, 60, { bound: 2, found: 2 })).toEqual([
      "error max-above-least: the plan has 3 stations, 2 are the proved least; the policy allows no more than the least",
    ]);
    expect(told(allowed(1), APART, 60, { bound: 2, found: 2 })).toEqual([]);
  });

  it("are a fault where fewer are known to be enough, and a warning where that is open", () => {
    expect(told(allowed(0), APART, 60, { bound: 1, found: 2 })).toEqual([
      "error max-above-least: the plan has 3 stations, 2 are enough; the policy allows no more than the least",
    ]);
    expect(told(allowed(1), APART, 60, { bound: 1, found: 2 })).toEqual([
      "warning max-above-least: the plan has 3 stations; at least 1 are needed and 2 are enough; which of them is the least is not proved; the policy allows 1 above the least",
    ]);
    expect(told(allowed(2), APART, 60, { bound: 1, found: 2 })).toEqual([]);
    expect(told(allowed(0), APART, 60)).toEqual([
      "note max-above-least: cannot tell the least number of stations: no plan that keeps the rules was found; the policy allows no more than the least",
    ]);
  });
});

describe("Shares of a load", () => {
  it("are shown with so many decimals that more than all is told from all", () => {
    const line = lineOf("unit: s\ntasks: {a: 60.00001}\n");
    expect(told(line, "stations: [{tasks: [a]}]", 60)).toEqual([
      "error slower-than-pace: S1 takes 60.00001 s, 100.00002 % of its working time of 60 s",
    ]);
  });
});

describe("A task that failures have done more than once", () => {
  const line = lineOf(
    "unit: s\ntasks: {a: 5, b: {time: 55, after: a, test: {fail: 10 %, repair: 60, return-to: b}}}\n",
  );

  it("is told with how often it is done: 55 / 0.9 = 61.111 s", () => {
    expect(told(line, "stations: [{tasks: [a]}, {tasks: [b]}]", 60)).toEqual([
      "error slower-than-pace: S2 takes 61.111 s (55 s x 1.1111 times per good unit), 101.9 % of its working time of 60 s; the line then makes 58.91 good units an hour instead of 60",
    ]);
  });

  it("has its name beside it where it shares its station", () => {
    const [first] = told(line, "stations: [{tasks: [a, b]}]", 60);
    expect(first).toContain("S1 takes 66.111 s (b: 55 s x 1.1111 times per good unit), ");
  });
});

describe("What a plan was made for", () => {
  const line = three();
  const print = fingerprintOf(line);
  const madeFor = (words: string, seconds = 60) =>
    check(line, `made-for: {${words}}\n${APART}`, seconds).findings.map(
      ({ rule, message }) => `${rule}: ${message}`,
    );

  it("is compared in thousandths of a second, as it is written", () => {
    expect(madeFor(`line-cycle: 56.017 s, fingerprint: ${print}`, 56.0167)).toEqual([]);
    expect(madeFor(`line-cycle: 1 min, fingerprint: "${print}"`)).toEqual([]);
    expect(madeFor(`line-cycle: 0.9 min, fingerprint: ${print}`)).toEqual([
      "other-pace: the line cycle was 54 s when the plan was made, and is 60 s now: 11.1 % longer",
    ]);
    expect(madeFor(`line-cycle: 60.002 s, fingerprint: ${print}`)).toEqual([
      "other-pace: the line cycle was 60.002 s when the plan was made, and is 60 s now: 0.0033 % shorter",
    ]);
  });

  it("may be said in part", () => {
    expect(madeFor("line-cycle: 60 s")).toEqual([
      "made-for: cannot tell whether times, precedences or rules have changed since the plan was made: it does not say which it was made for (no fingerprint)",
    ]);
    expect(madeFor(`fingerprint: ${print}`)).toEqual([
      "made-for: cannot tell whether the pace has changed since the plan was made: it does not say which it was made for (no line-cycle)",
    ]);
  });
});

describe("Stations that the floor does not have", () => {
  it("are told with the nearest that it has", () => {
    const line = lineOf("unit: s\nstations: [{id: press}, {id: pack}]\ntasks: {a: 30, b: 30}\n");
    expect(told(line, "stations: [{id: press, tasks: [a]}, {id: pak, tasks: [b]}]", 60)).toEqual([
      "warning behind-floor: pak does not stand on the floor; nearest: pack; it counts as one more station behind it",
    ]);
    expect(told(line, "stations: [{tasks: [a]}, {tasks: [b]}]", 60)).toEqual([]);
  });

  it("are none where the file lists no stations and S1, S2 and so on count them", () => {
    const line = lineOf("unit: s\ntasks: {a: 30, b: {time: 30, not-before: S2}, c: 30}\n");
    expect(told(line, "stations: [{id: S2, tasks: [a, b]}, {id: S3, tasks: [c]}]", 60)).toEqual([]);
    expect(told(line, "stations: [{id: S2, tasks: [a, b]}, {id: pack, tasks: [c]}]", 60)).toEqual([
      "warning behind-floor: pack does not stand on the floor, which has S1, S2; it counts as one more station behind it",
    ]);
  });
});

describe("The loads of a check", () => {
  const tasks = ["a", "b", "c", "d", "e"];
  const times = fc.array(fc.integer({ min: 0, max: 40 }), { minLength: 5, maxLength: 5 });
  const stations = fc.array(fc.integer({ min: 0, max: 2 }), { minLength: 5, maxLength: 5 });

  it("are too slow exactly where the verifier finds more than the working time", () => {
    fc.assert(
      fc.property(times, stations, fc.integer({ min: 5, max: 60 }), (of, at, seconds) => {
        const line = lineOf(
          `unit: s\ntasks: {${tasks.map((id, task) => `${id}: ${of[task]}`).join(", ")}}\n`,
        );
        const rows = [0, 1, 2].map(
          (station) => `{tasks: [${tasks.filter((_, task) => at[task] === station).join(", ")}]}`,
        );
        const text = `stations: [${rows.join(", ")}]`;
        const { plan } = readPlan("p.yaml", `format: linepoise-plan/1\n${text}`, line);
        const pace = { ...paceOf(seconds), planTo: ONE };
        const wrong = verifyPlan(line, pace, plan!, false).filter(({ rule }) => rule === "load");
        const slow = check(line, text, seconds).findings.filter(({ rule }) => rule === "slower-than-pace");
        expect(slow.map(({ station }) => station)).toEqual(wrong.map(({ station }) => station));
      }),
      { seed: 7 },
    );
  });
});

describe("Benches of a plan", () => {
  it("count with their people, work and idle time", () => {
    const line = three();
    const text = "stations: [{tasks: [c]}]\nbenches: [{tasks: [a]}, {tasks: [b], places: 2}]";
    const { measures, findings } = check(line, text, 40);
    // 90 s of work; 40 s at the station, 40 s at B1 and 80 s at the two places of B2
    expect(findings.map(({ rule }) => rule)).toEqual(["made-for"]);
    expect(measures).toMatchObject({ stations: 1, operators: 4, cycleOfPlan: { num: 30_000_000n } });
    expect(measures?.workContent).toEqual({ num: 90_000_000n, den: 1n });
    expect(measures?.efficiencyAtPace).toEqual({ num: 9n, den: 16n });
    expect(measures?.idlePerUnit).toEqual({ num: 70_000_000n, den: 1n });
  });
});

describe("The register of rules", () => {
  it("names each rule once, with what it looks for", () => {
    expect(new Set(CHECK_RULES.map(({ name }) => name)).size).toBe(CHECK_RULES.length);
    expect(CHECK_RULES.filter(({ purpose }) => !/^[A-Z].*\.$/u.test(purpose))).toEqual([]);
  });
});
