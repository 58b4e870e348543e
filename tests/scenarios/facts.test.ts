import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type BalanceAnswer, readAnswer } from "../tools/read-answer.js";
import { runLinepoise } from "../tools/run-linepoise.js";
import { readScenario } from "../tools/scenario.js";

/** The line file `name` of a scenario, so that a rewritten scenario cannot change a fact unnoticed. */
function fileOf(scenario: string, name = "line.yaml"): string {
  const text = readFileSync(new URL(`${scenario}.scenario`, import.meta.url), "utf8");
  const file = readScenario(text).files[name];
  if (file === undefined) throw new Error(`${scenario} has no file ${name}`);
  return file;
}

const loads = ({ stations }: BalanceAnswer) => stations.map(({ seconds }) => seconds);
const contents = ({ stations }: BalanceAnswer) => stations.map(({ tasks }) => [...tasks].sort().join(""));
const proof = ({ outcome, measures }: BalanceAnswer) => [outcome, measures.stations];

describe("the sum that leads to the takt", () => {
  it.each([
    ["480 a day in two shifts of 8.5 h less 30 min", "breaks-come-off-the-shift", "line.yaml", 120],
    ["100 a day in 11 h", "twice-the-hours-and-twice-the-demand", "one-shift.yaml", 396],
    [
      "200 a day in 2 x 11 h",
      "twice-the-hours-and-twice-the-demand",
      "two-shifts-twice-the-demand.yaml",
      396,
    ],
    ["100 a day in 2 x 11 h", "twice-the-hours-and-twice-the-demand", "two-shifts-same-demand.yaml", 792],
    ["240 a day in 2 x 420 min", "stops-and-overtime-are-lines-of-their-own", "stops.yaml", 210],
    ["240 a day in 2 x 480 min", "stops-and-overtime-are-lines-of-their-own", "stops-and-overtime.yaml", 240],
    ["240 a day in 2 x 450 min", "stops-and-overtime-are-lines-of-their-own", "breaks-only.yaml", 225],
    ["300 a day in 7.5 h less 3 x 10 min", "changeovers-come-off-the-shift", "with.yaml", 84],
    ["300 a day in 7.5 h", "changeovers-come-off-the-shift", "without.yaml", 90],
    ["4,400 a month of 22 days", "monthly-demand-needs-its-working-days", "days-22.yaml", 135],
    ["4,400 a month of 30 days", "monthly-demand-needs-its-working-days", "days-30.yaml", 184.090909],
    ["435 a day in 26,970 s", "takt-line-cycle-and-slowest-station", "line.yaml", 62],
  ])("gives the takt for %s", async (_, scenario, name, taktSeconds) => {
    const { pace } = await readAnswer(fileOf(scenario, name), []);
    expect(pace.taktSeconds).toBe(taktSeconds);
  });

  it("gives 122.7 s for 4,400 a month of 20 days", async () => {
    const { pace } = await readAnswer(fileOf("monthly-demand-needs-its-working-days", "days-20.yaml"), []);
    expect(pace.taktSeconds).toBe(122.727273);
  });

  it("takes 85 % uptime off once: takt 120 s, line cycle 102 s, six people for 600 s", async () => {
    const { pace, measures } = await readAnswer(fileOf("losses-slow-the-line-once"), []);
    expect([pace.taktSeconds, pace.lineCycleSeconds, measures.operators]).toEqual([120, 102, 6]);
  });

  it("takes a scrapped tenth off the line cycle: 67.5 s become 60.75 s", async () => {
    const { pace } = await readAnswer(fileOf("scrap-divides"), []);
    expect([pace.taktSeconds, pace.lineCycleSeconds]).toEqual([67.5, 60.75]);
  });

  it("warns once where uptime and named stops may count a loss twice", async () => {
    const { findings } = await readAnswer(fileOf("losses-slow-the-line-once", "stops-too.yaml"), []);
    expect(findings.filter(({ severity }) => severity === "warning")).toHaveLength(1);
  });
});

describe("people for 1,000 s of work", () => {
  it.each([
    ["one-shift.yaml", 3],
    ["two-shifts-twice-the-demand.yaml", 3],
    ["two-shifts-same-demand.yaml", 2],
  ])("%s needs %i at a time", async (name, operators) => {
    const answer = await readAnswer(fileOf("twice-the-hours-and-twice-the-demand", name), []);
    expect([answer.outcome, answer.measures.operators]).toEqual(["proved", operators]);
  });
});

