import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { movesBetween } from "../../../../src/answer/rebalance/match-stations.js";
import { planOf } from "../../../../src/plan/plan.js";
import { lineOf, numbersOf } from "../../../tools/line-of.js";
import { runLinepoise } from "../../../tools/run-linepoise.js";

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 120_000;

interface Row {
  readonly people: number;
  readonly stations: number;
  readonly moves: readonly { readonly task: string }[];
  readonly cost: number;
  readonly leastCost: number;
  readonly leastMoves: number;
  readonly outcome: string;
}

const plan = (stations: Record<string, string>) =>
  [
    "format: linepoise-plan/1",
    "stations:",
    ...Object.entries(stations).map(([id, own]) => `  - {id: ${id}, tasks: [${own}]}`),
  ].join("\n");

async function rebalance(line: string, today: string, ...more: readonly string[]) {
  const { status, stdout, stderr } = await runLinepoise({
    args: ["rebalance", "own.line.yaml", "--from", "today.plan.yaml", "--json", ...more],
    files: { "own.line.yaml": line, "today.plan.yaml": today },
  });
  const answer: {
    readonly moves: Row["moves"];
    readonly tradeOffs: readonly Row[];
    readonly outcome: string;
    readonly plan: { readonly bound: unknown; readonly findings: readonly unknown[] };
    readonly withinLimits: {
      readonly plan: Row | null;
      readonly bound: { readonly stations: number };
    } | null;
  } = JSON.parse(stdout);
  const told = answer.tradeOffs.map(({ people, stations, moves, cost }) => [
    people,
    moves.length,
    cost,
    stations,
  ]);
  return { status, stderr, answer, told, moved: answer.moves.map(({ task }) => task) };
}

it("fewer people come first, then the fewest moves, at as many stations as today", {
  timeout: LONGEST_TEST,
}, async () => {
  const line = readFileSync(new URL("../../../../examples/two-models.line.yaml", import.meta.url), "utf8");
  const own = await runLinepoise({
    args: ["balance", "two-models.line.yaml", "--write", "own.plan.yaml"],
    files: { "two-models.line.yaml": line },
  });
  const { told } = await rebalance(line, own.files["own.plan.yaml"]!, "--demand", "300 per day");
  // 9 on the line and one for repairs, 10 in all.
  expect(told).toEqual([
    [9, 2, 2, 5],
    [10, 0, 0, 5],
  ]);
});

describe("two tasks of 30 s at two stations, 4 points each, at 72 s", () => {
  const line = "unit: s\ntasks: {a: {time: 30, move-cost: 4}, b: {time: 30, move-cost: 4}}\n";
  const today = plan({ S1: "a", S2: "b" });
  const ask = (...more: string[]) => rebalance(line, today, "--cycle", "72 s", ...more);

  it.each([
    [["--max-moves", "1"], 1],
    [["--max-moves", "0"], 0],
    [["--max-move-cost", "4"], 1],
    [["--max-move-cost", "3"], 0],
    [["--max-moves", "1", "--max-move-cost", "3"], 0],
    [["--max-moves", "0", "--max-move-cost", "4"], 0],
    [["--max-moves", "1", "--max-move-cost", "4"], 1],
  ])("counts tasks for --max-moves and points for --max-move-cost: %s", async (more, moves) => {
    const { status, moved, told, answer } = await ask(...more);
    expect([status, moved.length]).toEqual([0, moves]);
    expect(told).toEqual([
      [1, 1, 4, 1],
      [2, 0, 0, 2],
    ]);
    expect(answer.tradeOffs.map(({ leastMoves, leastCost }) => [leastMoves, leastCost])).toEqual([
      [1, 4],
      [0, 0],
    ]);
  });
});

