import { nearestNames } from "../findings/nearest.js";
import { NUMBER } from "./exact-number.js";
import { explainNumberSlip } from "./number-slips.js";
import { quoted } from "./quoted.js";
import { type Micros, TIME_UNITS, type TimeUnit, unitNamed } from "./units.js";

/** Words that people write for a unit, with what to write instead. */
/** A map, as words that every object has, such as constructor, are no units. */
const MEANT: ReadonlyMap<string, TimeUnit> = new Map([
  ["sec", "s"],
  ["secs", "s"],
  ["second", "s"],
  ["seconds", "s"],
  ["m", "min"],
  ["mn", "min"],
  ["mins", "min"],
  ["minute", "min"],
  ["minutes", "min"],
  ["hr", "h"],
  ["hrs", "h"],
  ["hour", "h"],
  ["hours", "h"],
  ["cm", "cmin"],
  ["cmins", "cmin"],
  ["hm", "cmin"],
  ["tmus", "tmu"],
]);

/** Units that are none here although a known one is spelt much like them. */
const SMALLER = new Set(["ms", "msec", "us", "µs"]);
const SHORTEST_GUESSED = 3;

const ONE_PART = new RegExp(`^(${NUMBER})\\s*([^\\d\\s.:]+)(.*)$`, "u");
const BARE = new RegExp(`^(?:${NUMBER})$`, "u");

/** The unit that a word stands for as people write units, such as sec or minutes; null for any other word. */
export const unitMeant = (word: string): TimeUnit | null => MEANT.get(word.toLowerCase()) ?? unitNamed(word);

const HOUR = 3_600_000_000;

/** What to write for h:mm:00 where spreadsheets make that of mm:ss; null where the text is no such clock, or less than an hour. */
export function clockSlip(text: string, value: Micros): string | null {
  const clock = /^(\d+):(\d{2}):00$/u.exec(text);
  if (clock === null || value < HOUR) return null;
  return `${quoted(text)} is ${clock[1]} h ${clock[2]} min; spreadsheets make that of mm:ss, so write 0:${clock[1]!.padStart(2, "0")}:${clock[2]} if that is meant`;
}

/** Why the text is no time, and what to write. `bareUnit` is the unit of a bare number, null where there is none. */
export function explainDurationSlip(text: string, bareUnit: TimeUnit | null): string {
  if (text === "")
    return "a time is missing (blank is never 0): write it with its unit, such as 40 s or 1.5 min";
  const why =
    explainNumberSlip(text) ?? colons(text) ?? bare(text, bareUnit) ?? halfCompound(text) ?? unit(text);
  return `${quoted(text)} is not a time: ${why ?? `write a number and a unit (${TIME_UNITS.join(", ")}), such as 40 s, or mm:ss`}`;
}

function colons(text: string): string | null {
  if (!text.includes(":")) return null;
  const alone = /^([\d:.]+)\s*[a-z]+$/iu.exec(text);
  if (alone) return `a:b is always mm:ss and a:b:c always h:mm:ss, so it takes no unit; write ${alone[1]}`;
  return "write mm:ss, or h:mm:ss, with two digits below 60 in every part after the first, such as 4:07";
}

function bare(text: string, bareUnit: TimeUnit | null): string | null {
  if (bareUnit !== null || !BARE.test(text)) return null;
  return `it needs a unit; write ${text} s or ${text} min, or give \`unit:\``;
}

/** 7h30: the last number has lost its unit. */
function halfCompound(text: string): string | null {
  const found = /^(\d+)\s*(h|min)\s*(\d{1,2})$/iu.exec(text);
  if (!found) return null;
  const [, first, large = "", second = ""] = found;
  const hours = large.toLowerCase() === "h";
  const clock = `${first}:${second.padStart(2, "0")}${hours ? ":00" : ""}`;
  return `every number needs its unit; write ${first} ${hours ? "h" : "min"} ${second} ${hours ? "min" : "s"} or ${clock}`;
}

function unit(text: string): string | null {
  const found = ONE_PART.exec(text);
  if (!found) return null;
  const [, number, word = "", rest = ""] = found;
  const list = TIME_UNITS.join(", ");
  if (unitNamed(word) !== null) {
    return rest.trim() === "" ? null : `units run from large to small, each once, as in 1 min 20 s (${list})`;
  }
  const near = meantUnit(word.toLowerCase());
  const advice = near === null ? "" : `; write ${number} ${near}${rest}`;
  return `${quoted(word)} is no unit; units are ${list}${advice}`;
}

/** The unit that a word stands for, or is spelt nearly like; null where a guess would be a bad one. */
function meantUnit(word: string): TimeUnit | null {
  const known = MEANT.get(word);
  if (known !== undefined || word.length < SHORTEST_GUESSED || SMALLER.has(word)) return known ?? null;
  const [near] = nearestNames(word, [...TIME_UNITS, ...MEANT.keys()]);
  return near === undefined ? null : (MEANT.get(near) ?? unitNamed(near));
}
