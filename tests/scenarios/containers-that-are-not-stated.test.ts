import fc from "fast-check";
import { expect, it } from "vitest";
import { runLinepoise } from "../tools/run-linepoise.js";

interface RowOfParts {
  readonly part: string;
  readonly containers: number | null;
  readonly containersToRun: number | null;
}

const anyTerms = fc.record({
  demand: fc.integer({ min: 10, max: 60 }),
  uptime: fc.constantFrom("100 %", "90 %"),
  every: fc.constantFrom("", "every: 40 min", "every: 90 min"),
  pack: fc.integer({ min: 5, max: 60 }),
  pieces: fc.integer({ min: 1, max: 4 }),
  terms: fc.constantFrom("", ", safety: 10 %", ", replenish: 45 min"),
});

it("Containers that parts does not state are as many as simulate has, and are told with what it takes for them", async () => {
  await fc.assert(
    fc.asyncProperty(anyTerms, async ({ demand, uptime, every, pack, pieces, terms }) => {
      const line = `unit: s\ndemand: ${demand} per hour\nuptime: ${uptime}\ndelivery: {trip: 5 min${every === "" ? "" : `, ${every}`}}\npart-list: {nut: {pack: ${pack}${terms}}}\ntasks: {a: {time: 30, parts: {nut: ${pieces}}}, b: {time: 30, after: a}}\n`;
      const plan = "format: linepoise-plan/1\nstations: [{id: S1, tasks: [a]}, {id: S2, tasks: [b]}]\n";
      const ask = (...args: readonly string[]) =>
        runLinepoise({
          args: [args[0]!, "own.line.yaml", "own.plan.yaml", ...args.slice(1)],
          files: { "own.line.yaml": line, "own.plan.yaml": plan },
        });
      const told = JSON.parse((await ask("parts", "--units", "60", "--json")).stdout);
      const run = JSON.parse((await ask("simulate", "--hours", "1", "--warm-up", "0", "--json")).stdout);
      const row: RowOfParts = told.places[0].parts[0];
      expect([row.containers, row.containersToRun]).toEqual([null, run.parts?.[0].containers ?? null]);
      const text = (await ask("parts", "--units", "60")).stdout.replaceAll(/\s+/gu, " ");
      const isRun = row.containersToRun !== null;
      expect(text.includes(`So it has these full containers: ${row.containersToRun} of nut at S1.`)).toBe(
        isRun,
      );
      expect(text.includes("`simulate` takes 0 % where `safety` is missing.")).toBe(
        isRun && !terms.includes("safety"),
      );
      expect(text.includes("two intervals of the handler")).toBe(isRun && !terms.includes("replenish"));
    }),
    {
      numRuns: 3,
      seed: 1,
      // 7 containers to the last piece, at a line cycle that is no whole number of microseconds.
      examples: [
        [{ demand: 56, uptime: "100 %", every: "", pack: 18, pieces: 3, terms: ", replenish: 45 min" }],
      ],
    },
  );
});

it("Where simulate has other containers than are stated, as it counts the hours of running, parts says so", async () => {
  // 60 pieces an hour of available time: 30 in 30 min are 1.98 packs with their safety, and 2.08 at an uptime of 95 %.
  const line = (uptime: string) =>
    `unit: s\ndemand: 30 per hour\nuptime: ${uptime}\npart-list: {nut: {pack: 18, replenish: 30 min, safety: 18.8 %}}\ntasks: {a: {time: 30, parts: {nut: 2}}}\n`;
  const plan = "format: linepoise-plan/1\nstations: [{id: S1, tasks: [a]}]\n";
  for (const [uptime, ofSimulate, words] of [
    ["100 %", null, null],
    [
      "95 %",
      3,
      "`simulate` counts the hours in which the line runs, 95 % of the available time: parts are used faster there. So it has these full containers: 3 of nut at S1.",
    ],
  ] as const) {
    const ask = (...args: readonly string[]) =>
      runLinepoise({
        args: [args[0]!, "own.line.yaml", "own.plan.yaml", ...args.slice(1)],
        files: { "own.line.yaml": line(uptime), "own.plan.yaml": plan },
      });
    const row: RowOfParts = JSON.parse((await ask("parts", "--units", "60", "--json")).stdout).places[0]
      .parts[0];
    expect([row.containers, row.containersToRun]).toEqual([2, ofSimulate]);
    const run = JSON.parse((await ask("simulate", "--hours", "1", "--warm-up", "0", "--json")).stdout);
    expect(run.parts[0].containers).toBe(ofSimulate ?? 2);
    const text = (await ask("parts", "--units", "60")).stdout.replaceAll(/\s+/gu, " ");
    if (words === null) expect(text).not.toContain("simulate");
    else expect(text).toContain(words);
  }
});