it("few moves of many points are shown where moves are limited, though more moves cost less", async () => {
  // 70 s at S1 today: at 50 s a task of 20 s leaves (5 points), or two of 10 s (1 point each).
  const line =
    "unit: s\ntasks: {a: {time: 20, move-cost: 5}, b: 10, c: 10, d: {time: 30, move-cost: 9}, e: 30}\n";
  const today = plan({ S1: "a, b, c, d", S2: "e" });
  const free = await rebalance(line, today, "--cycle", "50 s");
  expect(free.told).toEqual([[2, 2, 2, 2]]);
  const one = await rebalance(line, today, "--cycle", "50 s", "--max-moves", "1");
  expect(one.told).toContainEqual([2, 1, 5, 2]);
  expect([one.status, one.moved, one.answer.outcome]).toEqual([0, ["a"], "proved"]);
  const none = await rebalance(line, today, "--cycle", "50 s", "--max-moves", "1", "--max-move-cost", "4");
  expect([none.status, none.answer.outcome]).toEqual([1, "infeasible"]);
});

it("stations are matched with fewer moves of more points where only so many moves are allowed", () => {
  const line = lineOf("unit: s\ntasks: {a: {time: 10, move-cost: 5}, b: 10, c: 10}\n");
  const of = (...stations: string[]) => planOf(stations.map((ids) => numbersOf(line, ...ids.split(" "))));
  const [today, after] = [of("a", "b c"), of("b c", "a")];
  const moved = (most?: number) =>
    movesBetween(line, today, after, [5, 1, 1], most).map(({ task }) => line.tasks[task]!.id);
  // The order of flow lets either a stay or both of the others.
  expect([moved(), moved(1)]).toEqual([["b", "c"], ["a"]]);
});

describe("a plan that check passes", () => {
  it.each(["f1", "f3", "f11", "f13"])(
    "needs no move and no more people than it has, however early the search ends: floor %s",
    async (name) => {
      const read = (path: string) =>
        readFileSync(new URL(`../../../../shared/floors/${name}.${path}.yaml`, import.meta.url), "utf8");
      const [line, today] = [read("line"), read("plan")];
      const still = await rebalance(line, today, "--nodes", "1", "--max-moves", "0");
      expect([still.status, still.moved]).toEqual([0, []]);
      const free = await rebalance(line, today, "--nodes", "1");
      const row = free.answer.tradeOffs.find(({ moves }) => moves.length === 0)!;
      expect(row.cost).toBe(0);
      expect(free.answer.tradeOffs[0]!.people).toBeLessThanOrEqual(row.people);
    },
    LONGEST_TEST,
  );

  it("stays as it is where its stations have gaps in their ids, behind a floor of named ones", async () => {
    const line =
      "unit: s\nstations: [{id: bay}, {id: dock}]\ntasks: {a: 50, b: {time: 50, after: a}, c: {time: 30, after: b}}\n";
    const today = plan({ bay: "a", S7: "b", kiosk: "c" });
    for (const more of [[], ["--nodes", "1"], ["--max-moves", "0"]]) {
      const { status, moved, told } = await rebalance(line, today, "--cycle", "60 s", ...more);
      expect([status, moved, told.at(-1)]).toEqual([0, [], [3, 0, 0, 3]]);
    }
    // One move at 40 s of c: no station of today is renamed for it.
    const longer = line.replace(
      "c: {time: 30, after: b}",
      "c: {time: 20, after: b}, d: {time: 40, after: c}",
    );
    const next = await rebalance(longer, plan({ bay: "a", S7: "b", kiosk: "c, d" }), "--cycle", "50 s");
    expect(next.told).toEqual([[4, 1, 1, 4]]);
  });
});

