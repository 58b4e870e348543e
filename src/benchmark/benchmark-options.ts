import { nearestWords } from "../findings/nearest.js";

export interface BenchmarkOptions {
  /** Path of the file of rows. */
  readonly lines: string;
  /** Time for a row. */
  readonly seconds: number;
  /** Takes rows 1, every + 1, 2 every + 1, ... */
  readonly every: number;
  /** Say a line for each row. */
  readonly each: boolean;
}

export const USAGE = "usage: benchmark --lines FILE.jsonl [--seconds S] [--every K] [--each]";

/** A word on the command line that the benchmark cannot use. */
export class UsageError extends Error {}

const NAMES = ["--lines", "--seconds", "--every", "--each"];

/** Reads the words after the program's name. Throws UsageError. */
export function readOptions(words: readonly string[]): BenchmarkOptions {
  const given = pairUp(words);
  const lines = given.get("--lines");
  if (lines === undefined) throw new UsageError("--lines FILE.jsonl is missing");
  return {
    lines,
    seconds: readSeconds(given.get("--seconds") ?? "3"),
    every: readEvery(given.get("--every") ?? "1"),
    each: given.has("--each"),
  };
}

/** Options with their values, as `--name value` or `--name=value`; `--each` has none. */
function pairUp(words: readonly string[]): Map<string, string> {
  const given = new Map<string, string>();
  for (let at = 0; at < words.length; at++) {
    const equals = words[at]!.indexOf("=");
    const name = equals < 0 ? words[at]! : words[at]!.slice(0, equals);
    if (!NAMES.includes(name)) throw new UsageError(`unknown option ${name}${nearestWords(name, NAMES)}`);
    if (given.has(name)) throw new UsageError(`${name} is given twice`);
    if (name === "--each") {
      if (equals >= 0) throw new UsageError("--each takes no value");
      given.set(name, "");
      continue;
    }
    const value = equals < 0 ? words[++at] : words[at]!.slice(equals + 1);
    if (value === undefined || value === "") throw new UsageError(`${name} needs a value`);
    given.set(name, value);
  }
  return given;
}

function readSeconds(text: string): number {
  const seconds = Number(text);
  if (/^\d+(\.\d+)?$/.test(text) && seconds > 0 && Number.isFinite(seconds)) return seconds;
  throw new UsageError(`--seconds ${text}: expected a number above 0, such as 3 or 0.5`);
}

function readEvery(text: string): number {
  const every = Number(text);
  if (/^\d+$/.test(text) && every > 0 && Number.isSafeInteger(every)) return every;
  throw new UsageError(`--every ${text}: expected a whole number from 1`);
}
