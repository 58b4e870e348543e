import { expect, it } from "vitest";
import { runLinepoise } from "../../../tools/run-linepoise.js";

const balance = async (text: string) =>
  (
    await runLinepoise({ args: ["balance", "line.yaml", "--cycle", "60"], files: { "line.yaml": text } })
  ).stdout.replace(/\s+/gu, " ");

it("The reasons say that one person has all skills of a place, also of one with two sides", async () => {
  const text = `line: x
unit: s
people: {anna: [weld], bob: [test]}
together: [[a, b]]
tasks: {a: {time: 40, side: left, skill: weld}, b: {time: 40, side: right, skill: test}}
`;
  expect(await balance(text)).toContain(
    "- the people listed have these skills (anna: weld; bob: test); at each place one person has all that its tasks need, also where several work there",
  );
});

it("Of two people at a task with a skill, one is named as such", async () => {
  const text = `line: x
unit: s
people: {anna: [weld, test], bob: [weld]}
tasks: {a: {time: 40, people: 2, skill: weld}, b: {time: 50, after: a, skill: test}}
`;
  const words = await balance(text);
  expect(words).toContain("people such as bob; one of the 2 people 2 at once a");
  expect(words).toContain("S2 skills test people such as anna");
  expect(words).not.toContain("anna; one of");
});
