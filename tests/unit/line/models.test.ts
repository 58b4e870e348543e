import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Line } from "../../../src/line/line.js";
import { readLine } from "../../../src/line/read-line.js";
import { divide, multiply, ratio } from "../../../src/time/ratio.js";
import { lineOf } from "../../tools/line-of.js";

const SEED = 13;
const secondsOf = (line: Line) => line.tasks.map(({ load }) => divide(load, ratio(1_000_000)));

describe("The models of a line", () => {
  test("are read in natural order of names, with exact shares, a sequence and an overload", () => {
    const line = lineOf(
      "models: {m10: 60 %, m9: 40 %}\nsequence: [m10, ' m9', m10]\nmodel-overload: 12.5 %\ntasks: {a: 5 s}",
    );
    expect(line.models).toEqual([
      { id: "m9", share: ratio(2, 5) },
      { id: "m10", share: ratio(3, 5) },
    ]);
    expect(line.sequence).toEqual([1, 0, 1]);
    expect(line.modelOverload).toEqual(ratio(1, 8));
    expect(line.tasks[0]!.times).toEqual([5_000_000, 5_000_000]);
  });

  test("have the shares of their quantities", () => {
    const line = lineOf("models: {city: 200, cargo: 100, trike: 0}\ntasks: {a: 5 s}");
    expect(line.models.map(({ share }) => share)).toEqual([ratio(1, 3), ratio(2, 3), ratio(0)]);
  });

  test.each([
    ["99.5 %", 4975, true],
    ["100.5 %", 5025, true],
    ["99.48 %", 4974, false],
    ["100.52 %", 5026, false],
  ])("in two shares that come to %s are scaled, or refused where that is too far", (_, hundredths, taken) => {
    const share = `${hundredths / 100} %`;
    const { line, findings } = readLine("l.yaml", `models: {a: ${share}, b: ${share}}\ntasks: {t: 5 s}`);
    expect(findings.map(({ rule, severity }) => [rule, severity])).toEqual([
      ["models-sum", taken ? "note" : "error"],
    ]);
    expect(line?.models.map((each) => each.share)).toEqual(taken ? [ratio(1, 2), ratio(1, 2)] : undefined);
  });
});

describe("The load of a task", () => {
  test("is weighted by shares: 30 s for 80 % and 90 s for 20 % are 42 s", () => {
    expect(
      secondsOf(lineOf("unit: s\nmodels: {a: 80 %, b: 20 %}\ntasks: {t: {time: {a: 30, b: 90}}}")),
    ).toEqual([ratio(42)]);
  });

  test('is the same where a model has no such task ("-") and where it has one of no time, but for the walking', () => {
    const text = (time: string) =>
      `unit: s\nmodels: {a: 50 %, b: 50 %}\ntasks: {t: {time: {a: 30, b: ${time}}, walking: 2}}`;
    expect(secondsOf(lineOf(text('"-"')))).toEqual([ratio(16)]);
    expect(secondsOf(lineOf(text("0")))).toEqual([ratio(17)]);
    expect(lineOf(text('"-"')).tasks[0]!.times).toEqual([30_000_000, null]);
  });

  test("takes share, pieces, walking, visits and rare units together, exactly", () => {
    const line = lineOf(
      [
        "unit: s",
        "models: {a: 3, b: 4}",
        "tasks:",
        "  t: {time: {a: 10, b: '-'}, quantity: 2, walking: 1, every: 5}",
        "  u: {time: 7, after: t, test: {fail: 20 %, repair: 60, return-to: t}}",
      ].join("\n"),
    );
    expect(line.tasks.map(({ visits }) => visits)).toEqual([
      [ratio(1, 4), ratio(0)],
      [ratio(5, 4), ratio(5, 4)],
    ]);
    expect(secondsOf(line)).toEqual([multiply(ratio(3, 7), ratio(21, 4)), ratio(35, 4)]);
  });
});

test("An arrow of one model joins the order of all", () => {
  const line = lineOf(
    "models: {m: 1, n: 1}\ntasks: {a: 1 s, b: {time: 1 s, after: {task: a, model: m}}, c: {time: 1 s, after: [b, {task: a, model: n}]}}",
  );
  expect(line.before).toEqual([[], [0], [0, 1]]);
});

test("The order of models in the file means nothing", () => {
  const models = ["city: 50 %", "cargo: 30 %", "trike: 20 %"];
  const times = ["city: 30", "cargo: 20", "trike: '-'"];
  const read = ([first, second]: readonly (readonly string[])[]) => {
    const { line, findings } = readLine(
      "l.yaml",
      `unit: s\nmodels: {${first!.join(", ")}}\nsequence: [city, cargo, city]\ntasks: {t: {time: {${second!.join(", ")}}}}`,
    );
    const tasks = line!.tasks.map((task) => ({ ...task, place: null }));
    return { ...line, tasks, told: findings.map((each) => each.message) };
  };
  const all = { minLength: 3 };
  fc.assert(
    fc.property(fc.tuple(fc.shuffledSubarray(models, all), fc.shuffledSubarray(times, all)), (order) => {
      expect(read(order)).toEqual(read([models, times]));
    }),
    { seed: SEED },
  );
});