describe("precedence", () => {
  it("needs three stations forwards and backwards", async () => {
    const scenario = "reversed-arrows-need-as-many-stations";
    for (const name of ["forwards.yaml", "backwards.yaml"]) {
      const answer = await readAnswer(fileOf(scenario, name), ["--cycle", "2"]);
      expect([...proof(answer), answer.measures.workContentSeconds]).toEqual(["proved", 3, 276]);
    }
  });

  it("fills two stations by weights over all followers, three by largest candidate", async () => {
    const file = fileOf("weight-over-all-followers-saves-a-station");
    const byWeight = await readAnswer(file, ["--cycle", "60", "--method", "positional-weight"]);
    expect([contents(byWeight), loads(byWeight)]).toEqual([
      ["ABC", "DE"],
      [60, 60],
    ]);
    expect(byWeight.measures.efficiencyAtPace).toBe(1);
    const byTime = await readAnswer(file, ["--cycle", "60", "--method", "largest-candidate"]);
    expect(byTime.measures.stations).toBe(3);
    expect(proof(await readAnswer(file, ["--cycle", "60"]))).toEqual(["proved", 2]);
  });

  it.each([
    ["task-after-itself", /\bJ\b/],
    ["loop-is-printed-as-arrows", /hub.*rim.*spokes.*hub/],
    ["unknown-and-doubled-tasks", /AA/],
  ])("refuses %s by name", async (scenario, names) => {
    const answer = await readAnswer(fileOf(scenario), ["--cycle", "60"], 2);
    expect(answer.outcome).toBe("refused");
    expect(answer.findings.map(({ message }) => message).join("\n")).toMatch(names);
    expect(answer.findings.map(({ message }) => message).join("\n")).not.toContain("bell");
  });

  it("tells the doubled task and the unknown one in the same run", async () => {
    const { findings } = await readAnswer(fileOf("unknown-and-doubled-tasks"), ["--cycle", "60"], 2);
    expect(findings.map(({ line, severity }) => [line, severity])).toEqual([
      [5, "error"],
      [6, "error"],
    ]);
  });
});

