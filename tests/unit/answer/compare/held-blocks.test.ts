import { expect, it } from "vitest";
import { answerOffLine } from "../../../../src/answer/off-line/answer-off-line.js";
import { verdictWords } from "../../../../src/report/words/verdict-words.js";
import { lineOf, numbersOf } from "../../../tools/line-of.js";
import { asked, compared } from "./compared.js";

const line = lineOf(`unit: s
demand: 60 per hour
apart: [[lace, true]]
together: [[cut, bend]]
tasks:
  frame: {time: 20, on-base: true}
  lace: 20
  true: {time: 20, after: lace}
  cut: 20
  bend: {time: 20, after: cut}
  glue: {time: 10, station: S1}
  fit: {time: 20, after: [frame, true, bend, glue]}
benches: {glued: {tasks: glue}}
options:
  wheel: {off-line: [[lace, true]]}
  half: {off-line: [[cut]]}
  fixed: {off-line: [glued]}
  both: {off-line: [[lace, true], [cut]]}
  free: {off-line: [[lace], [cut, bend]]}
`);

const goOn = async () => null;

it("An option whose block a rule of the line holds has no plan, in the words of off-line", async () => {
  const { options, verdict, rows } = await compared(line, ["as it is", "wheel", "half", "fixed", "both"]);
  const { pace, takt } = asked(line);
  const { findings } = await answerOffLine(line, pace, takt, {
    ranks: ["people"],
    benches: 1,
    joinsAtSeveral: false,
    asked: [["lace", "true"], ["cut"], ["glue"]].map((ids) => numbersOf(line, ...ids)),
    nodes: 1_000,
    strictLimit: false,
    checkpoint: goOn,
  });
  const [wheel, half, glued] = findings.filter(({ severity }) => severity === "error");
  expect(options.map((each) => each.findings.filter(({ severity }) => severity === "error"))).toEqual([
    [],
    [wheel],
    [half],
    [glued],
    [wheel, half],
  ]);
  expect(glued!.message).toBe("glued: glue may stand at S1 only (station)");
  expect(options.map(({ outcome }) => outcome).slice(1)).toEqual(Array(4).fill("infeasible"));
  expect(rows.find(({ key }) => key === "peoplePerShift")!.values.slice(1)).toEqual(Array(4).fill(null));
  expect(verdictWords(verdict)).toContain(
    "wheel and both have no balance (lace, true: lace and true never share a place (apart))",
  );
});

it("What keeps those rules has a plan", async () => {
  const { options } = await compared(line, ["free"]);
  expect(options.map(({ posts }) => posts.filter(({ kind }) => kind === "bench").length)).toEqual([2]);
});
