import { describe, expect, it } from "vitest";
import { MalformedRowError, readRows, takeEvery } from "../../../src/benchmark/benchmark-row.js";

const SOUND = {
  name: "three",
  cycle: 6,
  times: [3, 4, 0],
  precedence: [
    [1, 2],
    [2, 3],
  ],
  published: { lower: 2, upper: 2 },
};
const row = (changes: object) => JSON.stringify({ ...SOUND, ...changes });

describe("rows of a benchmark", () => {
  it("are read with tasks counted from 0, empty lines left out", () => {
    expect(readRows(`${row({})}\n\n${row({ published: undefined })}\r\n`)).toEqual([
      {
        name: "three",
        problem: { times: [3, 4, 0], limit: 6, before: [[], [0], [1]] },
        published: { lower: 2, upper: 2 },
      },
      { name: "three", problem: { times: [3, 4, 0], limit: 6, before: [[], [0], [1]] }, published: null },
    ]);
  });

  it("are taken every so many, the first one always", () => {
    const rows = readRows(["a", "b", "c", "d", "e"].map((name) => row({ name })).join("\n"));
    expect(takeEvery(rows, 2).map(({ name }) => name)).toEqual(["a", "c", "e"]);
    expect(takeEvery(rows, 9).map(({ name }) => name)).toEqual(["a"]);
  });

  it.each([
    ["{", "this is no JSON: {"],
    ["[]", "a row is [], expected an object"],
    [row({ name: 7 }), '"name" is 7, expected a text'],
    [
      row({ cycle: undefined }),
      `"cycle" is missing, expected a whole number from 1 to ${Number.MAX_SAFE_INTEGER}`,
    ],
    [row({ cycle: 0 }), `"cycle" is 0, expected a whole number from 1 to ${Number.MAX_SAFE_INTEGER}`],
    [row({ times: "3" }), '"times" is "3", expected a list'],
    [row({ times: [], precedence: [] }), '"times" is [], expected at least one task time'],
    [row({ times: [3, -1, 2] }), "the time of task 2 is -1, expected a whole number from 0 to 6"],
    [row({ times: [3, 7, 2] }), "the time of task 2 is 7, expected a whole number from 0 to 6"],
    [row({ times: [3, 2.5, 2] }), "the time of task 2 is 2.5, expected a whole number from 0 to 6"],
    [row({ precedence: undefined }), '"precedence" is missing, expected a list'],
    [row({ precedence: [[1]] }), 'a pair of "precedence" is [1], expected [before, after]'],
    [row({ precedence: [[1, 4]] }), "a task of the pair [1,4] is 4, expected a whole number from 1 to 3"],
    [row({ precedence: [[0, 1]] }), "a task of the pair [0,1] is 0, expected a whole number from 1 to 3"],
    [row({ precedence: [[2, 2]] }), "the arrows form a loop: 2 -> 2"],
    [
      row({
        precedence: [
          [1, 2],
          [2, 3],
          [3, 1],
        ],
      }),
      "the arrows form a loop: 1 -> 2 -> 3 -> 1",
    ],
    [row({ published: 2 }), '"published" is 2, expected an object'],
    [
      row({ published: { lower: 3, upper: 2 } }),
      `"upper" of "published" is 2, expected a whole number from 3 to ${Number.MAX_SAFE_INTEGER}`,
    ],
    [
      row({ cycle: 2 ** 52, times: [2 ** 52, 2 ** 52 - 1], precedence: [] }),
      "the task times add up to 9007199254740991 common units, exact sums need at most 3002399751580330",
    ],
  ])("are refused with the number of the line: %s", (text, message) => {
    expect(() => readRows(`${row({})}\n${text}`)).toThrow(new MalformedRowError(`2: ${message}`));
  });

  it("are refused where there is none", () => {
    expect(() => readRows("\n")).toThrow(new MalformedRowError("1: there is no row, expected at least one"));
  });
});
