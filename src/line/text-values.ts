import { eitherOf } from "../findings/list-of.js";
import { nearestWords } from "../findings/nearest.js";
import { quoted } from "../time/quoted.js";
import { accept, type Reading, refuse } from "../time/reading.js";

/** Free words of people: anything but nothing, without blanks around it. */
export function readWords(text: string): Reading<string> {
  if (text.trim() === "") return refuse("words are missing; leave the key out where there is nothing to say");
  return accept(text.trim());
}

/** `true` or `false`, and no other word for it. */
export function readYesNo(text: string): Reading<boolean> {
  const trimmed = text.trim();
  if (trimmed === "true" || trimmed === "false") return accept(trimmed === "true");
  if (trimmed === "") return refuse("true or false is missing");
  return refuse(`${quoted(trimmed)} is neither true nor false, and no other word is taken for them`);
}

/** One word of a short list, as it is written there. */
export function readChoice<Word extends string>(noun: string, words: readonly Word[]) {
  const expected = `${eitherOf(words)} is expected`;
  return (text: string): Reading<Word> => {
    const word = words.find((each) => each === text.trim());
    if (word !== undefined) return accept(word);
    if (text.trim() === "") return refuse(`${noun} is missing: ${expected}`);
    return refuse(`${quoted(text.trim())} is not ${noun}: ${expected}${nearestWords(text, words)}`);
  };
}
