import fc from "fast-check";
import { expect, it } from "vitest";
import { answerBalance } from "../../../src/answer/balance/answer-balance.js";
import { shownBalance } from "../../../src/answer/balance/shown-balance.js";
import { balanceJson } from "../../../src/report/json/balance-json.js";
import { DEFAULT_METHOD } from "../../../src/solve/methods.js";
import { lineOf, paceOf } from "../../tools/line-of.js";
import { type AnyLine, anyLine, lineFile } from "./any-line.js";

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 240_000;

async function answered(given: AnyLine, text: string): Promise<string> {
  const options = {
    method: DEFAULT_METHOD,
    nodes: 20_000,
    level: true,
    strictLimit: false,
    explain: false,
    checkpoint: () => null,
  };
  const answer = await answerBalance(lineOf(text), paceOf(given.cycle), null, options);
  return balanceJson(shownBalance(answer), null, null);
}

it("gives a line of one person a unit, said for the line and for its stations, the answer of the plain line to the byte", {
  timeout: LONGEST_TEST,
}, async () => {
  const anyWay = fc.constantFrom("max-crew: 1\n", "max-crew: 1\nholds: 1\nmax-places: 1\n");
  await fc.assert(
    fc.asyncProperty(anyLine, anyWay, async (given, said) => {
      const plain = lineFile(given);
      expect(await answered(given, `${said}${plain}`)).toBe(await answered(given, plain));
      const floor = `stations: [${given.tasks.map(({ number }) => `{id: W${number}}`).join(", ")}]\n`;
      const own = floor.replaceAll("}", ", max-crew: 1}");
      expect(await answered(given, `max-crew: 1\n${own}${plain}`)).toBe(
        await answered(given, `${floor}${plain}`),
      );
    }),
    { seed: 171, numRuns: 100 },
  );
});
