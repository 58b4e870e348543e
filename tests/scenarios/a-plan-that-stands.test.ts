import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { runLinepoise } from "../tools/run-linepoise.js";

const LINE = `line: Lamps
unit: s
demand: 480 per day
calendar: {shifts: {day: {length: 8 h}}}
tasks:
  base: 30
  wire: {time: 20, after: base}
  shade: {time: 35, after: wire}
  print: 25
  pack: {time: 25, after: [shade, print]}
`;

const planOf = (...stations: readonly string[]) =>
  ["format: linepoise-plan/1", "line: line.yaml", "stations:"]
    .concat(stations.map((tasks, at) => `  - {id: S${at + 1}, tasks: [${tasks}]}`))
    .join("\n");

async function show(line: string, plan: string, ...more: readonly string[]) {
  const args = ["show", "line.yaml", "plan.yaml", "--json", ...more];
  const { status, stdout } = await runLinepoise({ args, files: { "line.yaml": line, "plan.yaml": plan } });
  return { status, shown: JSON.parse(stdout) };
}

describe("a plan that stands", () => {
  it.each(["cargo-bike", "two-models"])(
    "has the stations and figures that balance gives for its own plan of %s",
    async (name) => {
      const line = readFileSync(new URL(`../../examples/${name}.line.yaml`, import.meta.url), "utf8");
      const args = ["balance", "line.yaml", "--write", "plan.yaml", "--no-level", "--json"];
      const { stdout, files } = await runLinepoise({ args, files: { "line.yaml": line } });
      const balanced = JSON.parse(stdout);
      const { status, shown } = await show(line, files["plan.yaml"]!);
      const of = ({ line: _, pace, stations, measures, models, visits }: Record<string, unknown>) => [
        pace,
        stations,
        measures,
        models,
        visits,
      ];
      expect([status, shown.command, shown.outcome]).toEqual([0, "show", "found"]);
      expect(of(shown)).toEqual(of(balanced));
    },
  );

  it("has status 1 and what check finds where it does not hold: 30 + 20 + 25 s at 60 s", async () => {
    const { status, shown } = await show(LINE, planOf("base, wire, print", "shade, pack"));
    expect(status).toBe(1);
    expect(shown.findings.map(({ rule }: { rule: string }) => rule)).toContain("slower-than-pace");
    expect(shown.measures.cycleOfPlanSeconds).toBe(75);
  });

  it("is proved least where 135 s of work at 60 s need three people: 135 / 60 = 2.25", async () => {
    const { shown } = await show(LINE, planOf("base, wire", "shade, print", "pack"), "--proof");
    expect([shown.outcome, shown.bound.stations]).toEqual(["proved", 3]);
  });

  it("has a better one beside it where four people do what three can, and where 60 s can be 50 s", async () => {
    const four = await show(LINE, planOf("base", "wire", "shade, print", "pack"), "--proof");
    expect([four.shown.outcome, four.shown.better.people, four.shown.better.stations]).toEqual([
      "found",
      3,
      3,
    ]);
    // 30 + 20, 35 + 25 and 25 s; 30 + 20, 35 and 25 + 25 s are shorter.
    const three = await show(LINE, planOf("base, wire", "shade, print", "pack"), "--proof");
    expect(three.shown.measures.cycleOfPlanSeconds).toBe(60);
    expect(three.shown.better).toEqual({ people: 3, stations: 3, cycleOfPlanSeconds: 50 });
  });
});
