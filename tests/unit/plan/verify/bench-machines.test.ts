import { expect, it } from "vitest";
import { runLinepoise } from "../../../tools/run-linepoise.js";

/** What `check` says of a plan with a press at a bench: loaded for 10 s, running 40 s, at a line cycle of 30 s. */
async function check(bench: string, shifts = "early: {length: 8 h}", demand = 960) {
  const line = `line: x
unit: s
demand: ${demand} per day
calendar: {shifts: {${shifts}}}
equipment: {press: 1}
benches: {B1: ${bench}}
tasks:
  frame: {time: 20, on-base: true}
  press: {time: 10, machine-time: 40, equipment: press}
  fit: {time: 5, after: [frame, press]}
`;
  const plan = `format: linepoise-plan/1
line: line.yaml
stations:
  - {id: S1, tasks: [frame, fit]}
benches:
  - {id: B1, tasks: [press]}
`;
  const files = { "line.yaml": line, "line.plan.yaml": plan };
  const { stdout } = await runLinepoise({ args: ["check", "line.yaml", "line.plan.yaml"], files });
  return stdout.split("\n").filter((row) => /\[(?:dwell|equipment-hold)\]/u.test(row));
}

it("A press that is busy for 50 s keeps up at a bench of two shifts beside a line of one at 30 s, and not at one of a single shift", async () => {
  expect(await check("{tasks: [press], shifts: 2}")).toEqual([]);
  expect(await check("{tasks: [press], shifts: 1}")).toEqual([
    "line.plan.yaml:6:10: the parts of a unit stand 50 s at B1, with what machines run, more than its places have time for: 30 s [dwell]",
    "line.plan.yaml:6:10: press holds each unit 50 s at B1 (press), where a unit comes every 30 s: 2 x press are needed, 1 exists [equipment-hold]",
  ]);
  expect(await check("{tasks: [press], shifts: 1, holds: 2}")).toEqual([
    "line.plan.yaml:6:10: press holds each unit 50 s at B1 (press), where a unit comes every 30 s: 2 x press are needed, 1 exists [equipment-hold]",
  ]);
});

it("At a bench that works one of two shifts of its line it has half the time for a unit", async () => {
  const shifts = "early: {length: 8 h}, late: {length: 8 h}";
  expect(await check("{tasks: [press], shifts: 1, holds: 4}", shifts, 1920)).toEqual([
    "line.plan.yaml:6:10: press holds each unit 50 s at B1 (press), where a unit comes every 15 s: 4 x press are needed, 1 exists [equipment-hold]",
  ]);
});
