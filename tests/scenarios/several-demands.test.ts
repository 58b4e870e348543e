import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { runLinepoise } from "../tools/run-linepoise.js";

const [LINE, PLAN] = ["cargo-bike.line.yaml", "last-season.plan.yaml"];
const read = (name: string) => readFileSync(new URL(`../../examples/${name}`, import.meta.url), "utf8");
const files: Record<string, string> = { [LINE]: read(LINE), [PLAN]: read(PLAN) };

interface Station {
  readonly id: string;
  readonly tasks: readonly string[];
}

interface Change {
  readonly moves: readonly { readonly task: string; readonly from: string; readonly to: string }[];
  readonly cost: number;
  readonly leastCost: number;
}

/** The station of each task. */
const stationOf = (stations: readonly Station[]) =>
  new Map(stations.flatMap(({ id, tasks }) => tasks.map((task) => [task, id] as const)));

it("A plan for each demand has the people of its balance, is written to its own file, and its moves lead to it from the one before", async () => {
  const args = ["rebalance", LINE, "--from", PLAN, "--demand", "140, 165, 190", "--nodes", "4000"];
  const {
    status,
    stdout,
    files: written,
  } = await runLinepoise({
    args: [...args, "--json", "--write", "bike-{demand}.plan.yaml"],
    files,
  });
  expect(status).toBe(0);
  const answer = JSON.parse(stdout);
  expect(answer.fromToday.demand).toEqual({ units: 165, period: "day" });
  let before: Map<string, string> | null = null;
  const moved = new Set<string>();
  for (const { demand, people, fewestPeople, plan, change } of answer.demands) {
    const name = `bike-${demand.units}.plan.yaml`;
    const at = ["--demand", `${demand.units} per day`];
    const [balanced, checked] = await Promise.all([
      runLinepoise({ args: ["balance", LINE, ...at, "--nodes", "4000", "--json"], files }),
      runLinepoise({ args: ["check", LINE, name, ...at, "--json"], files: written }),
    ]);
    const { measures } = JSON.parse(balanced.stdout);
    expect([people, fewestPeople]).toEqual([measures.peopleInAll, measures.peopleInAll]);
    const rules = JSON.parse(checked.stdout).plans[0].findings.filter(
      ({ severity }: { severity: string }) => severity === "error",
    );
    expect(rules.filter(({ rule }: { rule: string }) => !POLICY.includes(rule))).toEqual([]);
    const now = stationOf(plan.stations);
    if (before !== null) {
      const own: Change = change;
      expect(own.cost).toBe(own.moves.length);
      expect(own.leastCost).toBeLessThanOrEqual(own.cost);
      // Ids tell the stations of a chain, so whatever has another id now has moved.
      const differs = [...now].filter(([task, id]) => before!.get(task) !== id).map(([task]) => task);
      expect(own.moves.map(({ task }) => task).sort()).toEqual(differs.sort());
      for (const { task, from, to } of own.moves) {
        expect([from, to]).toEqual([before.get(task), now.get(task)]);
        moved.add(task);
      }
    }
    before = now;
  }
  const stays = [...before!.keys()].filter((task) => !moved.has(task));
  expect([...answer.stays].sort()).toEqual(stays.sort());
  const changes: Change[] = [
    answer.fromToday,
    ...answer.demands.flatMap(({ change }: { change: Change | null }) => change ?? []),
  ];
  expect(answer.cost).toBe(changes.reduce((sum, { cost }) => sum + cost, 0));
});

/** What the policy of the line asks for beyond its pace and rules. */
const POLICY = ["min-efficiency", "max-above-least"];

