import fc from "fast-check";
import { expect, it } from "vitest";
import { runLinepoise } from "../../tools/run-linepoise.js";
import { anyLine, lineFile, stepId } from "./any-line.js";

/** Gaps between the numbers of the new names, so that they keep their order: 9, 10, 13, 107, ... */
const gaps = fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 10, maxLength: 10 });

it("renaming that keeps the order of the ids changes nothing but the names", async () => {
  await fc.assert(
    fc.asyncProperty(anyLine, gaps, async (line, drawn) => {
      const numbers = line.tasks.map((_, at) => drawn.slice(0, at + 1).reduce((sum, gap) => sum + gap, 0));
      const renamed = (number: number) => `job-${numbers[number - 1]}`;
      const args = ["balance", "line.yaml", "--cycle", String(line.cycle), "--json"];
      const before = await runLinepoise({ args, files: { "line.yaml": lineFile(line) } });
      const after = await runLinepoise({ args, files: { "line.yaml": lineFile(line, renamed) } });
      const back = new Map(line.tasks.map(({ number }) => [renamed(number), stepId(number)]));
      expect(after.stdout.replace(/job-\d+/g, (id) => back.get(id)!)).toBe(before.stdout);
    }),
    { seed: 21, numRuns: 40 },
  );
});
