import { describe, expect, it } from "vitest";
import { readOptions, UsageError } from "../../../src/benchmark/benchmark-options.js";

describe("options of the benchmark", () => {
  it("are 3 s a row, every row and no line for each, unless given", () => {
    expect(readOptions(["--lines", "a.jsonl"])).toEqual({
      lines: "a.jsonl",
      seconds: 3,
      every: 1,
      each: false,
    });
  });

  it("are read with a space or an equals sign", () => {
    const words = ["--each", "--seconds=0.5", "--every", "4", "--lines=a=b.jsonl"];
    expect(readOptions(words)).toEqual({ lines: "a=b.jsonl", seconds: 0.5, every: 4, each: true });
  });

  it.each([
    [[], "--lines FILE.jsonl is missing"],
    [["--line", "a"], "unknown option --line; nearest: --lines"],
    [["a.jsonl"], "unknown option a.jsonl"],
    [["--lines"], "--lines needs a value"],
    [["--lines", "a", "--lines", "b"], "--lines is given twice"],
    [["--lines", "a", "--seconds", "0"], "--seconds 0: expected a number above 0, such as 3 or 0.5"],
    [["--lines", "a", "--seconds", "1e3"], "--seconds 1e3: expected a number above 0, such as 3 or 0.5"],
    [["--lines", "a", "--every", "0"], "--every 0: expected a whole number from 1"],
    [["--lines", "a", "--every", "1.5"], "--every 1.5: expected a whole number from 1"],
    [["--lines", "a", "--each=yes"], "--each takes no value"],
  ])("are refused: %j", (words, message) => {
    expect(() => readOptions(words)).toThrow(new UsageError(message));
  });
});
