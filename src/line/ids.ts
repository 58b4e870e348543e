import { unseenCharacters } from "../findings/visible-text.js";
import { quoted } from "../time/quoted.js";
import { accept, type Reading, refuse } from "../time/reading.js";

/** What makes two ids the same: the text after Unicode NFC, without blanks around it. */
export function idKey(text: string): string {
  return text.normalize("NFC").trim();
}

/** Longer ones fit no table and no sheet; `name` is the place for words. */
const LONGEST = 200;

/** An id keeps its text as typed; it must not be empty, very long, nor hold what cannot be seen. */
export function readId(text: string): Reading<string> {
  if (idKey(text) === "") return refuse("an id is missing: blank is no name");
  const unseen = unseenCharacters(text);
  if (unseen.length > 0)
    return refuse(`id ${quoted(text)} holds ${unseen.join(" ")}, which cannot be seen; leave it out`);
  if (text.length > LONGEST) {
    return refuse(
      `id ${quoted(text)} has ${text.length} characters; at most ${LONGEST} are expected, put words into a name`,
    );
  }
  return accept(text);
}

/** Finds the number of what the text names; undefined where nothing is called so. */
export type NumberOf = (id: string) => number | undefined;
