import type { OptionAnswer } from "../answer/compare/option-answer.js";
import type { OptionFacts } from "../answer/compare/option-facts.js";
import { notStatedWords } from "./words/payback-words.js";

/** What the file says of an option beyond the verdict, what the table cannot show of it, and what is not certain about its figures. */
export function notesOf(
  { asked, outcome, balance, posts, isCut }: OptionAnswer,
  { notes, payback }: OptionFacts,
): string[] {
  const what = balance?.rates ? "the shortest cycle is" : "the fewest people are";
  const open = outcome === "found" && balance !== null ? `${what} not proved` : "";
  const unstated = payback?.outcome === "not stated" ? notStatedWords(payback.why) : "";
  const cut = isCut && posts.length > 0 ? "interrupted" : "";
  return [asked.option?.note ?? "", unstated, open, cut, ...notes.map(({ message }) => message)].filter(
    (each) => each !== "",
  );
}
