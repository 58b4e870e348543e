import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { fingerprintOf } from "../../../src/plan/fingerprint.js";
import { planOf } from "../../../src/plan/plan.js";
import { lineOfPlanFile, writePlanFile } from "../../../src/plan/plan-file.js";
import { lineOf, paceOf, shortLine } from "../../tools/line-of.js";

const line = shortLine(["a 30", "b 20 a", "c 40 b"]);
const write = (stations: number[][], present: string | null = null, of = line) =>
  writePlanFile(of, paceOf(60), planOf(stations), "short.line.yaml", present);

describe("a plan file", () => {
  it("has one line a station, tasks in order of work", () => {
    expect(write([[0, 1], [2]])).toBe(
      [
        "format: linepoise-plan/1",
        "line: short.line.yaml",
        `made-for: {line-cycle: 60 s, fingerprint: ${fingerprintOf(line)}}`,
        "stations:",
        "  - {id: S1, tasks: [a, b]}",
        "  - {id: S2, tasks: [c]}",
        "",
      ].join("\n"),
    );
  });

  it("keeps comments and other keys when it is written again, and changes only the stations that moved", () => {
    const present = write([[0, 1], [2]])
      .replace("stations:", "# agreed with the night shift\nstations:")
      .replace("[a, b]}", "[a, b]} # by the window");
    const again = write([[0, 1], [2]], present);
    expect(again).toBe(present);
    const moved = write([[0], [1, 2]], present).split("\n");
    expect(moved.filter((each, at) => each !== present.split("\n")[at])).toEqual([
      "  - {id: S1, tasks: [a]} # by the window",
      "  - {id: S2, tasks: [b, c]}",
    ]);
  });

  it("quotes ids that other YAML readers would take for numbers, times or truth values", () => {
    const odd = lineOf("line: x\nunit: s\ntasks:\n  NO: 1\n  1:30: 1\n  '007': 1\n  1e3: 1\n  on: 1\n");
    const text = write([odd.tasks.map((_, at) => at)], null, odd);
    const ids = parse(text, { version: "1.1" }).stations[0].tasks;
    expect(ids).toEqual(odd.tasks.map((task) => task.id));
  });

  it("is known by its format, and names its line", () => {
    expect(lineOfPlanFile(write([[0, 1], [2]]))).toBe("short.line.yaml");
    expect(lineOfPlanFile("line: short.line.yaml\n")).toBeNull();
    expect(lineOfPlanFile("not: [a plan")).toBeNull();
  });
});

describe("the fingerprint of a line", () => {
  const of = (tasks: string) => fingerprintOf(lineOf(`line: x\nunit: s\ntasks: ${tasks}\n`));

  it("stays with order of tasks, names and comments", () => {
    expect(of("{b: {time: 20, name: Bolt}, a: 30} # why")).toBe(of("{a: 30 s, b: 20}"));
  });

  it("changes with a time, a quantity, an arrow and a task", () => {
    const all = [
      of("{a: 30, b: 20}"),
      of("{a: 31, b: 20}"),
      of("{a: 30, b: {time: 10, quantity: 2}}"),
      of("{a: 30, b: {time: 20, after: a}}"),
      of("{a: 30, b: 20, c: 0}"),
    ];
    expect(new Set(all).size).toBe(all.length);
  });
});