describe("a 30 s, b 26 s and c 50 s at 60 an hour, planned to 90 %, with a and b at one station today", () => {
  const line = "unit: s\ndemand: 60 per hour\nplan-to: 90 %\ntasks: {a: 30, b: 26, c: 50}\n";
  const today = plan({ S1: "a, b", S2: "c" });

  it("stays as it is: 56 s are more than the station limit of 54 s and less than the working time of 60 s", async () => {
    for (const more of [[], ["--max-moves", "0"], ["--keep", "a"], ["--nodes", "1"]]) {
      const { status, told, answer } = await rebalance(line, today, ...more);
      expect([status, told, answer.outcome]).toEqual([0, [[2, 0, 0, 2]], "found"]);
    }
    const { answer } = await rebalance(line, today);
    // b to a station of its own: 30, 26 and 50 s are all within 54 s.
    expect(answer.withinLimits!.plan).toMatchObject({ people: 3, stations: 3, cost: 1 });
    expect(answer.withinLimits!.bound.stations).toBe(3);
    expect(answer.plan.bound).toBe(null);
    expect(answer.plan.findings).toMatchObject([{ rule: "over-limit", severity: "warning", station: "S1" }]);
  });

  it("stays as it is at each of two demands at which check passes it", async () => {
    const asked = async (...more: readonly string[]) => {
      const { status, stdout } = await runLinepoise({
        args: ["rebalance", "own.line.yaml", "--from", "today.plan.yaml", "--json", ...more],
        files: { "own.line.yaml": line, "today.plan.yaml": today },
      });
      return { status, answer: JSON.parse(stdout) };
    };
    // 3,600 s / 62 = 58.06 s, of which the plan takes 56 s; a station may be planned to 52.26 s.
    const { status, answer } = await asked("--demand", "60, 62 per hour");
    expect([status, answer.cost, answer.leastCost, answer.outcome]).toEqual([0, 0, 0, "found"]);
    for (const { people, plan: each } of answer.demands) {
      expect([people, each.stations.map((station: { tasks: unknown }) => station.tasks)]).toEqual([
        2,
        [["a", "b"], ["c"]],
      ]);
      expect(each.findings).toMatchObject([{ rule: "over-limit", severity: "warning", station: "S1" }]);
    }
    // At 66 an hour, 54.55 s, it does not hold: b moves, and not before.
    const faster = await asked("--demand", "62, 66 per hour");
    expect(faster.answer.demands.map(({ people }: { people: number }) => people)).toEqual([2, 3]);
    expect([faster.answer.cost, faster.answer.fromToday.moves]).toEqual([1, []]);
    const strict = await asked("--demand", "60, 62 per hour", "--strict-limit");
    expect(strict.answer.demands.map(({ people }: { people: number }) => people)).toEqual([3, 3]);
  });

  it("moves b where limits are strict, and where the policy allows no more than 92 %", async () => {
    const strict = await rebalance(line, today, "--strict-limit");
    expect([strict.status, strict.moved, strict.told]).toEqual([0, ["b"], [[3, 1, 1, 3]]]);
    // 56 of 60 s are 93.3 %, which check refuses.
    const policy = await rebalance(`policy: {max-load: 92 %}\n${line}`, today);
    expect([policy.status, policy.moved, policy.answer.withinLimits]).toEqual([0, ["b"], null]);
    const still = await rebalance(`policy: {max-load: 94 %}\n${line}`, today);
    expect([still.status, still.moved]).toEqual([0, []]);
  });

  it("is told for which plans two stations are impossible", async () => {
    const { stdout } = await runLinepoise({
      args: ["rebalance", "own.line.yaml", "--from", "today.plan.yaml", "--max-moves", "1"],
      files: { "own.line.yaml": line, "today.plan.yaml": today },
    });
    const proof = stdout.slice(stdout.indexOf("PROOF")).replaceAll(/\s+/gu, " ");
    expect(proof).toContain(
      "Today's plan stays: check passes it, though S1 takes more than its station limit. To keep every limit takes 3 people and 1 move. What is proved is about plans that keep every limit: Proved: 2 stations are impossible",
    );
    expect(proof).toContain("every limit kept 3 people in all, after 1 move; --strict-limit shows that plan");
  });
});

describe("tasks that are to stay", () => {
  const line =
    "unit: s\ntasks: {A: 20, B: 30, C: {time: 25, after: A}, D: {time: 40, after: A}, E: {time: 45, after: [B, C]}, F: 10, G: 10}\n";
  const today = plan({ S1: "A, D", S2: "B, C", S3: "E, F", S4: "G" });

  it("are named with the reason and the cheapest way out where not all of them can", async () => {
    const { status, stderr, answer } = await rebalance(line, today, "--cycle", "55 s", "--keep", "A,D");
    expect([status, answer.outcome]).toEqual([1, "infeasible"]);
    expect(stderr).toBe("");
    const { stderr: told } = await runLinepoise({
      args: ["rebalance", "own.line.yaml", "--from", "today.plan.yaml", "--cycle", "55 s", "--keep", "A,D"],
      files: { "own.line.yaml": line, "today.plan.yaml": today },
    });
    expect(told).toContain(
      "no plan at this pace leaves A and D where they are: S1 holds 60 s, more than the working time of 55 s; the cheapest way out moves D from S1 to S4 and no other task, with 4 people in all",
    );
  });

  it("forbid no plan that leaves them where they are", async () => {
    const free = await rebalance(line, today, "--cycle", "55 s");
    const others = ["A", "B", "C", "E", "F", "G"];
    expect(free.moved).toEqual(["D"]);
    const kept = await rebalance(line, today, "--cycle", "55 s", "--keep", others.join());
    expect([kept.status, kept.told]).toEqual([0, free.told]);
  });
});

