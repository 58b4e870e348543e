import { expect, it } from "vitest";
import { answerBalance } from "../../../src/answer/balance/answer-balance.js";
import { withoutTasks } from "../../../src/line/without-tasks.js";
import { lineOf, numbersOf, paceOf } from "../../tools/line-of.js";

const line = lineOf(
  "unit: s\ntasks:\n  hinge: {time: 20, side: left}\n  box: {time: 30, after: hinge, on-base: true}\n  pack: {time: 25, after: box}\n",
);

it("A wide product stays one when the only task that says its side leaves the line", () => {
  const rest = withoutTasks(line, numbersOf(line, "hinge"));
  expect(rest.tasks.map(({ side }) => side)).toEqual(["either", "either"]);
});

it("A bench for the only task that says its side is balanced like any other", async () => {
  const options = { method: "best", nodes: 10_000, level: true, strictLimit: false, explain: false };
  const answer = await answerBalance(line, paceOf(40), null, { ...options, checkpoint: () => null });
  expect(answer.outcome).toBe("proved");
  expect(answer.offLine.map(({ tasks }) => tasks)).toEqual([["hinge"]]);
});

it("Benches keep their own tasks, numbered anew, and one that has none left is gone", () => {
  const stated = lineOf(
    "unit: s\nbenches: {B1: {tasks: seat, share: 50 %}, B2: {tasks: bell}}\ntasks: {bell: 20, load: {time: 20, after: [bell, seat]}, seat: 30}\n",
  );
  const rest = withoutTasks(stated, numbersOf(stated, "bell"));
  expect(rest.benches.map(({ id, tasks }) => [id, tasks.map((task) => rest.tasks[task]!.id)])).toEqual([
    ["B1", ["seat"]],
  ]);
});
