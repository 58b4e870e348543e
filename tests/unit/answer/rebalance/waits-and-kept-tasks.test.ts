import { describe, expect, it } from "vitest";
import { runLinepoise } from "../../../tools/run-linepoise.js";

/** What a rebalance of a short line came to: its rows, and the moves of the plan shown. */
async function rebalance(demand: string, tasks: string, stations: Record<string, string>, ...more: string[]) {
  const rows = Object.entries(stations).map(([id, own]) => `  - {id: ${id}, tasks: [${own}]}`);
  const { status, stdout } = await runLinepoise({
    args: ["rebalance", "short.line.yaml", "--from", "today.plan.yaml", "--json", ...more],
    files: {
      "short.line.yaml": `line: Short\nunit: s\ndemand: ${demand}\ntasks: {${tasks}}\n`,
      "today.plan.yaml": ["format: linepoise-plan/1", "line: short.line.yaml", "stations:", ...rows].join(
        "\n",
      ),
    },
  });
  const answer: {
    plan: { stations: { id: string; tasks: string[] }[] };
    wayThere: { renamed: unknown[] } | null;
    tradeOffs: { people: number; cost: number; outcome: string; moves: { task: string }[] }[];
    changes: { station: string; gets: { task: string }[] }[];
  } = JSON.parse(stdout);
  const [first] = answer.tradeOffs;
  return {
    status,
    rows: answer.tradeOffs.map(({ people, cost, outcome }) => [people, cost, outcome]),
    moved: first?.moves.map(({ task }) => task),
    stations: answer.plan.stations.map(({ id, tasks }) => `${id}: ${tasks.join(" ")}`),
    renamed: answer.wayThere?.renamed,
    gets: answer.changes.flatMap(({ gets }) => gets.map(({ task }) => task)),
  };
}

it("leaves a plan as it is whose stations are numbered with gaps, for a wait between them", async () => {
  const tasks = "t1: 10, t2: {time: 60, after: {task: t1, wait: 5 min}}";
  const { status, rows } = await rebalance("50 per hour", tasks, { S1: "t1", S4: "t2" });
  expect([status, rows]).toEqual([0, [[2, 0, "proved"]]]);
});

it("puts one task in a new station at the front, where a wait forbids that it stays with what waits for it", async () => {
  const tasks =
    "t1: 19, t2: 26, t3: {time: 8, after: t2}, t4: {time: 6, after: [{task: t1, wait: 10 min}, t3]}";
  for (const more of [[], ["--max-moves", "1"]]) {
    const { status, rows, moved } = await rebalance("70 per hour", tasks, { S1: "t2, t1, t3, t4" }, ...more);
    expect([status, rows, moved]).toEqual([0, [[2, 1, "proved"]], ["t1"]]);
  }
});

it("keeps a task at its station though that stands further back, where a new one comes in between", async () => {
  const tasks = "t1: 37, t2: 19, t3: {time: 24, after: {task: t2, stations: 2}}, t4: {time: 11, after: t3}";
  for (const more of [[], ["--keep", "t3"]]) {
    const { rows, moved } = await rebalance("80 per hour", tasks, { S1: "t1, t2", S2: "t3, t4" }, ...more);
    expect([rows, moved]).toEqual([[[3, 1, "proved"]], ["t1"]]);
  }
});

it("moves a dear task for a cheap one that is to be kept, and says so at the stations, too", async () => {
  const tasks = "a: 20, b: {time: 30, move-cost: 3}, c: 40";
  const today = { S1: "a, b", S2: "c" };
  const kept = await rebalance("80 per hour", tasks, today, "--keep", "a");
  expect(kept).toMatchObject({ rows: [[3, 3, "proved"]], moved: ["b"], gets: ["b"] });
  const free = await rebalance("80 per hour", tasks, today);
  expect(free).toMatchObject({ rows: [[3, 1, "proved"]], moved: ["a"], gets: ["a"] });
});

describe("where ids tell how far apart stations stand, with a gap between S1 and S4 today", () => {
  const tasks =
    "t1: 40, t2: {time: 40, after: {task: t1, stations: 2}}, t3: {time: 30, after: t2}, t4: {time: 20, after: t3}, t5: {time: 10, after: t4}";
  const today = { S1: "t1", S4: "t2", S5: "t3, t4", S6: "t5" };

  it.each([
    // 75 an hour are 48 s: t4 leaves t3.
    ["75 per hour", ["S1: t1", "S4: t2", "S5: t3", "S6: t4 t5"]],
    // 60 s hold t3, t4 and t5 at one station.
    ["60 per hour", ["S1: t1", "S4: t2", "S5: t3 t4 t5"]],
  ])("stations of today keep their ids at %s", async (demand, stations) => {
    const answer = await rebalance(demand, tasks, today);
    expect([answer.stations, answer.renamed]).toEqual([stations, []]);
  });

  it("a new station counts on behind them", async () => {
    // At 90 an hour, 40 s, t5 has no room beside t4 at S6 when t4 takes 35 s.
    const longer = tasks.replace("t4: {time: 20", "t4: {time: 35");
    const answer = await rebalance("90 per hour", longer, { S1: "t1", S4: "t2", S5: "t3", S6: "t4, t5" });
    expect([answer.stations, answer.renamed]).toEqual([
      ["S1: t1", "S4: t2", "S5: t3", "S6: t4", "S7: t5"],
      [],
    ]);
  });
});