describe("the plan of another line", () => {
  const asked = (line: string, today: string, ...command: readonly string[]) =>
    runLinepoise({
      args: [...command, "--cycle", "60 s"],
      files: { "own.line.yaml": line, "today.plan.yaml": today },
    });
  const rebalanceIt = ["rebalance", "own.line.yaml", "--from", "today.plan.yaml"];
  const balanceIt = ["balance", "own.line.yaml", "--from", "today.plan.yaml"];
  const five = "unit: s\ntasks: {a: 20, b: 20, c: 20, d: 20, e: 20}\n";

  it.each([
    [plan({ S1: "glue", S2: "press, pack" }), "of its 3 tasks none is of own.line.yaml, which has 5 tasks"],
    [plan({ S1: "a, glue", S2: "press" }), "of its 3 tasks only 1 is of own.line.yaml, which has 5 tasks"],
    [
      plan({ S1: "a, b", S2: "glue, press, pack" }),
      "of its 5 tasks only 2 are of own.line.yaml, which has 5 tasks",
    ],
  ])("is refused in one line before its tasks are told one by one", async (today, words) => {
    for (const command of [rebalanceIt, balanceIt]) {
      const { status, stdout, stderr } = await asked(five, today, ...command);
      expect([status, stdout]).toEqual([2, ""]);
      expect(stderr).toContain(`the plan is one of another line: ${words} [other-line]`);
      expect(stderr).not.toContain("unknown");
    }
    const { status, stdout } = await asked(five, today, "check", "own.line.yaml", "today.plan.yaml");
    expect(status).toBe(1);
    expect(stdout).toContain("1 error; 2 stations");
    expect(stdout).toContain(words);
    expect(stdout).not.toMatch(/unknown|missing/u);
  });

  it.each([
    ["half of its tasks are of the line", plan({ S1: "a, b", S2: "glue, press" })],
    ["the product grew from its single task", plan({ S1: "a" })],
    ["the product shrank from many tasks", plan({ S1: "a, b, c", S2: "glue, press, pack, wrap, seal" })],
  ])("is none where %s", async (_, today) => {
    const { status, stderr } = await asked(five, today, ...rebalanceIt);
    expect([status, stderr.includes("other-line")]).toEqual([0, false]);
  });

  it("is that of last season for the line of two models, of which it has 8 tasks", async () => {
    const example = (name: string) =>
      readFileSync(new URL(`../../../../examples/${name}.yaml`, import.meta.url), "utf8");
    const { status, stderr } = await runLinepoise({
      args: rebalanceIt,
      files: { "own.line.yaml": example("two-models.line"), "today.plan.yaml": example("last-season.plan") },
    });
    expect(status).toBe(2);
    expect(stderr).toContain("of its 38 tasks only 8 are of own.line.yaml, which has 17 tasks");
  });
});

describe("Stations of today that do not stand on the floor", () => {
  it("keep their names where another of them goes, so that a task moves to the next one alone", async () => {
    // 10 + 40 + 39 = 89 s, one station at 200 s: a goes to S3, where the others are already.
    const line = "unit: s\nstations: [{id: S2}]\nchains: [[b, c]]\ntasks: {a: 10, b: 40, c: 39}\n";
    const { told, moved } = await rebalance(line, plan({ S1: "a", S3: "b, c" }), "--cycle", "200 s");
    expect(told).toEqual([
      [1, 1, 1, 1],
      [2, 0, 0, 2],
    ]);
    expect(moved).toEqual(["a"]);
  });
});
