import { nearestWords } from "../findings/nearest.js";
import { type Demand, readDemand } from "../time/demand.js";
import { TIME_UNITS, type TimeUnit } from "../time/duration.js";
import { quoted } from "../time/quoted.js";
import { accept, type Reading, refuse } from "../time/reading.js";
import { unitNamed } from "../time/units.js";

/** Free words of people: anything but nothing, without blanks around it. */
export function readWords(text: string): Reading<string> {
  if (text.trim() === "") return refuse("words are missing; leave the key out where there is nothing to say");
  return accept(text.trim());
}

/** For how many units somebody delivers in a period; written as a demand is. */
export function readSupply(text: string): Reading<Demand> {
  const read = readDemand(text);
  return read.ok ? read : refuse(read.problem.replace(/(?<=\b(?:a|no) )demand\b/u, "supply"));
}

/** `true` or `false`, and no other word for it. */
export function readYesNo(text: string): Reading<boolean> {
  const trimmed = text.trim();
  if (trimmed === "true" || trimmed === "false") return accept(trimmed === "true");
  if (trimmed === "") return refuse("true or false is missing");
  return refuse(`${quoted(trimmed)} is neither true nor false, and no other word is taken for them`);
}

/** The unit of bare numbers, in any case of letters. */
export function readUnit(text: string): Reading<TimeUnit> {
  const unit = unitNamed(text.trim());
  if (unit !== null) return accept(unit);
  const expected = `units are ${TIME_UNITS.join(", ")}`;
  if (text.trim() === "") return refuse(`a unit is missing: ${expected}`);
  return refuse(`${quoted(text.trim())} is no unit: ${expected}${nearestWords(text, TIME_UNITS)}`);
}

/** One word of a short list, as it is written there. */
export function readChoice<Word extends string>(noun: string, words: readonly Word[]) {
  const expected = `${words.slice(0, -1).join(", ")} or ${words.at(-1)} is expected`;
  return (text: string): Reading<Word> => {
    const word = words.find((each) => each === text.trim());
    if (word !== undefined) return accept(word);
    if (text.trim() === "") return refuse(`${noun} is missing: ${expected}`);
    return refuse(`${quoted(text.trim())} is not ${noun}: ${expected}${nearestWords(text, words)}`);
  };
}

/** A mass such as `27 kg`, kept as typed: it is shown to people and never reckoned with. */
export function readMass(text: string): Reading<string> {
  const trimmed = text.trim();
  const expected = "a number above 0 and kg, such as 27 kg";
  if (trimmed === "") return refuse(`a mass is missing: write ${expected}`);
  const found = /^(\d+(?:\.\d+)?)\s*kg$/u.exec(trimmed);
  if (found && /[1-9]/u.test(found[1]!)) return accept(trimmed);
  return refuse(`${quoted(trimmed)} is not a mass: write ${expected}`);
}
