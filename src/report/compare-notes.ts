import type { OptionAnswer } from "../compare/option-answer.js";
import { SHIFTS_DIFFER } from "../compare/shift-notes.js";
import { obstacleOf } from "../compare/verdict.js";
import { BLOCKS_LEFT_OUT } from "../off-line/answer-balance.js";
import { isPaceNeed } from "../off-line/find-pace-needs.js";

/** What the file says of an option beyond the verdict, what the table cannot show of it, and what is not certain about its figures. */
export function notesOf(option: OptionAnswer): string[] {
  const { asked, outcome, balance, findings, posts, isCut } = option;
  const inVerdict = obstacleOf(option);
  const what = balance?.rates ? "the shortest cycle is" : "the fewest people are";
  const open = outcome === "found" && balance !== null ? `${what} not proved` : "";
  const told = findings
    // What leaves the line is what the options say, so that blocks nobody looked at are no news here.
    .filter(({ rule }) => rule !== BLOCKS_LEFT_OUT)
    .filter(({ severity, rule }) => severity !== "note" || rule === SHIFTS_DIFFER || isPaceNeed(rule))
    .filter((each) => each !== inVerdict)
    .map(({ message }) => message);
  return [asked.option?.note ?? "", open, isCut && posts.length > 0 ? "interrupted" : "", ...told].filter(
    (each) => each !== "",
  );
}
