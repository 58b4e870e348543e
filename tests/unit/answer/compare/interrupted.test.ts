import { expect, it } from "vitest";
import { compareOptions, ONE_BY_ONE } from "../../../../src/answer/compare/compare-options.js";
import { finding } from "../../../../src/findings/finding.js";
import { verdictWords } from "../../../../src/report/words/verdict-words.js";
import type { Progress } from "../../../../src/solve/watch-times.js";
import { lineOf } from "../../../tools/line-of.js";
import { asked, notesOf, WHEEL } from "./compared.js";

const line = lineOf(`${WHEEL}options: {a: {off-line: [[lace, true]]}, b: {plan-to: 90 %}, c: {tables: 5}}\n`);
const columns = [asked(line), ...line.options.map(({ name }) => asked(line, name))];

it("After an interruption the options worked out are shown and the others named", async () => {
  const seen: Progress[] = [];
  const { options, verdict, outcome, rows } = await compareOptions(line, columns, {
    ...ONE_BY_ONE,
    watch: async (progress) => {
      seen.push(progress);
      return progress.option?.name === "b" ? "interrupted" : null;
    },
  });
  expect(options.map(({ isCut, posts }) => [isCut, posts.length > 0])).toEqual([
    [false, true],
    [false, true],
    [true, false],
    [false, true],
  ]);
  expect(verdictWords(verdict)).toContain("b was not worked out");
  expect(outcome).toBe("found");
  const known = rows.filter(({ values }) => values[2] !== null).map(({ key }) => key);
  expect(known).toEqual(["wantedPerShift", "wantedPerDay", "wantedPerHour", "lineCycle"]);
  expect(options[3]!.pays).toBeNull();
  // That it was not worked out is in the verdict already.
  expect(notesOf(options[2]!)).toEqual([]);
  const blocks = finding({
    rule: "blocks-left-out",
    severity: "warning",
    message: "3 blocks were not looked at",
    fact: { kind: "blocks-left-out" },
  });
  expect(notesOf({ ...options[1]!, isCut: true, findings: [blocks] })).toEqual(["interrupted"]);
  const started = seen.filter(({ what }) => what === undefined).map(({ option }) => option);
  expect(started).toContainEqual({ name: "a", turn: { at: 2, of: 4 } });
});

it("The order in which options end means nothing", async () => {
  const inTurn = await compareOptions(line, columns, { ...ONE_BY_ONE, watch: async () => null });
  const turns = [30, 0, 20, 10];
  const mixed = await compareOptions(line, columns, {
    atATime: 4,
    watch: async () => null,
    solve: async (each, watch) => {
      for (let turn = turns[columns.indexOf(each)]!; turn > 0; turn--) await Promise.resolve();
      return ONE_BY_ONE.solve(each, watch);
    },
  });
  expect(mixed).toEqual(inTurn);
});
