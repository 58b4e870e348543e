import fc from "fast-check";
import { expect, it } from "vitest";
import { stringify } from "yaml";
import { runLinepoise } from "../../tools/run-linepoise.js";
import { type AnyLine, anyLine, lineFile, stepId } from "./any-line.js";

type Shuffle = <T>(items: readonly T[]) => T[];

/** Turns a list of draws between 0 and 1 into shuffles, one draw an item. */
function shuffler(draws: readonly number[]): Shuffle {
  let next = 0;
  return (items) =>
    items
      .map((item) => ({ item, key: draws[next++ % draws.length]! }))
      .sort((one, two) => one.key - two.key)
      .map(({ item }) => item);
}

/** The same line with its keys, its tasks and their predecessors in another order. */
function shuffledFile({ tasks }: AnyLine, shuffle: Shuffle): string {
  const written = shuffle(tasks).map(({ number, seconds, after }) => {
    const keys: [string, unknown][] = [
      ["time", seconds],
      ["after", shuffle(after.map(stepId))],
    ];
    return [stepId(number), new Map(shuffle(keys))] as const;
  });
  const keys: [string, unknown][] = [
    ["line", "Generated"],
    ["unit", "s"],
    ["tasks", new Map(written)],
  ];
  return stringify(new Map(shuffle(keys)));
}

/** Where the findings begin in the JSON form. */
const FINDINGS = '\n  "findings": [';

/** The answer alone: notes on the file name lines of it, so they move with the tasks. */
async function answerTo(args: readonly string[], file: string) {
  const { status, stdout } = await runLinepoise({ args, files: { "line.yaml": file } });
  return { status, answer: stdout.split(FINDINGS)[0] };
}

const draws = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 7, maxLength: 31 });

it.each(["", "--json", "--explain"])("reordering a file changes no byte of balance %s", async (option) => {
  await fc.assert(
    fc.asyncProperty(anyLine, draws, async (line, drawn) => {
      const args = ["balance", "line.yaml", "--cycle", String(line.cycle), option].filter(
        (word) => word !== "",
      );
      const ordered = await answerTo(args, lineFile(line));
      expect(await answerTo(args, shuffledFile(line, shuffler(drawn)))).toEqual(ordered);
      expect(ordered.status).toBe(0);
    }),
    { seed: 20, numRuns: 30 },
  );
});
