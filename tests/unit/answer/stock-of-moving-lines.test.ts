import { describe, expect, it } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";

describe("The standard work-in-process of the stations", () => {
  const PLAN = "format: linepoise-plan/1\nstations:\n  - {id: S1, tasks: [a]}\n  - {id: S2, tasks: [b]}\n";
  const sheets = async (pacing: string) => {
    const line = `unit: s\ndemand: 60 per hour\npacing: ${pacing}\nholds: 2\ntasks: {a: 50, b: {time: 40, after: a}}\n`;
    const run = async (...args: readonly string[]) => {
      const { stdout } = await runLinepoise({
        args: [...args, "--json"],
        files: { "l.yaml": line, "p.yaml": PLAN },
      });
      return JSON.parse(stdout);
    };
    const { sheets: all } = await run("sheets", "l.yaml", "p.yaml");
    const { course } = await run("simulate", "l.yaml", "p.yaml", "--hours", "10");
    return {
      stock: all.map((each: { standardWorkInProcess: number }) => each.standardWorkInProcess),
      inLine: course.at(-1).unitsInLine,
    };
  };

  it.each(["moving", "indexing"])("are the units that are simulated in a line that is %s", async (pacing) => {
    const { stock, inLine } = await sheets(pacing);
    expect(stock).toEqual([2, 2]);
    expect(inLine).toBeCloseTo(4, 1);
  });

  it("are as many as stand there at once on an unpaced line", async () => {
    expect((await sheets("unpaced")).stock).toEqual([1, 1]);
  });
});
