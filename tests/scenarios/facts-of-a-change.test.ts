import { expect, it } from "vitest";
import { runLinepoise } from "../tools/run-linepoise.js";

const run = async (files: Record<string, string>, ...args: string[]) => runLinepoise({ args, files });

const PLACES = `line: places
unit: s
demand: 40 per hour
stations:
  - {id: A}
  - {id: B}
  - {id: C, max-places: 2}
  - {id: D}
max-places: 2
handling: 2 s
plan-to: 90 %
tasks:
  a: {time: 30, move-cost: 2}
  b: {time: 20, after: a}
  c: {time: 25, after: {task: a, wait: 60 s}}
  d: {time: 40, after: [b, c]}
  e: {time: 15, station: [B, D]}
`;
const plan = (line: string, stations: string) =>
  `format: linepoise-plan/1\nline: ${line}\nstations:\n${stations}`;

it("Where fewer stations would do, the proof says in words why fewer people would not", async () => {
  const today = plan(
    "l.yaml",
    "  - {id: A, tasks: [a, b]}\n  - {id: B, tasks: [e]}\n  - {id: C, tasks: [c, d]}\n",
  );
  const files = { "l.yaml": PLACES, "p.yaml": today };
  const { stdout } = await run(files, "rebalance", "l.yaml", "--from", "p.yaml", "--demand", "55 per hour");
  expect(stdout).toContain("at least 3 people are needed, because ");
  expect(stdout).not.toContain("[object");
});

it("A station never keeps a higher demand within its limit than check passes under a policy", async () => {
  const line = `line: policy
unit: s
demand: 60 per hour
policy: {max-load: 80 %, max-people: 2}
tasks:
  a: {time: 30}
  b: {time: 20, after: a}
  c: {time: 45, after: b}
`;
  const today = plan("l.yaml", "  - {id: S1, tasks: [a, b]}\n  - {id: S2, tasks: [c]}\n");
  const files = { "l.yaml": line, "p.yaml": today };
  const { stdout } = await run(files, "rebalance", "l.yaml", "--from", "p.yaml", "--json");
  const { slack } = JSON.parse(stdout) as {
    slack: { stations: { highestDemand: number; highestDemandWithinLimit?: number }[] };
  };
  // 80 % of 3,600 s / 50 s and of 3,600 s / 45 s.
  expect(slack.stations.map(({ highestDemand }) => highestDemand)).toEqual([57, 64]);
  expect(JSON.stringify(slack)).not.toContain("72");
});

it("A limit per shift counts the units started: at 80 % yield a task is done 125 times for 100 good units", async () => {
  const line = (most: number) => `line: mass
unit: s
demand: 100 per shift
calendar: {shifts: {day: {length: 2 h}}}
yield: 80 %
limits: {mass: {per: person-and-shift, most: ${most} kg}}
tasks:
  a: {time: 20, uses: {mass: 5 kg}}
`;
  const today = plan("l.yaml", "  - {id: S1, tasks: [a]}\n");
  const found = await run({ "l.yaml": line(625) }, "balance", "l.yaml", "--proof");
  expect(found.status).toBe(0);
  expect(found.stdout).toContain("mass 625 of 625 kg");
  expect((await run({ "l.yaml": line(624) }, "balance", "l.yaml")).status).toBe(1);
  const files = (most: number) => ({ "l.yaml": line(most), "p.yaml": today });
  expect((await run(files(625), "check", "l.yaml", "p.yaml")).status).toBe(0);
  const refused = await run(files(624), "check", "l.yaml", "p.yaml");
  expect(refused.status).toBe(1);
});

it("A given number of stations says where they stand behind the floor", async () => {
  const line = `line: floor
unit: s
demand: 100 per shift
calendar: {shifts: {day: {length: 7200 s}}}
stations: [{id: S1}]
tasks:
  a: {time: 30}
  b: {time: 40, after: a}
`;
  const { stdout } = await run({ "l.yaml": line }, "balance", "l.yaml", "--stations", "2", "--json");
  const { findings } = JSON.parse(stdout) as { findings: { rule: string }[] };
  expect(findings.map(({ rule }) => rule)).toContain("behind-floor");
});

it("Steps that set a station up otherwise are not called moves", async () => {
  const today = plan(
    "l.yaml",
    "  - {id: A, tasks: [a, b]}\n  - {id: B, tasks: [e]}\n  - {id: C, tasks: [c, d]}\n",
  );
  const files = { "l.yaml": PLACES, "p.yaml": today };
  const { stdout } = await run(files, "rebalance", "l.yaml", "--from", "p.yaml", "--demand", "70 per hour");
  expect(stdout).toContain("2 steps with one move or one station set up otherwise each");
});