describe("balancing", () => {
  it("largest candidate needs four stations for the kettle at 70 %, three are proved at 93.3 %", async () => {
    const file = fileOf("a-rule-needs-a-station-too-many");
    const byTime = await readAnswer(file, ["--cycle", "300", "--method", "largest-candidate"]);
    expect(loads(byTime)).toEqual([290, 120, 240, 190]);
    expect(byTime.measures.efficiencyAtPace).toBe(0.7);
    const byWeight = await readAnswer(file, ["--cycle", "300", "--method", "positional-weight"]);
    expect(loads(byWeight)).toEqual([250, 300, 290]);
    const best = await readAnswer(file, ["--cycle", "300"]);
    expect(proof(best)).toEqual(["proved", 3]);
    expect(best.measures.efficiencyAtPace).toBe(0.933333);
    expect(
      new Map(best.methods.map(({ method, stations }) => [method, stations])).get("largest-candidate"),
    ).toBe(4);
  });

  it("positional weight needs four stations for the basket, largest candidate three", async () => {
    const file = fileOf("the-other-rule-needs-a-station-too-many");
    const byWeight = await readAnswer(file, ["--cycle", "2", "--method", "positional-weight"]);
    expect(loads(byWeight)).toEqual([72, 72, 72, 60]);
    const byTime = await readAnswer(file, ["--cycle", "2", "--method", "largest-candidate"]);
    expect([contents(byTime), loads(byTime)]).toEqual([
      ["ade", "bcf", "g"],
      [108, 108, 60],
    ]);
    expect(proof(await readAnswer(file, ["--cycle", "2"]))).toEqual(["proved", 3]);
  });

  it("proves three stations where the work content would fit two", async () => {
    const answer = await readAnswer(fileOf("work-content-bound-out-of-reach"), ["--cycle", "60"]);
    expect([...proof(answer), answer.bound.stations]).toEqual(["proved", 3, 3]);
    expect(answer.measures.efficiencyAtPace).toBe(0.666667);
  });

  it.each([
    ["positional-weight", ["AC", "DE", "BF", "GH"], [70, 65, 65, 50]],
    ["most-followers", ["AC", "DE", "BF", "GH"], [70, 65, 65, 50]],
    ["largest-candidate", ["AC", "DF", "BEG", "H"], [70, 70, 75, 35]],
  ])("%s fills the trailer's four stations", async (method, stations, seconds) => {
    const file = fileOf("ties-and-the-order-of-the-file");
    const answer = await readAnswer(file, ["--cycle", "75", "--method", method]);
    expect([contents(answer), loads(answer)]).toEqual([stations, seconds]);
    const shuffled = fileOf("ties-and-the-order-of-the-file", "shuffled.yaml");
    expect(await readAnswer(shuffled, ["--cycle", "75", "--method", method])).toEqual(answer);
  });

  it.each(["best", "exact", "positional-weight", "largest-candidate", "columns", "most-followers"])(
    "0.1 + 0.2 + 0.3 min fill one station of 0.6 min by %s",
    async (method) => {
      const file = fileOf("tenths-of-minutes-add-up-exactly");
      const { measures } = await readAnswer(file, ["--cycle", "0.6", "--method", method]);
      expect([measures.stations, measures.efficiencyAtPace]).toEqual([1, 1]);
    },
  );

  it("a search that reaches its node limit shows the best plan, the bound and what it looked at", async () => {
    const file = fileOf("a-search-that-stops-says-so");
    const stopped = await readAnswer(file, ["--cycle", "60", "--nodes", "3"]);
    expect(stopped.outcome).toBe("found");
    expect([27, 28]).toContain(stopped.bound.stations);
    expect(stopped.search).toEqual({ nodes: 3, nodeLimit: 3, secondsLimit: null });
    expect(proof(await readAnswer(file, ["--cycle", "60"]))).toEqual(["proved", 28]);
  });

  it("a gate of 0 s shares the one station of its neighbours", async () => {
    const answer = await readAnswer(fileOf("a-task-of-no-time", "gate.yaml"), ["--cycle", "60"]);
    expect(answer.stations.map(({ tasks }) => tasks)).toEqual([["A", "gate", "B"]]);
    expect(loads(answer)).toEqual([60]);
  });

  it("a negative time is refused", async () => {
    const { outcome } = await readAnswer(fileOf("a-task-of-no-time", "negative.yaml"), ["--cycle", "60"], 2);
    expect(outcome).toBe("refused");
  });

  it("one task of 12 s loads its station to 20 %, three of 59 s to 98.3 %", async () => {
    const one = await readAnswer(fileOf("very-small-lines", "one.yaml"), ["--cycle", "60"]);
    expect([one.measures.stations, one.measures.efficiencyAtPace]).toEqual([1, 0.2]);
    const three = await readAnswer(fileOf("very-small-lines", "three.yaml"), ["--cycle", "60"]);
    expect([three.measures.stations, three.measures.efficiencyAtPace]).toEqual([1, 0.983333]);
  });

  it("a line without tasks is refused", async () => {
    const { outcome } = await readAnswer(fileOf("very-small-lines", "none.yaml"), ["--cycle", "60"], 2);
    expect(outcome).toBe("refused");
  });
});

describe("figures", () => {
  it("50, 55 and 45 s at 60 s: 83.3 % at the pace, 90.9 % at the slowest, smoothness 11.18 s", async () => {
    const { measures } = await readAnswer(fileOf("two-efficiencies-by-name"), ["--cycle", "60"]);
    expect(measures).toMatchObject({
      efficiencyAtPace: 0.833333,
      efficiencyAtSlowest: 0.909091,
      balanceDelayAtPace: 0.166667,
      balanceDelayAtSlowest: 0.090909,
      smoothnessSeconds: 11.18034,
      idleSecondsPerUnit: 30,
    });
  });

  it("five tasks of which no two fit 58 s need five stations at 76.6 %", async () => {
    const answer = await readAnswer(fileOf("no-two-tasks-fit-together"), ["--cycle", "58"]);
    expect([...proof(answer), answer.measures.efficiencyAtPace]).toEqual(["proved", 5, 0.765517]);
  });

  it("30 s idle a unit are 13,500 s a shift of 450 units", async () => {
    const { measures } = await readAnswer(fileOf("idle-per-unit-and-per-shift"), []);
    expect([measures.idleSecondsPerUnit, measures.idleSecondsPerShift]).toEqual([30, 13500]);
  });

  it("66 s a unit make 54 units an hour", async () => {
    const { measures } = await readAnswer(fileOf("units-round-down"), []);
    expect(measures.outputPerShift).toBe(54);
  });
});

