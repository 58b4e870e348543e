import { expect, it } from "vitest";
import { unseenCharacters } from "../../src/findings/visible-text.js";
import { runLinepoise } from "../tools/run-linepoise.js";

const LINE = String.raw`line: "bi\u009bke\u007f"
unit: s
rates: {currency: "E\e[31mUR\u202e", person-hour: 30}
calendar: {shifts: {day: {length: 8 h}}}
demand: 60 per hour
tasks:
  a: {time: 20, name: "na\e[31mme\u202e", caution: "ca\e[31mution", parts: {P1: 2}}
  b: 30
options: {o: {times: {a: 10}}}
`;
const PLAN = "format: linepoise-plan/1\nline: line.yaml\nstations: [{id: S1, tasks: [a, b]}]\n";

it.each([
  "balance line.yaml --json",
  "balance line.yaml --format csv",
  "compare line.yaml",
  "compare line.yaml --json",
  "compare line.yaml --format csv",
  "export line.yaml",
  "rebalance line.yaml --from plan.yaml --format csv",
  "staff line.yaml --demand 60..70/10 --format csv",
])(
  "%s shows what names, currencies and cautions hide, and prints nothing that a terminal acts on",
  async (command) => {
    const files = { "line.yaml": LINE, "plan.yaml": PLAN };
    const { status, stdout, stderr } = await runLinepoise({ args: command.split(" "), files });
    expect(status).toBe(0);
    const lines = (stdout + stderr).split(/\r?\n/u);
    expect(lines.flatMap(unseenCharacters)).toEqual([]);
    expect(stdout).toMatch(/␛\[|\\u00/u);
  },
);
