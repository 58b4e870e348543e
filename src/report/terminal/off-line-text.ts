import type { BalanceAnswer } from "../../answer/balance/balance-answer.js";
import type { LongAnswer } from "../../answer/long-tasks/long-answer.js";
import type { BlockFlag, LongTaskFlag } from "../../answer/off-line/off-line-flag.js";
import { visibleText } from "../../findings/visible-text.js";
import type { Line } from "../../line/line.js";
import { blockDetails } from "../words/block-flag-words.js";
import { longAnswersWords } from "../words/long-answer-words.js";
import { paragraph } from "./sections.js";
import { type Look, paintFor } from "./style.js";
import { formatTable } from "./table.js";

/** Blocks shown to a person; the JSON has them all. */
const SHOWN = 5;

/** Tasks over a limit with the answers that exist, then blocks worth building at a bench, the most useful first. */
export function offLineText(
  { line, offLine, balance, rates }: BalanceAnswer,
  isFull: boolean,
  look: Look,
): string {
  const long = offLine.filter((flag) => flag.kind === "over-limit");
  const blocks = offLine.filter((flag) => flag.kind === "block");
  const worthShowing = blocks
    .filter((flag) => flag.freed === null || flag.freed >= 0)
    .slice(0, isFull ? SHOWN : 1);
  const rows = [
    ...longRows(line, long),
    ...worthShowing.flatMap((flag) => (isFull ? blockRows(line, flag) : [blockRow(flag)])),
  ];
  const paint = paintFor(look);
  const table = formatTable([{ head: "" }, { head: "", wraps: true }], rows, look.width, (text, _, column) =>
    column === 0 ? paint.strong(text) : text,
  );
  if (rates !== null) return "";
  const searched = balance === null || balance.search !== null;
  const rest = searched ? countOthers(worthShowing.length, blocks.length, isFull) : NOT_COMPARED;
  return `${table}${paragraph(rest, look)}`;
}

const NOT_COMPARED = "Blocks are compared by the exact search only: --method best or exact.";

/** Where none is shown, each of them costs people. */
function countOthers(shown: number, all: number, isFull: boolean): string {
  const [more, lists] = [all - shown, `${isFull ? "--json" : "linepoise off-line"} lists`];
  if (more === 0) return "";
  if (shown > 0)
    return `${more === 1 ? "1 more block shortens" : `${more} more blocks shorten`} the line; ${lists} them all.`;
  return more === 1
    ? `1 block shortens the line but costs people; ${lists} it.`
    : `${more} blocks shorten the line but cost people; ${lists} them.`;
}

/** Each task over a limit with its own answers; those that all of them have in common stand once, below. */
function longRows(line: Line, long: readonly LongTaskFlag[]): [string, string][] {
  const isShared = ({ isJoint }: LongAnswer) => isJoint && long.length > 1;
  const own = long.map(({ tasks, answers, stationsBefore }): [string, string] => {
    const words = longAnswersWords(
      line,
      answers.filter((each) => !isShared(each)),
    );
    const heading = stationsBefore === null ? "too long" : "tight";
    return [heading, visibleText(`${tasks.join(", ")}: ${words}`)];
  });
  const shared = (long[0]?.answers ?? []).filter(isShared);
  const who = long.length === 2 ? "both of them" : "all of them";
  return shared.length === 0 ? own : [...own, ["", visibleText(`${who}: ${longAnswersWords(line, shared)}`)]];
}

function blockRows(line: Line, flag: BlockFlag): [string, string][] {
  return [
    [heading(flag), tasksWords(flag)],
    ["", `${changeWords(flag)} (${flag.outcome}); ${visibleText(blockDetails(line, flag))}`],
  ];
}

function blockRow(flag: BlockFlag): [string, string] {
  const doubts = [
    flag.outcome,
    ...(flag.isDoubted ? ["the change is not certain"] : []),
    ...(flag.isGuess ? ["if that may leave the line"] : []),
  ];
  return [heading(flag), `${tasksWords(flag)}; ${changeWords(flag)} (${doubts.join(", ")})`];
}

const tasksWords = ({ tasks, joinsAt }: BlockFlag): string =>
  `${visibleText(tasks.join(", "))}; joins at ${visibleText(joinsAt)}`;

function changeWords({ stationsBefore, stationsAfter, peopleAfter, counted }: BlockFlag): string {
  const { before, after, isOfDay } = counted ?? { before: "-", after: peopleAfter, isOfDay: false };
  const people = `people in all${isOfDay ? " a day" : ""} ${before} -> ${after}`;
  return `stations ${stationsBefore ?? "-"} -> ${stationsAfter}, ${people}`;
}

function heading({ freed }: BlockFlag): string {
  if (freed === null) return "possible";
  if (freed === 0) return "no gain";
  return freed > 0 ? `frees ${freed}` : `costs ${-freed}`;
}
