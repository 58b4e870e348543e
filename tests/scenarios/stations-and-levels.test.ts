import { describe, expect, it } from "vitest";
import { readClassicLines, readLeastCycles } from "../tools/read-classic-lines.js";
import { runLinepoise } from "../tools/run-linepoise.js";

/** A fork of eight tasks: A before C, C before D and E, D before F, E before G; B, F and G before H. */
const FORK =
  "line: fork\nunit: s\ntasks: {A: 50, B: 40, C: {time: 20, after: A}, D: {time: 45, after: C}, E: {time: 20, after: C}, F: {time: 25, after: D}, G: {time: 15, after: E}, H: {time: 35, after: [B, F, G]}}\n";

async function ask(line: string, ...options: string[]) {
  const args = ["balance", "line.yaml", "--json", ...options];
  const { status, stdout, stderr } = await runLinepoise({ args, files: { "line.yaml": line } });
  return { status, stderr, answer: stdout === "" ? null : JSON.parse(stdout) };
}

const loads = (answer: { stations: { seconds: number }[] }) => answer.stations.map(({ seconds }) => seconds);

describe("even loads", () => {
  it("bring the slowest of four stations to 70 s, proved, where largest candidate leaves 75 s", async () => {
    const rule = await ask(FORK, "--cycle", "75", "--method", "largest-candidate");
    expect(loads(rule.answer)).toEqual([70, 70, 75, 35]);
    const { answer } = await ask(FORK, "--cycle", "75");
    expect(answer.level).toMatchObject({ outcome: "proved", boundSeconds: 70 });
    expect([answer.measures.stations, answer.measures.cycleOfPlanSeconds]).toEqual([4, 70]);
  });

  it("are left as they come with --no-level, for the same stations", async () => {
    const { answer } = await ask(FORK, "--cycle", "75", "--no-level");
    expect(answer.level).toBeNull();
    expect(answer.measures.stations).toBe(4);
  });

  it("count a task alone over the limit with its own time", async () => {
    const line =
      "line: x\nunit: s\ndemand: 30 per hour\nplan-to: 85 %\ntasks: {a: 110, b: 60, c: 40, d: 20}\n";
    const { answer } = await ask(line);
    expect(answer.level).toMatchObject({ outcome: "proved", boundSeconds: 110 });
    expect(answer.measures.cycleOfPlanSeconds).toBe(110);
  });

  it("include handling in their bound as the cycle of the plan does", async () => {
    const line = "line: x\nunit: s\ndemand: 60 per hour\nhandling: 5 s\ntasks: {a: 30, b: 30, c: 30}\n";
    const { answer } = await ask(line);
    expect([answer.level.boundSeconds, answer.measures.cycleOfPlanSeconds]).toEqual([35, 35]);
  });
});

