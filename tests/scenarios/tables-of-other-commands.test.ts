import { expect, it } from "vitest";
import { runLinepoise } from "../tools/run-linepoise.js";

const files = {
  "tasks.csv": "Task,Time (s),Predecessors\nframe,28,\nfork,41,frame\n",
  "log.csv": "Unit,Task\nu1,frame\nu1,fork\n",
  "readings.csv": "element,1,2\nTake frame,14.2,13.8\n",
  "neither.csv": "colour,weight\nred,4\n",
};

it.each([
  ["study tasks.csv", "tasks with their times; try: linepoise import tasks.csv"],
  ["study log.csv", "the orders in which units were built; try: linepoise order LINE --from log.csv"],
  ["import readings.csv", "stopwatch readings; try: linepoise study readings.csv"],
  ["import log.csv", "the orders in which units were built; try: linepoise order LINE --from log.csv"],
])("%s says what the table holds and which command reads it", async (command, words) => {
  const { status, stderr } = await runLinepoise({ args: command.split(" "), files });
  expect(status).toBe(2);
  expect(stderr.split("\n")[0]).toMatch(new RegExp(`the table seems to hold ${words} \\[headings\\]$`, "u"));
});

it.each([
  ["study neither.csv", "no column is called element"],
  ["import neither.csv", "no row heads the tasks and their times"],
  ["study readings.csv", "bare numbers need a unit"],
])("%s says what is missing in a table that no other command reads", async (command, words) => {
  const { status, stderr } = await runLinepoise({ args: command.split(" "), files });
  expect(status).toBe(2);
  expect(stderr.split("\n")[0]).toContain(words);
});
