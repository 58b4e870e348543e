import { expect, test } from "vitest";
import { readLine } from "../../../src/line/read-line.js";
import { lineOf } from "../../tools/line-of.js";

const waitsOf = (text: string) => {
  const line = lineOf(text);
  return line.waits.map(({ from, to, wait, stations }) => [
    line.tasks[from]!.id,
    line.tasks[to]!.id,
    wait,
    stations,
  ]);
};

test("What lies between two tasks is read beside the plain arrow", () => {
  const text = [
    "unit: s",
    "tasks:",
    "  glue: 5",
    "  press: {time: 5, after: {task: ' glue', wait: 10 min}}",
    "  cap: {time: 5, after: [glue, {task: press, stations: 2}]}",
    "  box: {time: 5, after: [{task: glue, wait: 30, stations: 3}, {task: cap}]}",
  ].join("\n");
  expect(waitsOf(text)).toEqual([
    ["glue", "box", 30_000_000, 3],
    ["glue", "press", 600_000_000, 1],
    ["press", "cap", 0, 2],
  ]);
  expect(lineOf(text).before).toEqual([[1, 2], [2, 3], [], [2]]);
});

test("A wait of 0 keeps no station between", () => {
  expect(waitsOf("tasks: {a: 1 s, b: {time: 1 s, after: {task: a, wait: 0}}}")).toEqual([]);
});

test("Of several waits between two tasks the longest and the most stations count", () => {
  const after = "[{task: a, wait: 1 min}, {task: a, stations: 4}, {task: a, wait: 30 s, stations: 2}]";
  expect(waitsOf(`tasks: {a: 1 s, b: {time: 1 s, after: ${after}}}`)).toEqual([["a", "b", 60_000_000, 4]]);
});

test("A wait beside a longer way is no arrow that could be left out", () => {
  const text = "tasks: {a: 1 s, b: {time: 1 s, after: a}, c: {time: 1 s, after: [b, {task: a, wait: 1 h}]}}";
  expect(readLine("line.yaml", text).findings).toEqual([]);
});