describe("a fixed number of stations", () => {
  it("gives four stations a cycle of 70 s, proved, between what three and five can do", async () => {
    const { answer } = await ask(FORK, "--stations", "4");
    expect([answer.outcome, answer.bound.stations, answer.bound.cycleSeconds]).toEqual(["proved", null, 70]);
    expect(answer.rates.map((rate: { stations: number }) => rate.stations)).toEqual([3, 4, 5]);
    const cycles = answer.rates.map((rate: { cycleOfPlanSeconds: number }) => rate.cycleOfPlanSeconds);
    expect(cycles[0]).toBeGreaterThan(70);
    expect(cycles[2]).toBeLessThanOrEqual(70);
    expect(answer.rates[1].unitsPerHour).toBe(51.428571);
  });

  it("agrees with the published least cycles of lines of up to 30 tasks (Scholl 1993)", async () => {
    const lines = readClassicLines();
    const small = readLeastCycles()
      .filter(({ line }) => (lines.get(line)?.times.length ?? 99) <= 30)
      .filter((_, at) => at % 2 === 0);
    expect(small.length).toBeGreaterThan(5);
    for (const { line, stations, lower, upper } of small) {
      const { times, precedence } = lines.get(line)!;
      const tasks = times.map((time, at) => {
        const after = precedence.filter(([, later]) => later === at + 1).map(([earlier]) => earlier);
        return `  ${at + 1}: {time: ${time}, after: [${after.join(", ")}]}`;
      });
      const { answer } = await ask(
        ["line: x", "unit: s", "tasks:", ...tasks, ""].join("\n"),
        "--stations",
        `${stations}`,
      );
      expect([line, stations, answer.outcome]).toEqual([line, stations, "proved"]);
      expect(answer.bound.cycleSeconds).toBeGreaterThanOrEqual(lower);
      expect(answer.bound.cycleSeconds).toBeLessThanOrEqual(upper);
    }
  });

  it("makes what its cycle allows in a shift, and says so where the demand needs more", async () => {
    const line = `${FORK}demand: 450 per shift\ncalendar: {shifts: {day: {length: 7.5 h}}}\nuptime: 90 %\nyield: 95 %\n`;
    const { answer } = await ask(line, "--stations", "4");
    // 27 000 s x 0.9 x 0.95 / 70 s = 329.8; an hour: 3600 x 0.855 / 70 = 43.97; the demand needs 60 s x 0.855 = 51.3 s.
    expect(answer.measures.outputPerShift).toBe(329);
    expect(answer.rates[1].unitsPerHour).toBe(43.971429);
    expect(answer.findings.map(({ rule }: { rule: string }) => rule)).toContain("slower-than-demand");
    expect(answer.pace.taktSeconds).toBe(60);
  });

  it.each([
    ["--stations", "0"],
    ["--stations", "9"],
    ["--stations", "7.9"],
    ["--stations", "1e3"],
    ["--stations", "0x7"],
    ["--stations", "4", "--cycle", "75"],
    ["--stations", "4", "--method", "columns"],
    ["--stations", "4", "--strict-limit"],
    ["--stations", "4", "--no-level"],
    ["--stations", "4", "--stations", "4"],
  ])("refuses %j %j %j %j with status 2 and nothing on standard output", async (...options) => {
    const { status, stderr, answer } = await ask(FORK, ...options);
    expect([status, answer]).toEqual([2, null]);
    expect(stderr).toMatch(/^error: /u);
  });
});

describe("lines with tasks of no time", () => {
  it("keep the number of stations asked for, each with its own answer", async () => {
    const line = "line: z\nunit: s\ntasks: {a: 10, b: {time: 0, after: a}, c: {time: 0, after: b}}\n";
    for (const stations of [1, 2, 3]) {
      const { answer } = await ask(line, "--stations", `${stations}`);
      expect([answer.outcome, answer.measures.stations, answer.bound.cycleSeconds]).toEqual([
        "proved",
        stations,
        10,
      ]);
    }
  });

  it("have no rate and no efficiency where no task takes any time", async () => {
    const line = "line: z\nunit: s\ndemand: 100 per hour\ntasks: {a: 0, b: {time: 0, after: a}}\n";
    const { status, answer } = await ask(line, "--stations", "2");
    expect([status, answer.measures.efficiencyAtPace, answer.rates[1].unitsPerHour]).toEqual([0, null, null]);
  });

  it("share their stations so that the loads are smoothest", async () => {
    const line =
      "line: s\nunit: s\ntasks: {z: 0, a: {time: 40, after: z}, b: {time: 20, after: a}, c: {time: 10, after: b}}\n";
    const { answer } = await ask(line, "--stations", "3");
    expect(loads(answer)).toEqual([40, 20, 10]);
  });
});

describe("a demand beside a fixed number of stations", () => {
  it("is only compared: one that no line could meet is a warning", async () => {
    const { status, answer } = await ask(
      `${FORK}handling: 4 s\ncalendar: {shifts: {day: {length: 7.5 h}}}\n`,
      "--stations",
      "4",
      "--demand",
      "10000000 per day",
    );
    expect([status, answer.findings.map(({ rule }: { rule: string }) => rule)]).toEqual([0, ["no-pace"]]);
  });

  it("is met without the reserve of plan-to, and the answer says so", async () => {
    const line = `${FORK}demand: 50 per hour\nplan-to: 90 %\n`;
    const { answer } = await ask(line, "--stations", "4");
    expect(answer.findings.map(({ rule }: { rule: string }) => rule)).toEqual(["no-reserve"]);
  });
});
