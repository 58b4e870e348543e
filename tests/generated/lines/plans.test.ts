import fc from "fast-check";
import { expect, it } from "vitest";
import { readAnswer } from "../../tools/read-answer.js";
import { type AnyLine, anyLine, lineFile } from "./any-line.js";
import { contradictions, leastStations } from "./independent-check.js";

const METHODS = ["best", "exact", "positional-weight", "largest-candidate", "columns", "most-followers"];

/** The same tasks with every arrow turned round, renumbered from the end so that arrows run to later numbers again. */
function reversed({ tasks, cycle }: AnyLine): AnyLine {
  const turn = (number: number) => tasks.length + 1 - number;
  const turned = tasks.map(({ number, seconds }) => ({
    number: turn(number),
    seconds,
    after: tasks.filter(({ after }) => after.includes(number)).map((follower) => turn(follower.number)),
  }));
  return { tasks: turned.sort((one, two) => one.number - two.number), cycle };
}

const least = async (line: AnyLine, cycle = line.cycle): Promise<number> => {
  const { outcome, measures } = await readAnswer(lineFile(line), ["--cycle", String(cycle)]);
  expect(outcome).toBe("proved");
  return measures.stations;
};

it.each(METHODS)("every plan by %s stands up to an independent check", async (method) => {
  await fc.assert(
    fc.asyncProperty(anyLine, async (line) => {
      const options = ["--cycle", String(line.cycle), "--method", method];
      expect(contradictions(line, await readAnswer(lineFile(line), options))).toEqual([]);
    }),
    { seed: 22, numRuns: 30 },
  );
});

it("the proved number of stations is that of trying every order", async () => {
  await fc.assert(
    fc.asyncProperty(anyLine, async (line) => {
      expect(await least(line)).toBe(leastStations(line));
    }),
    { seed: 23, numRuns: 60 },
  );
});

it("a longer cycle never needs more stations", async () => {
  await fc.assert(
    fc.asyncProperty(anyLine, fc.integer({ min: 1, max: 30 }), async (line, more) => {
      expect(await least(line, line.cycle + more)).toBeLessThanOrEqual(await least(line));
    }),
    { seed: 24, numRuns: 40 },
  );
});

it("turning every arrow round keeps the number of stations", async () => {
  await fc.assert(
    fc.asyncProperty(anyLine, async (line) => {
      expect(await least(reversed(line))).toBe(await least(line));
    }),
    { seed: 25, numRuns: 40 },
  );
});
