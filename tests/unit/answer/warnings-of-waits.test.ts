import { describe, expect, it } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";

/** Two places are too few for work and wait of 500 s at a line cycle of 120 s; `wire` may be built at a bench. */
const LINE = `line: Glued
unit: s
demand: 30 per hour
pacing: moving
tasks:
  glue: {time: 90, on-base: true}
  wire: {time: 20}
  press: {time: 100, on-base: true, after: [{task: glue, wait: 5 min}, wire]}
options:
  later: {demand: 20 per hour}
`;
const PLAN = `format: linepoise-plan/1
stations:
  - {id: S1, tasks: [glue, wire]}
  - {id: S2, tasks: [press]}
`;

const warned = async (...args: readonly string[]) => {
  const files = { "l.yaml": LINE, "p.yaml": PLAN };
  const { stdout, stderr } = await runLinepoise({ args: [...args], files });
  const told = stderr.split("\n").filter((line) => line.includes("[wait-in-line]"));
  return {
    stdout,
    told: told.map((line) => line.replace(/^.*warning: /u, "").replace(/ waits 5 min.*/u, "")),
  };
};

describe("A wait that holds up a line that moves together is told of", () => {
  it.each([
    ["balance", "l.yaml"],
    ["show", "l.yaml", "p.yaml"],
    ["rebalance", "l.yaml", "--from", "p.yaml"],
  ])("with the plan of %s", async (...args) => expect((await warned(...args)).told).toEqual(["press"]));

  it("with each demand of a rebalance, and once with all of staff", async () => {
    const { told } = await warned(
      "rebalance",
      "l.yaml",
      "--from",
      "p.yaml",
      "--demand",
      "20 per hour, 28 per hour",
    );
    expect(told).toEqual(["at 20 per hour: press", "at 28 per hour: press"]);
    const staff = await warned("staff", "l.yaml", "--demand", "20..30/5 per hour");
    expect(staff.told).toEqual(["at 20 per hour, and at 2 further demands: press"]);
  });

  it("with everything on the line, with blocks that are asked for, and with how many others", async () => {
    const whole = "with everything on the line: press";
    expect((await warned("off-line", "l.yaml", "--blocks", "wire")).told).toEqual([
      whole,
      "with wire at a bench: press",
    ]);
    expect((await warned("off-line", "l.yaml")).told).toEqual([
      "1 of 1 block balanced again leaves a line that a wait holds up; ask for one with --blocks [wait-in-line]",
      whole,
    ]);
  });

  it("with each option, and on the page of a report", async () => {
    const { stdout } = await warned("compare", "l.yaml");
    expect(stdout).toMatch(/^ {2}as it is: press waits 5 min/mu);
    expect(stdout).toMatch(/^ {2}later: press waits 5 min/mu);
    const report = await warned("report", "l.yaml", "p.yaml");
    expect(report.stdout).toContain("press waits 5 min");
    expect((await warned("sheets", "l.yaml", "p.yaml")).told).toEqual(["press"]);
  });
});