it("Two demands with as many people share a plan where its moves are fewer than a stop halfway", async () => {
  // Any way from today's plan to 400 per day takes as many moves as the shortest one, so no sum is below that.
  const line = [
    "unit: s",
    "demand: 300 per day",
    "calendar: {shifts: {early: {length: 7.5 h}, late: {length: 7.25 h}}}",
    "uptime: 95 %",
    "yield: 98 %",
    "handling: 3 s",
    "plan-to: 90 %",
    "models: {city: 50 %, cargo: 30 %, kids: 20 %}",
    "model-overload: 60 %",
    "tasks:",
    "  load: {time: 30, people: {city: 1, cargo: 2, kids: 1}}",
    "  fork: {time: {city: 26, cargo: 44, kids: 26}, after: load}",
    "  wheels: {time: 24, quantity: {city: 2, cargo: 3, kids: 2}, after: fork}",
    '  seats: {time: 18, quantity: {city: "-", cargo: 1, kids: 2}, after: load}',
    "  motor: {time: 62, after: load}",
    "  cables: {time: 40, after: [fork, motor]}",
    "  brakes: {time: 50, after: [wheels, cables]}",
    "  lights: {time: 35, after: cables}",
    '  box: {time: {city: "-", cargo: 55, kids: 70}, after: fork}',
    '  ride: {time: 45, after: [brakes, lights, box, seats], test: {fail: {city: 4 %, cargo: 10 %, kids: "-"}, repair: 5 min, return-to: brakes}}',
    "  audit: {time: 60, every: 10, after: ride}",
    "  label: {time: 20, after: ride}",
    "  pack: {time: {city: 50, cargo: 66, kids: 50}, after: [label, audit]}",
  ].join("\n");
  const today =
    "format: linepoise-plan/1\nstations: [{id: S1, tasks: [load, fork, wheels, seats]}, {id: S2, tasks: [motor, cables, lights]}, {id: S3, tasks: [brakes, box]}, {id: S4, tasks: [ride, label, audit, pack]}]\n";
  const ask = async (demand: string) => {
    const args = ["rebalance", "l.yaml", "--from", "p.yaml", "--demand", demand, "--json"];
    return JSON.parse((await runLinepoise({ args, files: { "l.yaml": line, "p.yaml": today } })).stdout);
  };
  const alone = await ask("400 per day");
  const { cost } = await ask("280, 340, 400 per day");
  const [{ people, leastMoves }] = alone.tradeOffs;
  expect([people, cost]).toEqual([6, leastMoves]);
});

it("A task alone over the limit is told for each demand where it is, as for one demand alone", async () => {
  const line = "unit: s\ndemand: 60 per hour\nplan-to: 95 %\ntasks: {a: 57.5, b: {time: 20, after: a}}\n";
  const plan = "format: linepoise-plan/1\nstations: [{id: S1, tasks: [a]}, {id: S2, tasks: [b]}]\n";
  const at = async (demand: string) => {
    const args = ["rebalance", "line.yaml", "--from", "plan.yaml", "--demand", demand];
    return runLinepoise({ args, files: { "line.yaml": line, "plan.yaml": plan } });
  };
  // 95 % of 60 s are 57 s; at 58 an hour 95 % of 62.07 s are 58.97 s.
  const alone = await at("60 per hour");
  const both = await at("58, 60 per hour");
  expect([alone.status, both.status]).toEqual([0, 0]);
  const warned = (text: string) => text.split("\n").filter((each) => each.includes("[over-limit]"));
  expect(warned(alone.stderr)).toHaveLength(1);
  expect(warned(both.stderr)).toHaveLength(1);
  expect(warned(both.stderr)[0]).toContain("at 60 per hour: ");
});

it("A change that is part of a proved least sum is not said to need fewer moves by itself", async () => {
  const line =
    "unit: s\ndemand: 60 per hour\ntasks: {a: 30, b: {time: 25, after: a}, c: {time: 30, after: b}, d: {time: 25, after: c}, e: {time: 28, after: d}}\n";
  const plan =
    "format: linepoise-plan/1\nstations: [{id: S1, tasks: [a, b]}, {id: S2, tasks: [c, d]}, {id: S3, tasks: [e]}]\n";
  const tables: string[] = [];
  for (const demands of ["60, 70, 110 per hour", "50, 62, 66, 80 per hour", "40, 60, 90, 120 per hour"]) {
    const args = ["rebalance", "line.yaml", "--from", "plan.yaml", "--demand", demands];
    const { stdout } = await runLinepoise({ args, files: { "line.yaml": line, "plan.yaml": plan } });
    expect(stdout).toMatch(/Proved: \d+ moves? in all/u);
    expect(stdout).not.toMatch(/at least \d+ move/u);
    tables.push(stdout);
  }
  expect(tables.filter((table) => table.includes("no fewer moves in all"))).toHaveLength(1);
});
