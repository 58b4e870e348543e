import { nearestWords } from "../findings/nearest.js";
import { readDuration } from "../time/duration.js";
import type { Reading } from "../time/reading.js";
import type { Micros, TimeUnit } from "../time/units.js";

/**
 * Wrong use of the library: an option that does not exist, has a value that cannot be read, or does not go with another one; a line or a
 * plan that the library did not make. The message says what was expected. Wrong input, which users write, is never thrown: it is findings.
 */
export class UsageError extends Error {
  override readonly name = "UsageError";
}

/** Refuses options that do not exist, by the nearest that do, and values of another kind: neither is passed over. */
export function checkOptions(options: unknown, known: readonly string[]): void {
  if (!isObject(options)) throw new UsageError(`options: an object is expected, with ${known.join(", ")}`);
  for (const [name, value] of Object.entries(options)) {
    if (value === undefined) continue;
    if (!known.includes(name)) {
      const near = nearestWords(name, known) || `; known: ${known.join(", ")}`;
      throw new UsageError(`no option is called "${name}"${near}`);
    }
    const kind = KINDS.find(({ options: of }) => of.has(name));
    if (kind !== undefined && !kind.isRight(value))
      throw new UsageError(`${name}: ${kind.expected} is expected, not ${shownValue(value)}`);
  }
}

const isObject = (value: unknown): value is object => typeof value === "object" && value !== null;
const isText = (value: unknown) => typeof value === "string";
const isListOf = (value: unknown, isRight: (each: unknown) => boolean) =>
  Array.isArray(value) && value.every(isRight);

const shownValue = (value: unknown) => (isText(value) ? JSON.stringify(value) : String(value));

/** Options whose values nothing reads that would refuse another kind. */
const KINDS = [
  {
    expected: "true or false",
    options: new Set(
      "level strictLimit explain joinsAtSeveral learning each whatHelps proof training guard ranges".split(
        " ",
      ),
    ),
    isRight: (value: unknown) => typeof value === "boolean",
  },
  {
    expected: "a text",
    options: new Set("file lineFile present date station model option sheet leaveOut".split(" ")),
    isRight: isText,
  },
  {
    expected: "a list of texts",
    options: new Set("keep rank nothing allowances".split(" ")),
    isRight: (value: unknown) => isListOf(value, isText),
  },
  {
    expected: "a list of blocks, each a list of ids",
    options: new Set(["blocks"]),
    isRight: (value: unknown) => isListOf(value, (each) => isListOf(each, isText)),
  },
  { expected: "a list", options: new Set(["options", "orders"]), isRight: Array.isArray },
  {
    expected: "an AbortSignal",
    options: new Set(["signal"]),
    isRight: (value: unknown) => isObject(value) && "aborted" in value,
  },
];

/** Refuses two options that exclude each other. */
export function refuseTogether(one: readonly [string, unknown], two: readonly [string, unknown]): void {
  if (one[1] !== undefined && two[1] !== undefined)
    throw new UsageError(`${one[0]} and ${two[0]} exclude each other; give one of them`);
}

/** What an option names, as it was looked up. */
export function valueFor<Value>(name: string, reading: Reading<Value>): Value {
  if (!reading.ok) throw new UsageError(`${name}: ${reading.problem}`);
  return reading.value;
}

/** What a text of an option says, by the reader that the command line has for it. */
export function textOption<Value>(
  name: string,
  text: unknown,
  read: (text: string) => Reading<Value>,
): Value {
  if (typeof text !== "string") throw new UsageError(`${name}: a text is expected, as a line file has it`);
  return valueFor(name, read(text));
}

/** The same of one that may be left out. */
export const textIfGiven = <Value>(
  name: string,
  text: unknown,
  read: (text: string) => Reading<Value>,
): Value | undefined => (text === undefined ? undefined : textOption(name, text, read));

/** A time above 0, in a unit of its own or in this one. */
export function timeOption(name: string, text: unknown, unit: TimeUnit | null): Micros {
  const time = textOption(name, text, (given) => readDuration(given, unit));
  if (time <= 0) throw new UsageError(`${name}: a time above 0 is expected, such as 60 s`);
  return time;
}

/** A whole number within limits, or nothing where it is left out. */
export function countOption(
  name: string,
  count: unknown,
  least: number,
  most = Number.MAX_SAFE_INTEGER,
): number | undefined {
  if (count === undefined) return undefined;
  if (typeof count === "number" && Number.isSafeInteger(count) && count >= least && count <= most)
    return count;
  const range = most === Number.MAX_SAFE_INTEGER ? `from ${least}` : `from ${least} to ${most}`;
  throw new UsageError(`${name}: a whole number ${range} is expected, not ${String(count)}`);
}

/** One of a few words, or nothing where it is left out. */
export function wordOption<Word extends string>(
  name: string,
  word: unknown,
  words: readonly Word[],
): Word | undefined {
  if (word === undefined) return undefined;
  const found = words.find((each) => each === word);
  if (found !== undefined) return found;
  throw new UsageError(
    `${name}: one of ${words.join(", ")} is expected${nearestWords(String(word), words)}, not ${String(word)}`,
  );
}
