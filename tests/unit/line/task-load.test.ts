import { expect, test } from "vitest";
import { ratio } from "../../../src/time/ratio.js";
import { lineOf } from "../../tools/line-of.js";

const taskOf = (keys: string) => lineOf(`unit: s\ntasks: {a: {${keys}}}`).tasks[0]!;

test("A task adds its pieces and the walking to its station, and not what a machine runs by itself", () => {
  expect(taskOf("time: 8, quantity: 2, walking: 3").load).toEqual(ratio(19_000_000));
  expect(taskOf("time: 8, walking: 3, machine-time: 22")).toMatchObject({
    times: [8_000_000],
    walking: 3_000_000,
    machineTime: 22_000_000,
    load: ratio(11_000_000),
  });
});

test("A task on every seventh unit adds a seventh of its time and walking, exactly", () => {
  expect(taskOf("time: 40, walking: 1, every: 7")).toMatchObject({
    times: [40_000_000],
    every: 7,
    load: ratio(41_000_000, 7),
  });
});

test("Side and kind of work are as typed", () => {
  expect(taskOf("time: 8, side: left, kind: value-adding")).toMatchObject({
    side: "left",
    kind: "value-adding",
  });
});