describe("off the line", () => {
  it("a bench for lacing and truing takes two stations off the line: four people before, four after", async () => {
    const { outcome, measures, offLine } = await readAnswer(fileOf("a-bench-that-frees-nobody"), [
      "--cycle",
      "60",
    ]);
    expect([outcome, measures.stations]).toEqual(["proved", 4]);
    expect(offLine.map(({ tasks, joinsAt }) => [tasks, joinsAt])).toEqual([
      [["lace", "true"], "fit"],
      [["lace"], "true"],
    ]);
    expect(offLine[0]).toMatchObject({
      stationsBefore: 4,
      stationsAfter: 2,
      peopleBefore: 4,
      peopleAfter: 4,
    });
  });

  it("0.6 min of work at 120 an hour need two places: five people, 84 %, or 100 an hour", async () => {
    const answer = await readAnswer(fileOf("a-task-longer-than-the-cycle"), [], 1);
    expect(answer.outcome).toBe("infeasible");
    expect([answer.stations, answer.measures]).toEqual([[], null]);
    expect(answer.findings.filter(({ severity }) => severity === "error")).toHaveLength(1);
    const [long] = answer.offLine;
    expect(long).toMatchObject({ kind: "over-limit", tasks: ["press"], stationsAfter: 4, peopleAfter: 5 });
    expect(long!.reason).toMatch(/\b84 %.*\b100 good units per hour/);
  });
});

describe("what a file may say", () => {
  it("keeps the text of ids that look like numbers", async () => {
    const { stations } = await readAnswer(fileOf("ids-keep-their-text"), ["--cycle", "60"]);
    expect(stations.flatMap(({ tasks }) => tasks).sort()).toEqual(
      ["007", "0x1A", "1e3", "12345678901234567890", "7"].sort(),
    );
  });

  it("reads 1:30 as 90 s and NO as a name, also where the unit is min", async () => {
    const { stations } = await readAnswer(fileOf("no-is-a-name-and-1-30-a-time"), ["--cycle", "2"]);
    expect(stations.map(({ tasks, seconds }) => [tasks, seconds])).toEqual([[["NO", "off"], 120]]);
  });

  it("takes __proto__, constructor and toString for ids like any other", async () => {
    const { stations } = await readAnswer(fileOf("misspelt-keys", "odd-ids.yaml"), ["--cycle", "90"]);
    expect(stations.flatMap(({ tasks }) => tasks).sort()).toEqual(
      ["__proto__", "constructor", "toString"].sort(),
    );
  });

  it("refuses each of nine things that are no times", async () => {
    const { findings } = await readAnswer(fileOf("blank-times-are-no-zeros"), ["--cycle", "60"], 2);
    const errors = findings.filter(({ severity }) => severity === "error");
    expect([...new Set(errors.map(({ line }) => line))]).toEqual([4, 5, 6, 7, 8, 9, 10, 11, 12]);
  });

  it.each(["fraction", "glyph", "comma", "clock", "colon", "run-together"])(
    "reads seven and a half hours (%s) as 27,000 s or refuses them",
    async (name) => {
      const { status, stdout } = await runLinepoise({
        args: ["balance", "line.yaml", "--json"],
        files: { "line.yaml": fileOf("half-hours", `${name}.yaml`) },
      });
      const { outcome, pace } = JSON.parse(stdout) as BalanceAnswer;
      const read = status === 2 ? outcome : pace.taktSeconds;
      expect(name === "run-together" ? ["refused"] : ["refused", 90]).toContain(read);
    },
  );

  it("reads a length of 7.5 h as 27,000 s", async () => {
    const { pace } = await readAnswer(fileOf("half-hours", "point.yaml"), []);
    expect(pace.taktSeconds).toBe(90);
  });

  it("names the misspelt keys with the nearest known ones", async () => {
    const { findings } = await readAnswer(fileOf("misspelt-keys"), ["--cycle", "60"], 2);
    const messages = findings.map(({ message }) => message).join("\n");
    expect(messages).toMatch(/uptme.*uptime/);
    expect(messages).toMatch(/afer.*after/);
  });

  it.each(["empty", "comment", "two", "tab", "list"])("refuses the %s file by its name", async (name) => {
    const answer = await readAnswer(fileOf("files-that-hold-no-line", `${name}.yaml`), ["--cycle", "60"], 2);
    expect(answer.outcome).toBe("refused");
    expect(answer.findings.every(({ file, line }) => file === "line.yaml" && line !== null)).toBe(true);
  });
});
